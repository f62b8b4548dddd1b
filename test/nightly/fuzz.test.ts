import { expect, test } from "vitest";
import { root } from "../house/root.ts";
import { caseOf, runCase } from "./fuzzCases.ts";
import { allKinds } from "./fuzzWorker.ts";

/** A short slice of `npm run nightly:fuzz`, with a seed of its own. */
const cases = 600;
const seed = 20261129;

test(`${cases} hostile inputs of all kinds end well: no crash, no shared prototype touched, nothing written elsewhere`, async () => {
  const kinds = allKinds(root);
  // The rare kinds have a few cases whatever their share.
  const rare = Object.fromEntries(["campaign", "folder"].map((name) => [name, { ...kinds[name]!, share: 1 }]));
  const faults: string[] = [];
  const ended = new Set<string>();
  const run = async (of: typeof kinds, count: number): Promise<void> => {
    for (let number = 0; number < count; number++) {
      const { kind, input } = caseOf(of, seed, number);
      try {
        ended.add(`${kind}: ${await runCase(of, kind, input)}`);
      } catch (error) {
        faults.push(`${kind} ${number}: ${error instanceof Error ? error.message : error}`);
      }
    }
  };
  await run(kinds, cases);
  await run(rare, 24);
  expect(faults).toEqual([]);
  // The cases are of use: of every kind some get through and some do not.
  const both = [
    ["made run: done", "made run: UnreadableError"],
    ["sheet: done", "sheet: problems"],
    ["mixes: done", "mixes: problems"],
    ["properties: done", "properties: problems"],
    ["protocol: done", "protocol: ProtocolError"],
    ["campaign: done", "campaign: UnreadableError"],
    ["folder: exit 0", "folder: exit 2"],
  ];
  expect(both.flat().filter((end) => !ended.has(end))).toEqual([]);
});
