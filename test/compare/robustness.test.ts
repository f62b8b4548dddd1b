import { describe, expect, test } from "vitest";
import { summarise } from "../../src/campaign/summarise.ts";
import { contrasts } from "../../src/compare/contrasts.ts";
import { indexCells } from "../../src/compare/indexCells.ts";
import { robustness } from "../../src/compare/robustness.ts";
import type { Measured } from "../../src/measured.ts";
import type { RunDone } from "../../src/protocol/types.ts";
import { known, makeResult, twoWindows } from "../campaign/makeResult.ts";

/** What a run has beside its index in the first window. */
interface Variants {
  area?: Measured;
  tangent?: Measured;
  to_up?: number | null;
  from_down?: number | null;
}

/** Three specimens per regime about their mean; the variants are made from the index. */
function runs(curing: string, mean: number, variants: (index: number) => Variants = () => ({})): RunDone[] {
  return [-0.3, 0, 0.3].map((off, i) => {
    const index = mean + off;
    const result = makeResult(`${curing}${i}.txt`, [index, 10 + off], { curing, curing_d: null });
    const { area = known(index), tangent, to_up = index, from_down = index } = variants(index);
    const [first, second] = result.windows;
    const shifted = { from_down, from_up: index, to_down: index, to_up };
    const same = { from_down: 10 + off, from_up: 10 + off, to_down: 10 + off, to_up: 10 + off };
    return {
      ...result,
      windows: [
        { ...first!, index_area: area, index_shifted: shifted, ...(tangent ? { index_tangent: tangent } : {}) },
        { ...second!, index_shifted: same },
      ],
    };
  });
}

const reference = { reference: { curing: "moist" } } as const;

function firstRow(moist: RunDone[], air: RunDone[], margins: Parameters<typeof contrasts>[1]["margins"] = []) {
  const campaign = summarise([...moist, ...air], { protocol: twoWindows });
  const cells = indexCells(campaign);
  const options = { ...reference, margins };
  const { rows } = contrasts(cells, options);
  return robustness(rows, campaign, { ...options, cells })[0]!;
}

describe("verdicts under other windows and rules", () => {
  test("the same everywhere: robust", () => {
    const row = firstRow(runs("moist", 20), runs("air", 15));
    expect(row).toMatchObject({ difference_verdict: "lower", robust: "yes", sensitive_to: [], untested: [] });
  });

  test("another rule that sees no difference, an edge that turns it round", () => {
    const row = firstRow(
      runs("moist", 20),
      runs("air", 15, (index) => ({ area: known(index + 5), to_up: index + 10 })),
    );
    expect(row).toMatchObject({ robust: "no", sensitive_to: ["to+5 (difference)", "area (difference)"] });
  });

  test("a tangent is tried where the protocol defines one, and is no gap where it does not", () => {
    const row = firstRow(
      runs("moist", 20, (index) => ({ tangent: known(index) })),
      runs("air", 15, (index) => ({ tangent: known(index + 5) })),
    );
    expect(row.sensitive_to).toEqual(["tangent (difference)"]);
    expect(firstRow(runs("moist", 20), runs("air", 15)).untested).toEqual([]);
  });

  test("an edge that one run does not cover is untested: fewer specimens would change more than the window", () => {
    const air = runs("air", 15);
    const [first, second] = air[1]!.windows;
    air[1] = {
      ...air[1]!,
      windows: [{ ...first!, index_shifted: { ...first!.index_shifted, from_down: null } }, second!],
    };
    const row = firstRow(runs("moist", 20), air);
    expect(row).toMatchObject({ robust: "yes", untested: ["from-5"] });
  });

  test("nothing that could be tried: not tested", () => {
    const nothing = () => ({ area: { missing: "x" } as const, to_up: null, from_down: null });
    const bare = (list: RunDone[]) =>
      list.map((run) => {
        const [first, second] = run.windows;
        const index_shifted = { from_down: null, from_up: null, to_down: null, to_up: null };
        return { ...run, windows: [{ ...first!, index_shifted }, second!] };
      });
    const row = firstRow(bare(runs("moist", 20, nothing)), bare(runs("air", 15, nothing)));
    expect(row).toMatchObject({ robust: "not tested", untested: ["from-5", "from+5", "to-5", "to+5", "area"] });
  });

  test("a margin in g per 100 g keeps its proportion under a rule of another size", () => {
    const margins = [{ quantity: "aft-afm", kind: "value", size: 4, unit: null }] as const;
    const half = (index: number) => ({ area: known(index / 2) });
    const row = firstRow(runs("moist", 20, half), runs("air", 19, half), margins);
    expect(row).toMatchObject({ equivalence_verdict: "within margin", robust: "yes" });
    // Half of everything, the margin too: were it kept at 4 of 10, a loss of 30 % would pass under the other rule.
    const wide = firstRow(runs("moist", 20, half), runs("air", 14, half), margins);
    expect(wide).toMatchObject({ equivalence_verdict: "outside margin", robust: "yes" });
  });

  test("the equivalence alone may change, and that is told apart", () => {
    const margins = [{ quantity: null, kind: "share", size: 0.1, unit: null }] as const;
    const row = firstRow(
      runs("moist", 20),
      runs("air", 19, (index) => ({ area: known(index - 0.6) })),
      margins,
    );
    expect(row).toMatchObject({ difference_verdict: "lower", equivalence_verdict: "within margin" });
    expect(row.sensitive_to).toEqual(["area (equivalence)"]);
  });

  test("in one family of the whole campaign the other windows stay what they are", () => {
    const campaign = summarise([...runs("moist", 20), ...runs("air", 15)], { protocol: twoWindows });
    const cells = indexCells(campaign);
    const options = { ...reference, family: "campaign" } as const;
    const { rows } = contrasts(cells, options);
    expect(robustness(rows, campaign, { ...options, cells }).map(({ robust }) => robust)).toEqual(["yes", "yes"]);
  });
});

describe("cells of indices", () => {
  test("are those of ages.csv: the same means, specimens, and shared errors", () => {
    const shared = { cause: "temperature", effect: 0.2, key: "temperature:B1" };
    const own = { cause: "noise", effect: 0.1, key: "noise:a" };
    const results = [1, 2, 3].map((i) => {
      const run = makeResult(`a${i}.txt`, [20 + i, 5], { specimen: i < 3 ? "A" : "B" });
      const [first, second] = run.windows;
      const index = { value: 20 + i, u: 0.3, terms: [shared, { ...own, key: `noise:a${i}.txt` }] };
      return { ...run, windows: [{ ...first!, index }, second!] };
    });
    const campaign = summarise(results, { protocol: twoWindows });
    const [cell] = indexCells(campaign);
    const [age] = campaign.ages;
    expect(cell!.value).toBe("value" in age!.index ? age!.index.value : null);
    expect(cell!.specimens).toEqual([
      { specimen: "A", value: 21.5 },
      { specimen: "B", value: 23 },
    ]);
    expect(cell!.shared).toEqual([shared]);
    expect(age!.u_shared).toBeCloseTo(0.2, 12);
  });

  test("a cell all of whose runs failed is there without a value", () => {
    const failed = { ...makeResult("b.txt", ["no-heating", "no-heating"], { curing: "air" }) };
    const campaign = summarise([...runs("moist", 20), failed], { protocol: twoWindows });
    const air = indexCells(campaign).find(({ curing }) => curing === "air")!;
    expect(air).toMatchObject({ value: null, specimens: [] });
  });
});
