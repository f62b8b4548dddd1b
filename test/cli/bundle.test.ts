import { spawn, spawnSync } from "node:child_process";
import { closeSync, existsSync, linkSync, mkdtempSync, openSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { afterAll, beforeAll, expect, test } from "vitest";
import { exportBytes } from "../files/exportBytes.ts";
import { tempFolder } from "../files/tempFolder.ts";

const built = mkdtempSync(join(tmpdir(), "tg-hydrates-bundle-"));
const script = join(built, "cli.js");

beforeAll(async () => {
  await build({
    entryPoints: { cli: "src/cli/main.ts", worker: "src/files/worker.ts" },
    outdir: built,
    bundle: true,
    platform: "node",
    format: "esm",
    external: ["vega", "vega-lite", "@resvg/resvg-js"],
    banner: { js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);' },
    logLevel: "silent",
  });
  const { writeFileSync } = await import("node:fs");
  writeFileSync(join(built, "package.json"), '{"type":"module"}');
});
afterAll(() => rmSync(built, { recursive: true, force: true }));

const run = (argv: string[], cwd: string) => spawnSync(process.execPath, [script, ...argv], { cwd, encoding: "utf8" });

function campaign(): string {
  const layouts = ["tabs", "semicolons", "commas", "blanks", "wide"] as const;
  const files = layouts.map(
    (layout, i) => [`data/mixA_${i + 1}d.txt`, exportBytes({ layout, seed: i, aft: 8 + i })] as const,
  );
  return tempFolder({ ...Object.fromEntries(files), "data/bad_7d.txt": "" });
}

test("the same bytes for 1, 2 and 4 threads", () => {
  const cwd = campaign();
  const results = [1, 2, 4].map((jobs) => {
    const { status, stdout, stderr } = run(["index", "data", "--jobs", `${jobs}`, "--out", `out${jobs}`], cwd);
    const files = ["runs.csv", "losses.csv", "ages.csv", "curves.ndjson", "campaign.json"].map((name) =>
      readFileSync(join(cwd, `out${jobs}`, name), "utf8"),
    );
    return { status, stdout, stderr: stderr.replace(`out${jobs}`, "out"), files };
  });
  expect(results[0]!.status).toBe(1);
  expect(results[1]).toEqual(results[0]);
  expect(results[2]).toEqual(results[0]);
});

test("a second job is a worker thread of the bundle", () => {
  const cwd = campaign();
  const env = { ...process.env, NODE_DEBUG: "worker" };
  const workers = [1, 2, 3].map((jobs) => {
    const argv = [script, "index", "data", "--jobs", `${jobs}`];
    const { stderr } = spawnSync(process.execPath, argv, { cwd, env, encoding: "utf8" });
    return stderr.match(/created Worker with ID/g)?.length ?? 0;
  });
  expect(workers).toEqual([0, 1, 2]);
});

test("exit codes reach the shell", () => {
  const cwd = campaign();
  expect(run(["--version"], cwd).status).toBe(0);
  expect(run(["index", "nowhere"], cwd).status).toBe(2);
  expect(run(["index", "data"], cwd).status).toBe(1);
});

test("who reads only the beginning of the output causes no error", async () => {
  const cwd = campaign();
  const child = spawn(process.execPath, [script, "index", "data", "--json"], {
    cwd,
    stdio: ["ignore", "pipe", "pipe"],
  });
  child.stdout.destroy();
  let err = "";
  child.stderr.on("data", (piece) => {
    err += piece;
  });
  await new Promise((done) => child.on("close", done));
  expect(err).not.toContain("EPIPE");
  expect(err).not.toMatch(/^\s+at /m);
});

test("who reads only the beginning still gets every file", async () => {
  const cwd = campaign();
  const child = spawn(process.execPath, [script, "index", "data", "--json", "--out", "out", "--no-figures"], {
    cwd,
    stdio: ["ignore", "pipe", "pipe"],
  });
  child.stdout.destroy();
  let err = "";
  child.stderr.on("data", (piece) => {
    err += piece;
  });
  expect(await new Promise((done) => child.on("close", done))).toBe(1);
  expect(err).toMatch(/\nWrote runs\.csv, .+ to out\n$/);
  expect(existsSync(join(cwd, "out", "campaign.json"))).toBe(true);
});

test.runIf(existsSync("/dev/full"))("a table that cannot be printed is an error, not a stack trace", () => {
  const cwd = campaign();
  const full = openSync("/dev/full", "w");
  try {
    const table = spawnSync(process.execPath, [script, "index", "data"], { cwd, stdio: ["ignore", full, "pipe"] });
    expect(table.status).toBe(2);
    expect(`${table.stderr}`).toMatch(
      /\nThe printed output: No space is left on the disk\. Make room, or use another disk\.\n$/,
    );
    // Messages that nobody can read change nothing.
    const messages = spawnSync(process.execPath, [script, "index", "data"], { cwd, stdio: ["ignore", "pipe", full] });
    expect([messages.status, `${messages.stdout}` === ""]).toEqual([1, false]);
  } finally {
    closeSync(full);
  }
});

test.for(["SIGINT", "SIGTERM"] as const)(
  "%s while runs are measured: said, nothing written, exit code 130",
  async (signal) => {
    const cwd = campaign();
    // Work for seconds.
    for (let i = 0; i < 400; i++) linkSync(join(cwd, "data", "mixA_1d.txt"), join(cwd, "data", `mixA_${i + 10}d.txt`));
    const child = spawn(process.execPath, [script, "index", "data", "--jobs", "2", "--out", "out"], { cwd });
    let err = "";
    child.stderr.on("data", (piece) => {
      err += piece;
    });
    while (!existsSync(join(cwd, "out"))) await new Promise((turn) => setTimeout(turn, 10));
    child.kill(signal);
    expect(await new Promise((done) => child.on("close", done))).toBe(130);
    expect(err).toMatch(/Stopped (before the first run|after \d of \d+ runs)\. Nothing was written\.\n$/);
    expect(readdirSync(join(cwd, "out"))).toEqual([]);
  },
);
