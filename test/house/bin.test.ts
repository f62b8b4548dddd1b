import { spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { version } from "../../src/version.ts";
import { root } from "./root.ts";

const start = (bin: string, ...args: string[]) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [bin, ...args], { cwd: root, encoding: "utf8" });
  return { status, stdout, stderr };
};

beforeAll(() => {
  if (!existsSync(`${root}dist/cli.js`)) throw new Error("Build first: npm run build");
});

test("the command says its version", () => {
  expect(start(`${root}bin/tg-hydrates.js`, "--version")).toEqual({ status: 0, stdout: `${version}\n`, stderr: "" });
});

test("a misspelt command ends with 2 and no stack trace", () => {
  const { status, stdout, stderr } = start(`${root}bin/tg-hydrates.js`, "indx");
  expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
  expect(stderr).toContain("indx");
  expect(stderr).not.toMatch(/\n\s+at /);
});

test("a clone that is not built says so in one line", () => {
  const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-bin-"));
  try {
    mkdirSync(join(folder, "bin"));
    writeFileSync(join(folder, "package.json"), '{ "type": "module" }');
    copyFileSync(`${root}bin/tg-hydrates.js`, join(folder, "bin", "tg-hydrates.js"));
    expect(start(join(folder, "bin", "tg-hydrates.js"), "--version")).toEqual({
      status: 2,
      stdout: "",
      stderr: "tg-hydrates: not built yet; run: npm run build\n",
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test("the command as it is built shares the work among threads when asked", () => {
  const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-bin-"));
  try {
    // Tells of every thread that is started.
    const watch = `import threads from "node:worker_threads";
import { syncBuiltinESMExports } from "node:module";
const { Worker } = threads;
threads.Worker = class extends Worker {
  constructor(...args) {
    super(...args);
    process.stderr.write("a thread\\n");
  }
};
syncBuiltinESMExports();\n`;
    writeFileSync(join(folder, "watch.mjs"), watch);
    const threads = (jobs: string) => {
      const command = [`${root}bin/tg-hydrates.js`, "index", `${root}fixtures/example`, "--jobs", jobs];
      const { status, stdout, stderr } = spawnSync(process.execPath, ["--import", "./watch.mjs", ...command], {
        cwd: folder,
        encoding: "utf8",
      });
      return { status, stdout, started: stderr.match(/^a thread$/gm)?.length ?? 0 };
    };
    const [one, two] = [threads("1"), threads("2")];
    expect([one.status, one.started, two.status, two.started > 0]).toEqual([0, 0, 0, true]);
    expect(two.stdout).toBe(one.stdout);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
