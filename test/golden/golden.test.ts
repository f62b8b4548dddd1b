import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { cli } from "../cli/cli.ts";
import { root, textOf } from "../house/root.ts";
import { changesOf, digestOf, tablesOf } from "./tablesOf.ts";

const golden = `${root}test/golden/tables`;
const example = "fixtures/example";

const commands: Record<string, string[]> = {
  index: ["index", example],
  amounts: ["index", example, "--protocol", "csa-amounts"],
  compare: [
    "compare",
    example,
    "--reference",
    "sealed",
    "--properties",
    `${example}/properties.csv`,
    "--margin",
    "10%",
  ],
};

/** What the commands write now. */
async function writeTables(): Promise<Map<string, string>> {
  const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-golden-"));
  try {
    for (const [name, argv] of Object.entries(commands)) {
      const { code, err } = await cli([...argv, "--no-figures", "--out", join(folder, name)], { cwd: root });
      if (code !== 0) throw new Error(err);
    }
    const tables = tablesOf(folder);
    // Only the amounts change with that protocol.
    for (const path of tables.keys()) if (/^amounts\/(?!phases)/.test(path)) tables.delete(path);
    return tables;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** What a line about numbers that have changed must say. */
const COMPLETE = /^which: \S.{8,}; why: \S.{8,}; by how much: \S.{4,}/s;

interface Line {
  version: string;
  digest: string;
  text: string;
}

/** The lines of the changelog about these numbers, the newest first. */
function logged(changelog: string): Line[] {
  return changelog.split(/^## /m).flatMap((entry) => {
    const [, list = ""] = entry.split(/^### Numbers of the example campaign\n/m);
    const items = list.split(/^##/m)[0]!.matchAll(/^- `([0-9a-f]{16})`: (.*(?:\n {2}.*)*)/gm);
    return [...items].map(([, digest, text]) => ({
      version: entry.split("\n")[0]!,
      digest: digest!,
      text: text!.replace(/\s+/g, " "),
    }));
  });
}

let now: Map<string, string>;
beforeAll(async () => {
  now = await writeTables();
});

test("the tables of the example are those of the last entry (a change detector: test/golden/README.md)", () => {
  const changes = changesOf(tablesOf(golden), now);
  if (process.env.UPDATE_GOLDEN) {
    rmSync(golden, { recursive: true, force: true });
    for (const [path, text] of now) {
      mkdirSync(dirname(join(golden, path)), { recursive: true });
      writeFileSync(join(golden, path), text);
    }
    if (changes.length > 0) console.log([`For CHANGELOG.md: \`${digestOf(now)}\``, ...changes].join("\n"));
  } else {
    expect(changes).toEqual([]);
  }
  expect(tablesOf(golden)).toEqual(now);
});

test("the newest line of the changelog about numbers is about these tables", () => {
  expect(logged(textOf("CHANGELOG.md"))[0]?.digest).toBe(digestOf(tablesOf(golden)));
});

const lines = logged(textOf("CHANGELOG.md"));

test("every line after the first says which numbers change, why and by how much", () => {
  expect(lines.length).toBeGreaterThan(0);
  for (const { text } of lines.slice(0, -1)) expect(text).toMatch(COMPLETE);
  expect(new Set(lines.map(({ digest }) => digest)).size).toBe(lines.length);
});

test("the changelog is read as it is meant", () => {
  const text = `# Changelog

## 0.2.0

Text.

### Numbers of the example campaign

- \`0123456789abcdef\`: which: the uncertainty of carbonate in losses.csv;
  why: the covariance was left out; by how much: 2 % at most.
- \`00112233445566ff\`: a line that says nothing.

### Else

- \`ffffffffffffffff\`: no such line.

## 0.1.0

### Numbers of the example campaign

- \`fedcba9876543210\`: the first.
`;
  const read = logged(text);
  expect(read.map(({ version, digest }) => [version, digest])).toEqual([
    ["0.2.0", "0123456789abcdef"],
    ["0.2.0", "00112233445566ff"],
    ["0.1.0", "fedcba9876543210"],
  ]);
  expect(read.map(({ text }) => COMPLETE.test(text))).toEqual([true, false, false]);
});

test("what has changed is told by file and column, with its extent", () => {
  const before = new Map([
    ["a.csv", "x,y\n1,2\n3,\n"],
    ["gone.csv", "x\n1\n"],
    ["rows.csv", "x\n1\n"],
    ["same.csv", "x\n1\n"],
    ["wide.csv", "x\n1\n"],
  ]);
  const after = new Map([
    ["a.csv", "x,y\n1.01,2\n3,word\n"],
    ["new.csv", "x\n1\n"],
    ["rows.csv", "x\n1\n2\n"],
    ["same.csv", "x\n1\n"],
    ["wide.csv", "z\n1\n"],
  ]);
  expect(changesOf(before, after)).toEqual([
    "a.csv: x in 1 of 2 rows, by 1 % at most, first 1 → 1.01",
    "a.csv: y in 1 of 2 rows, first empty → word",
    "gone.csv: is gone",
    "rows.csv: 1 rows became 2",
    "wide.csv: columns x became z",
    "new.csv: is new",
  ]);
  expect(digestOf(before)).not.toBe(digestOf(after));
});
