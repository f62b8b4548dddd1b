import { spawnSync } from "node:child_process";
import { utimesSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { tempFolder } from "../files/tempFolder.ts";
import { root } from "./root.ts";

/** The table of `npm run trust -- --quick` on reports that are known: first words of a row → the row. */
function trust(reports: string): { status: number | null; rows: Map<string, string> } {
  const args = [`${root}test/tools/trust.js`, "--quick", "--reports", reports];
  const { status, stdout } = spawnSync(process.execPath, args, {
    encoding: "utf8",
    // Nobody answers there: the test needs no network.
    env: { ...process.env, npm_config_registry: "http://127.0.0.1:9/" },
  });
  const rows = stdout.trimEnd().split("\n");
  return { status, rows: new Map(rows.map((row) => [row.split("  ")[0]!, row.replaceAll(/ {2,}/g, " | ")])) };
}

const mutants = (...statuses: string[]) => ({ mutants: statuses.map((status) => ({ status })) });
const covered = (total: number, covered: number) => ({ total, covered, skipped: 0, pct: (100 * covered) / total });

test("trust counts as the schema of mutants says, and covers the core only", () => {
  const summary = {
    total: { lines: covered(1000, 990), branches: covered(400, 300) },
    "/a/src/losses/losses.ts": { lines: covered(90, 80), branches: covered(10, 9) },
    "/a/src/index.ts": { lines: covered(10, 10), branches: covered(0, 0) },
    "/a/src/cli/run.ts": { lines: covered(500, 1), branches: covered(50, 1) },
    "/a/src/node.ts": { lines: covered(500, 1), branches: covered(50, 1) },
  };
  const folder = tempFolder({
    "mutation/mutation.json": JSON.stringify({
      files: {
        "a.ts": mutants("Killed", "Killed", "Timeout", "Survived", "Ignored"),
        "b.ts": mutants("Killed", "NoCoverage", "CompileError"),
      },
    }),
    "coverage/coverage-summary.json": JSON.stringify(summary),
  });
  const old = new Date("2001-02-03T04:05:06Z");
  utimesSync(join(folder, "mutation/mutation.json"), old, old);
  const { status, rows } = trust(folder);
  expect(status).toBe(0);
  expect(rows.get("mutation score")).toBe(
    "mutation score | 66.7 % | 4 of 6 mutants in 2 files, 1 without a test; of 2001-02-03 04:05 UTC, older than the sources",
  );
  expect(rows.get("coverage of the core, lines")).toContain("| 90.0 % | 90 of 100 in 2 files; everywhere 99 %; of ");
  expect(rows.get("coverage of the core, branches")).toContain("| 90.0 % | 9 of 10 in 2 files; everywhere 75 %; of ");
  expect(rows.get("audit of what is shipped")).toContain("| not audited |");
  expect(rows.get("tarball")).toMatch(/\| \d+ kB \| unpacked \d+ kB, \d+ files$/);
});

test("what was not measured is said and is no trust", () => {
  const { status, rows } = trust(tempFolder());
  expect(status).toBe(1);
  expect(rows.get("mutation score")).toBe("mutation score | not measured | npm run mutation");
  expect(rows.get("coverage of the core, lines")).toContain("not measured | npm run coverage");
});
