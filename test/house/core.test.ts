import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { root } from "./root.ts";

const tsc = (...args: string[]) =>
  spawnSync(process.execPath, [`${root}node_modules/typescript/bin/tsc`, ...args], { cwd: root, encoding: "utf8" });

/** Where Node is at home; everything else must run in a browser too. */
const NODE_ONLY = /^(?:(?:files|draw|show|cli)\/|(?:node|notebook)\.ts$)/;

test("the pure-core type-check sees every file but those that need Node, and no type of Node or the DOM", () => {
  const { stdout } = tsc("-p", "tsconfig.core.json", "--listFilesOnly");
  const listed = stdout.trim().split("\n");
  const ours = listed.filter((file) => file.startsWith(`${root}src/`)).map((file) => file.slice(`${root}src/`.length));
  const sources = readdirSync(`${root}src`, { recursive: true, encoding: "utf8" }).filter((file) =>
    file.endsWith(".ts"),
  );
  expect(ours.sort()).toEqual(sources.filter((file) => !NODE_ONLY.test(file)).sort());
  expect(listed.filter((file) => /@types\/node|lib\.(?:dom|webworker)/.test(file))).toEqual([]);
});

const PROBES: Record<string, string> = {
  "a module of Node": 'import { sep } from "node:path";\nexport const probe: string = sep;',
  "the process": "export const probe: string = process.cwd();",
  "a Buffer": "export const probe: unknown = Buffer.alloc(1);",
  "a timer": "export const probe: unknown = setTimeout(() => {}, 1);",
  "the console": 'console.log("probe");\nexport {};',
  "the document": "export const probe: string = document.title;",
  "the network": 'export const probe: unknown = fetch("x");',
};

test("a file of the core that uses Node or the DOM is refused", () => {
  const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-core-"));
  try {
    const names = Object.keys(PROBES);
    for (const [i, name] of names.entries()) writeFileSync(join(folder, `probe${i}.ts`), PROBES[name]!);
    writeFileSync(join(folder, "package.json"), '{ "type": "module" }');
    writeFileSync(join(folder, "allowed.ts"), "export const allowed: number = Math.hypot(3, 4);");
    const config = { extends: `${root}tsconfig.core.json`, include: [folder], exclude: [] };
    writeFileSync(join(folder, "tsconfig.json"), JSON.stringify(config));
    const { stdout, status } = tsc("-p", join(folder, "tsconfig.json"), "--pretty", "false");
    const refused = new Set([...stdout.matchAll(/(\w+)\.ts\(\d+,\d+\): error/g)].map((match) => match[1]));
    expect(refused).toEqual(new Set(names.map((_, i) => `probe${i}`)));
    expect(status).not.toBe(0);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
