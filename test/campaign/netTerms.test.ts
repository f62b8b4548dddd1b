import { describe, expect, test } from "vitest";
import { homogeneityFlags } from "../../src/campaign/homogeneityFlags.ts";
import { netAmounts } from "../../src/campaign/netAmounts.ts";
import type { ScatterRow } from "../../src/campaign/types.ts";
import type { Term } from "../../src/measured.ts";
import { makeMix } from "../phases/makeMix.ts";
import { makeResult } from "./makeResult.ts";

const run = (file: string, value: number, effect: number, head: Parameters<typeof makeResult>[2] = {}) => {
  const terms: Term[] = [{ cause: "noise", effect, key: `noise:${file}` }];
  const amount = { value, u: effect, terms };
  const row = { phase: "calcite", window: "carbonate", mol_lost: 1, basis: "ignited" as const, amount, flags: [] };
  return makeResult(file, [1, 1], { mix: "M", phases: [row], ...head });
};
const netOf = (mix: ReturnType<typeof makeMix>, runs: ReturnType<typeof run>[]) => {
  const [first] = netAmounts(runs, [mix]);
  if (first!.status === "failed") throw new Error("it is there");
  const { amount } = first!.phases.find(({ basis }) => basis === "ignited-net")!;
  if ("missing" in amount) throw new Error(amount.missing);
  return amount;
};

describe("the budget of a net amount", () => {
  test("of a mortar takes binder and aggregate by their shares of the ignited mass, 1/(1 + s) and s/(1 + s)", () => {
    const mix = makeMix({ sand_binder_ignited: 3 });
    const runs = [run("a", 9, 0.3), run("b", 4, 0.4, { role: "binder" }), run("c", 2, 0.2, { role: "aggregate" })];
    const { terms, u, value } = netOf(mix, runs);
    expect(value).toBe(6.5);
    expect(terms.map(({ key, effect }) => [key, Number(effect.toFixed(12))])).toEqual([
      ["noise:a", 0.3],
      ["noise:b", -0.1],
      ["noise:c", -0.15],
    ]);
    expect(u).toBeCloseTo(Math.hypot(0.3, 0.1, 0.15), 12);
  });

  test("of a paste takes the binder whole; of several runs of it the mean", () => {
    const binders = [run("b", 4, 0.4, { role: "binder" }), run("c", 2, 0.2, { role: "binder" })];
    const { terms, value } = netOf(makeMix(), [run("a", 9, 0.3), ...binders]);
    expect(value).toBe(6);
    expect(terms.map(({ key, effect }) => [key, Number(effect.toFixed(12))])).toEqual([
      ["noise:a", 0.3],
      ["noise:b", -0.2],
      ["noise:c", -0.1],
    ]);
  });
});

test("cells are held against a constant and a proportional part together", () => {
  const scatter: ScatterRow = {
    ...{ window: "w", model: "linear", a: 1, b: 0.1, df: 6, at_index: 5, sd: 2, limit: 5, kind: "repeatability" },
  };
  // Each scatters by what 1 + 0.1·|index| gives: 2, 3 and 11.
  const cells = [10, 20, 100].map((size) => {
    const s = 1 + 0.1 * size;
    return { name: `${size}`, values: [size - s, size, size + s] };
  });
  expect(homogeneityFlags(cells, scatter)).toEqual([]);
  // 11 where 2 are right is 5.5 times as much: 30.25 of 32.25 parts of the variance.
  const odd = cells.map(({ name, values }, i) => (i === 0 ? { name, values: [-1, 10, 21] } : { name, values }));
  expect(homogeneityFlags(odd, scatter).map(({ sentence }) => sentence)).toEqual([
    "The specimens of 10 scatter more than the pooled scatter explains (Cochran's C 0.94, limit 0.87).",
  ]);
});
