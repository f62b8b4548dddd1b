import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { UnreadableError } from "../../src/errors.ts";
import { readRun } from "../../src/read/readRun.ts";
import { faultsOf, faultsOfError } from "./soundness.ts";
import { spoil } from "./spoil.ts";

/** More cases by hand: TG_FUZZ_CASES=100000 npx vitest run test/read/fuzz.test.ts --testTimeout 3600000 */
const cases = Number(process.env.TG_FUZZ_CASES ?? 1000);
/** Longest one file may take, s; only watched when run by hand, since a busy machine makes any time possible. */
const slowest = process.env.TG_FUZZ_CASES === undefined ? Number.POSITIVE_INFINITY : 2;

test(`${cases} spoilt files give a run with flags or an error that helps`, () => {
  const root = new URL("../../fixtures/read/", import.meta.url);
  const files = ["accept", "refuse"].flatMap((folder) =>
    readdirSync(new URL(`${folder}/`, root))
      .filter((name) => name.endsWith(".txt"))
      .map((name) => new Uint8Array(readFileSync(new URL(`${folder}/${name}`, root)))),
  );
  let [read, refused, longest] = [0, 0, 0];
  const faults: string[] = [];
  for (let seed = 0; seed < cases; seed++) {
    const bytes = spoil(files, seed);
    const before = performance.now();
    let found: string[];
    try {
      const run = readRun(bytes, { name: "spoilt.txt" });
      longest = Math.max(longest, performance.now() - before);
      found = faultsOf(run, bytes);
      read++;
    } catch (error) {
      longest = Math.max(longest, performance.now() - before);
      found = error instanceof UnreadableError ? faultsOfError(error, "spoilt.txt") : [String(error)];
      refused++;
    }
    faults.push(...found.map((fault) => `seed ${seed}: ${fault}`));
  }
  expect(faults).toEqual([]);
  expect(read).toBeGreaterThan(cases / 10);
  expect(refused).toBeGreaterThan(cases / 10);
  expect(longest / 1000).toBeLessThan(slowest);
}, 3_600_000);
