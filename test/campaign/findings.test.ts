import { describe, expect, test } from "vitest";
import { findCarbonation } from "../../src/campaign/findCarbonation.ts";
import { homogeneityFlags } from "../../src/campaign/homogeneityFlags.ts";
import { mixFlags } from "../../src/campaign/mixFlags.ts";
import { outlierFlags } from "../../src/campaign/outlierFlags.ts";
import { plausibilityRows } from "../../src/campaign/plausibilityRows.ts";
import { scatterOf } from "../../src/campaign/scatterOf.ts";
import { scatterRows } from "../../src/campaign/scatterRows.ts";
import { summarise } from "../../src/campaign/summarise.ts";
import type { AgeRow, AmountRow, ScatterRow } from "../../src/campaign/types.ts";
import { uncertaintyOfCell } from "../../src/campaign/uncertaintyOfCell.ts";
import type { Window } from "../../src/losses/types.ts";
import type { Measured } from "../../src/measured.ts";
import type { CellKey } from "../../src/protocol/types.ts";
import { makeMix } from "../phases/makeMix.ts";
import { known, makeFailure, makeResult, twoWindows } from "./makeResult.ts";

const cellOf = (more: Partial<CellKey> = {}): CellKey => ({
  mix: "M",
  curing: "moist",
  curing_d: 7,
  age_d: 7,
  ...more,
});
function ageRow(value: number | string, more: Partial<AgeRow> = {}): AgeRow {
  const index: Measured = typeof value === "string" ? { missing: value } : { value, u: 0.1, terms: [] };
  return {
    ...{ ...cellOf(), window: "co2", rule: "step", basis: "ignited", n_specimens: 3, n_runs: 3, index, index_sd: 0.1 },
    ...{ u_random: 0.1, u_shared: 0, df: 10, index_u: 0.1, index_lo95: 0, index_hi95: 1, flags: [] },
    ...more,
  };
}
const scatterRow = (more: Partial<ScatterRow> = {}): ScatterRow => ({
  ...{ window: "co2", model: "constant", a: 1, b: 0, df: 10, at_index: 2, sd: 0.2, limit: 0.5, kind: "repeatability" },
  ...more,
});
const co2: Window = { name: "co2", from_C: 600, to_C: 850, rule: "step", amount: { phase: "calcite", mol_lost: 1 } };

describe("carbonate", () => {
  const found = (ages: AgeRow[], more: { windows?: Window[]; scatter?: ScatterRow[]; noise?: number } = {}) => {
    const runs = [makeResult("a", [1, 1]), makeFailure("f")];
    const terms = [
      { cause: "noise", effect: more.noise ?? 0, key: "noise:a" },
      { cause: "temperature", effect: 9, key: "temperature" },
    ];
    const [run] = runs;
    if (run!.status !== "failed")
      run!.windows[0] = { ...run!.windows[0]!, window: "co2", index: { ...known(2), terms } as Measured };
    return findCarbonation(ages, { windows: more.windows ?? [co2], scatter: more.scatter ?? [scatterRow()], runs });
  };

  // t(0.95; 10) = 1.812 (table of Student's t). Of two ages with u = 0.1 each the slope is significant where the
  // difference is: beyond 1.812·0.1·√2 = 0.2563.
  test.for([
    [0.25, false],
    [0.262, true],
    [-0.3, false],
  ] as const)("that differs by %d between two ages rises: %s", ([difference, rises]) => {
    expect(found([ageRow(2, { age_d: 1 }), ageRow(2 + difference, { age_d: 28 })]).length).toBe(rises ? 1 : 0);
  });

  // One pair of regimes, either way round: t(1 − 0.05/2; 10) = 2.228, beyond 2.228·0.1·√2 = 0.3151.
  test.for([
    [0.31, false],
    [0.32, true],
    [-0.32, true],
  ] as const)("that differs by %d between two regimes is told: %s", ([difference, told]) => {
    expect(found([ageRow(2), ageRow(2 + difference, { curing: "dry" })]).length).toBe(told ? 1 : 0);
  });

  test("the level is shared by all that is tested: a series of ages and two pairs of regimes are five", () => {
    // t(0.99; 10) = 2.764 for α = 0.05/5.
    const rows = (difference: number) => [
      ...[ageRow(2, { age_d: 1 }), ageRow(2 + difference, { age_d: 28 })],
      ...[ageRow(2, { age_d: 1, curing: "dry", index: { missing: "x" } })],
      ...[ageRow(2, { age_d: 1, curing: "wet", curing_d: null }), ageRow(2 + difference, { age_d: 28, curing: "fog" })],
    ];
    expect(found(rows(0.385))).toEqual([]);
    expect(found(rows(0.395)).map(({ by }) => by)).toEqual(["age"]);
  });

  test("the slope weighs every cell by its own scatter", () => {
    // Weights 1/u² on ln(age): a slope of weighted least squares, by hand.
    const ages = [1, 3, 28];
    const us = [0.05, 0.4, 0.1];
    const x = ages.map(Math.log);
    const w = us.map((u) => u ** -2);
    const total = w.reduce((a, b) => a + b);
    const centre = x.reduce((sum, one, i) => sum + w[i]! * one, 0) / total;
    const spread = x.reduce((sum, one, i) => sum + w[i]! * (one - centre) ** 2, 0);
    const rising = (t: number) => {
      // Values on a straight line whose slope is t standard errors, and the middle one off it: it takes part too.
      const values = x.map((one, i) => 2 + (t / Math.sqrt(spread)) * (one - centre) + (i === 1 ? 0.1 : 0));
      const extra = (w[1]! * (x[1]! - centre) * 0.1) / spread;
      const rows = values.map((value, i) =>
        ageRow(value - extra * (x[i]! - centre), { age_d: ages[i]!, u_random: us[i]! }),
      );
      return found(rows).length === 1;
    };
    expect([rising(1.8), rising(1.83)]).toEqual([false, true]);
  });

  test("the noise of the balance over √n is the least that a cell can scatter", () => {
    const rows = (difference: number) => [
      ageRow(2, { age_d: 1, u_random: 0.001, n_specimens: 4 }),
      ageRow(2 + difference, { age_d: 28, u_random: 0.001, n_specimens: 4 }),
    ];
    // 0.2/√4 = 0.1, as above.
    expect([found(rows(0.25), { noise: 0.2 }).length, found(rows(0.262), { noise: 0.2 }).length]).toEqual([0, 1]);
    expect(found(rows(0.01), { noise: 0 }).length).toBe(1);
  });

  test("cells without any scatter weigh alike, and any rise is one", () => {
    const still = { u_random: 0 };
    expect(found([ageRow(2, { age_d: 1, ...still }), ageRow(2.01, { age_d: 28, ...still })]).length).toBe(1);
    expect(found([ageRow(2, { age_d: 1, ...still }), ageRow(2, { age_d: 28, ...still })])).toEqual([]);
  });

  test("is told with the figures of the largest rise, and how many more there are", () => {
    const rows = ["moist", "dry"].flatMap((curing, i) => [
      ageRow(-0.001, { curing, age_d: 28 }),
      ageRow(2 + i, { curing, age_d: 90, curing_d: 3.5 + 1e-9 }),
      ageRow(1, { curing, age_d: 1, curing_d: 3.5 + 1e-9 }),
    ]);
    const [rise, other] = found(rows.map((row) => ({ ...row, curing_d: 3.5 + 1e-9 })));
    expect(rise).toMatchObject({ mix: "M", window: "co2", by: "age" });
    // 100.086/44.009 g of calcite per g of CO2.
    expect(rise!.sentence).toBe(
      "Carbonate (window co2) rises with age in M, dry for 3.5 d: 1.00 g of CO2 (2.27 g of calcite) at 1 d, 3.00 g of CO2 (6.82 g of calcite) at 90 d, and 1 more.",
    );
    expect(rise!.carbonated.map(({ curing, age_d }) => [curing, age_d])).toEqual([
      ["dry", 90],
      ["moist", 90],
    ]);
    expect(other).toMatchObject({
      by: "regime",
      sentence:
        "Carbonate (window co2) differs between regimes at 90 d: 2.00 g of CO2 (4.55 g of calcite) in M, moist for 3.5 d, 3.00 g of CO2 (6.82 g of calcite) in M, dry for 3.5 d.",
    });
  });

  test("is told of each mix by itself; what nobody named is called so", () => {
    const rows = [null, "N"].flatMap((mix) => [
      ageRow(-0.001, { mix, curing: null, curing_d: null, age_d: null }),
      ageRow(1, { mix, curing: "dry", curing_d: null, age_d: null }),
    ]);
    expect(found(rows).map(({ mix, sentence }) => [mix, sentence])).toEqual([
      [
        null,
        "Carbonate (window co2) differs between regimes at unknown age: 0.00 g of CO2 (0.00 g of calcite) in the specimens, 1.00 g of CO2 (2.27 g of calcite) in dry.",
      ],
      [
        "N",
        "Carbonate (window co2) differs between regimes at unknown age: 0.00 g of CO2 (0.00 g of calcite) in N, 1.00 g of CO2 (2.27 g of calcite) in N, dry.",
      ],
    ]);
  });

  test("is looked for in windows of carbon dioxide with a pooled scatter only, in cells that have both", () => {
    const rows = [ageRow(2, { age_d: 1 }), ageRow(9, { age_d: 28 })];
    const { amount: _amount, ...plain } = co2;
    expect(found(rows, { windows: [plain] })).toEqual([]);
    expect(found(rows, { windows: [{ ...co2, amount: { phase: "ah3", mol_lost: 3 } }] })).toEqual([]);
    expect(found(rows, { scatter: [] })).toEqual([]);
    expect(found(rows, { scatter: [scatterRow({ window: "other" })] })).toEqual([]);
    expect(found(rows.map((row) => ({ ...row, window: "other" })))).toEqual([]);
    expect(found([rows[0]!, { ...rows[1]!, u_random: null }])).toEqual([]);
    expect(found([rows[0]!, ageRow("no-peak", { age_d: 28 })])).toEqual([]);
    expect(found([])).toEqual([]);
    // A series needs two ages above zero.
    expect(found([ageRow(2, { age_d: 0 }), ageRow(9, { age_d: 28 })])).toEqual([]);
    expect(found([ageRow(2, { age_d: null }), ageRow(9, { age_d: 28 })])).toEqual([]);
    expect(found(rows).length).toBe(1);
  });
});

describe("cells that do not scatter alike", () => {
  const spread = (name: string, s: number) => ({ name, values: [5 - s, 5, 5 + s] });

  // Cochran's critical value for three groups of three: 0.871 at 5 % (ISO 5725-2:1994, table 4).
  test.for([
    [0.86, []],
    [0.88, ["The specimens of B scatter more than the pooled scatter explains (Cochran's C 0.88, limit 0.87)."]],
  ] as const)("a share of %d of all variance", ([share, sentences]) => {
    const rest = Math.sqrt((1 - share) / 2);
    const cells = [spread("A", rest), spread("B", Math.sqrt(share)), spread("C", rest)];
    const flags = homogeneityFlags(cells, scatterRow());
    expect(flags.map(({ sentence }) => sentence)).toEqual(sentences);
    for (const { code, window } of flags) expect([code, window]).toEqual(["scatter-differs", "co2"]);
  });

  test("are held against what the model gives at their index: scatter in proportion is alike", () => {
    const cells = [1, 10, 100].map((size) => ({ name: `${size}`, values: [0.9 * size, size, 1.1 * size] }));
    expect(homogeneityFlags(cells, scatterRow({ model: "proportional", a: 0, b: 0.1 }))).toEqual([]);
    expect(homogeneityFlags(cells, scatterRow()).map(({ sentence }) => sentence)).toEqual([
      "The specimens of 100 scatter more than the pooled scatter explains (Cochran's C 0.99, limit 0.87).",
    ]);
    const negative = cells.map(({ name, values }) => ({ name, values: values.map((value) => -value) }));
    expect(homogeneityFlags(negative, scatterRow({ model: "proportional", a: 0, b: 0.1 }))).toEqual([]);
  });

  test("one cell, cells of one specimen, or none that scatters tell nothing", () => {
    const odd = [spread("A", 1), { name: "B", values: [7] }];
    expect(homogeneityFlags(odd, scatterRow())).toEqual([]);
    expect(homogeneityFlags([spread("A", 0), spread("B", 9)], scatterRow({ a: 0, b: 0 }))).toEqual([]);
    expect(homogeneityFlags([spread("A", 0.01), spread("B", 9)], scatterRow()).length).toBe(1);
  });

  test("with unequal numbers are tested on logarithms only where scatter is in proportion and all is above zero", () => {
    const calm = { name: "A", values: [10, 10.01, 9.99, 10.005, 9.995, 10.002] };
    const wild = { name: "B", values: [10, 14, 7, 12, 6, 15, 9] };
    const said = (cells: { name: string; values: number[] }[], more: Partial<ScatterRow>) =>
      homogeneityFlags(cells, scatterRow(more)).map(
        ({ sentence }) => /test on ([a-z ]+), p = 0\.0/.exec(sentence)?.[1],
      );
    const proportional = { model: "proportional", a: 0, b: 0.1 } as const;
    expect(said([calm, wild], proportional)).toEqual(["logarithms"]);
    expect(said([calm, wild], {})).toEqual(["scaled values"]);
    expect(said([calm, { ...wild, values: [...wild.values, -1] }], proportional)).toEqual(["scaled values"]);
    expect(said([calm, { name: "C", values: calm.values.slice(1) }], {})).toEqual([]);
  });
});

describe("an outlying specimen", () => {
  const specimens = (...values: number[]) => values.map((value, i) => ({ specimen: `S${i + 1}`, value, terms: [] }));
  const flagged = (values: number[], more: Partial<ScatterRow> = {}) =>
    outlierFlags(specimens(...values), { window: "co2", scatter: scatterRow(more) }).map(({ sentence }) => sentence);

  test("is told where three or more specimens and three degrees of freedom can tell", () => {
    // 20 from the mean of 10, over √(2/3); the two others lie 10 on the other side.
    expect(flagged([0, 0, 30])[2]).toBe(
      "Specimen S3 (30.00) lies 24.5 pooled standard deviations from the mean 10.00 of its cell.",
    );
    expect(flagged([0, 0, 30]).length).toBe(3);
    expect(flagged([0, 30])).toEqual([]);
    expect(flagged([0, 0, 30], { df: 2 })).toEqual([]);
    expect(flagged([0, 0, 30], { a: 0, b: 0 })).toEqual([]);
    expect(outlierFlags(specimens(0, 0, 30), { window: "co2", scatter: null })).toEqual([]);
  });

  test("is judged at 5 % over all specimens that were pooled", () => {
    // Ten degrees of freedom: t(1 − 0.025/20; 9), between t(0.9975; 9) = 3.690 and t(0.999; 9) = 4.297 of the tables of
    // Student's t, so Thompson's τ = t·√10/√(9 + t²) lies between 2.45 and 2.59.
    const far = (r: number) => r * Math.sqrt(2 / 3) * 1.5;
    expect(flagged([0, 0, far(2.44)])).toEqual([]);
    expect(flagged([0, 0, far(2.6)]).length).toBe(1);
  });

  test("is measured by the scatter at the mean of its cell", () => {
    const by = (b: number) => flagged([100, 100, 106], { model: "proportional", a: 0, b });
    // 4 of 102: 4/(102·b·√(2/3)).
    expect(by(0.01)[0]).toContain("lies 4.8 pooled standard deviations from the mean 102.00");
    expect(by(0.1)).toEqual([]);
    expect(flagged([-100, -100, -106], { model: "proportional", a: 0, b: 0.01 })[0]).toContain("lies 4.8 pooled");
    expect(flagged([100, 100, 106], { model: "linear", a: 1.02, b: 0.01 })).toEqual([]);
  });
});

describe("pooled scatter at its edges", () => {
  test("that is nothing is proportional and nothing", () => {
    expect(scatterOf([[5, 5], [7, 7, 7], [1]])).toEqual({ model: "proportional", a: 0, b: 0, df: 3 });
  });

  test("of one cell near zero is constant, of one far from it proportional: five standard deviations part them", () => {
    // s = 1.
    expect(scatterOf([[3.9, 4.9, 5.9]])).toEqual({ model: "constant", a: expect.closeTo(1, 12), b: 0, df: 2 });
    expect(scatterOf([[4.1, 5.1, 6.1]])).toEqual({
      model: "proportional",
      a: 0,
      b: expect.closeTo(1 / 5.1, 12),
      df: 2,
    });
    expect(scatterOf([[-4.1, -5.1, -6.1]])).toMatchObject({ model: "proportional", b: expect.closeTo(1 / 5.1, 12) });
  });

  test("with one cell at zero cannot be proportional", () => {
    const cells = [[-1, 0, 1], ...[10, 20, 30].map((size) => [size - 1, size, size + 1])];
    expect(scatterOf(cells)).toEqual({ model: "constant", a: expect.closeTo(1, 12), b: 0, df: 8 });
  });

  test("of a window: mean of the cells' means, standard deviation and limit there, and whether sessions differ", () => {
    const runs = (session: (i: number) => string | null) => [
      [9, 11].map((value, i) => makeResult(`a${i}`, [value, 1], { session: session(i) })),
      [18, 22].map((value, i) => makeResult(`b${i}`, [value, 1], { age_d: 28, session: session(0) })),
      [makeResult("c", [90, "no-peak"], { age_d: 90 }), makeFailure("d", { age_d: 90 })],
    ];
    const [row, ah3] = scatterRows(
      runs(() => "S1"),
      twoWindows,
    );
    // 9, 11 and 18, 22 both scatter by √2/10 of their mean.
    expect(row).toMatchObject({ window: "aft-afm", model: "proportional", a: 0, df: 2, kind: "repeatability" });
    expect(row!.b).toBeCloseTo(Math.SQRT2 / 10, 12);
    expect(row!.at_index).toBe(15);
    expect(row!.sd).toBeCloseTo(1.5 * Math.SQRT2, 12);
    expect(row!.limit).toBeCloseTo(1.96 * Math.SQRT2 * 1.5 * Math.SQRT2, 3);
    expect(ah3).toMatchObject({ b: 0, at_index: 1 });
    expect(
      scatterRows(
        runs((i) => `S${i}`),
        twoWindows,
      )[0]!.kind,
    ).toBe("intermediate precision");
    expect(scatterRows([[makeResult("a", [1, 1])]], twoWindows)).toEqual([]);
  });

  test("degrees of freedom end at a million, with shared errors only or nearly so", () => {
    const specimen = { specimen: "a", value: 5, terms: [{ cause: "temperature", effect: 0.5, key: "temperature" }] };
    const at = (b: number) =>
      uncertaintyOfCell([specimen], { index: 5, scatter: { model: "proportional", a: 0, b, df: 4 }, key: "c" })!;
    expect(at(0)).toMatchObject({ u_random: 0, u_shared: 0.5, index_u: 0.5, df: 1e6 });
    expect(at(0).half).toBeCloseTo(1.95996 * 0.5, 4);
    expect(at(1e-4).df).toBe(1e6);
    // u = 0.5·√2, u_random = 0.5: ν = 4·√2⁴.
    expect(at(0.1).df).toBeCloseTo(16, 9);
    expect(at(0.1).terms.at(-1)).toEqual({ cause: "specimens", effect: 0.5, key: "specimens:c" });
  });
});

test("files that are the same to the byte are named, if they are specimens", () => {
  const flagged = (heads: Partial<Parameters<typeof makeResult>[2] & object>[]) =>
    summarise(
      heads.map((head, i) => makeResult(`${i}.txt`, [i + 1, 1], head)),
      { protocol: twoWindows },
    )
      .flags.filter(({ code }) => code === "same-file")
      .map(({ sentence }) => sentence);
  expect(flagged([{ sha256: "aa" }, { sha256: "bb" }, { sha256: "aa" }, { sha256: "aa", role: "check" }])).toEqual([
    "These files are the same to the byte: 0.txt, 2.txt.",
  ]);
  expect(flagged([{ sha256: "aa" }, { sha256: "bb" }, {}, {}])).toEqual([]);
});

describe("mixes", () => {
  const runs = [makeResult("a", [1, 1], { mix: "M" }), makeResult("b", [1, 1], { mix: "B", role: "binder" })];
  const codes = (...mixes: ReturnType<typeof makeMix>[]) => mixFlags(mixes, runs).map(({ code }) => code);

  test("a mortar's subsamples are asked for where it has sand, and nothing is said of them", () => {
    expect(codes(makeMix({ sand_binder_ignited: 3 }))).toEqual(["mortar-subsampling"]);
    expect(codes(makeMix({ sand_binder_ignited: 3, u_sand_binder_ignited: 0 }))).toEqual([]);
    expect(codes(makeMix({ sand_binder_ignited: 0 }))).toEqual([]);
    expect(codes(makeMix())).toEqual([]);
    expect(codes(makeMix({ mix: "B", sand_binder_ignited: 3 }))).toEqual([]);
  });

  test("of what can be said about a binder only its mixing water concerns the mix as a whole", () => {
    const contents = { yeelimite_pct: 56, gypsum_pct: 20, belite_pct: 10 };
    expect(codes(makeMix({ w_b: 0.4, contents }))).toEqual(["water-limited"]);
    expect(codes(makeMix({ w_b: 0.6, contents }))).toEqual([]);
    expect(codes(makeMix({ w_b: 0.4 }))).toEqual([]);
  });
});

describe("the binder behind a cell", () => {
  const contents = { yeelimite_pct: 56, gypsum_pct: 20 };
  const mixes = [makeMix({ w_b: 0.6, contents }), makeMix({ mix: "N" })];
  const ends = new Map([
    ["bound", 600],
    ["ah3", 350],
    ["late", 601],
  ]);
  const water = (value: number | string, more: Partial<AgeRow> = {}) => ageRow(value, { window: "bound", ...more });
  const amountRow = (phase: string, value: number | string, more: Partial<AmountRow> = {}): AmountRow => ({
    ...{ ...cellOf(), phase, window: phase, mol_lost: 3, basis: "ignited", n_specimens: 2, n_runs: 2 },
    ...{ amount: typeof value === "string" ? { missing: value } : { value, u: 0.2, terms: [] }, amount_sd: null },
    ...{ u_random: null, u_shared: null, df: null, amount_lo95: null, amount_hi95: null, flags: [], ...more },
  });
  const rows = (ages: AgeRow[], amounts: AmountRow[] = [], carbonated: CellKey[] = []) =>
    plausibilityRows({ ages, amounts }, { mixes, carbonated, ends });
  // 52.899 g of water and 29.883 g of AH3 per 100 g of ignited mass are the most (FX3, by hand from R1 and R2).
  const exceeded = (...args: Parameters<typeof rows>) =>
    rows(...args).map((row) => row.exceeded.map(({ quantity, value, u }) => [quantity, value, u]));

  test("bounds the largest loss below 600 °C of what is per 100 g of ignited mass", () => {
    expect(exceeded([water(60)])).toEqual([[["bound_water", 60, 0.1]]]);
    expect(exceeded([water(54), water(58, { window: "ah3" }), water(56)])).toEqual([[["bound_water", 58, 0.1]]]);
    expect(exceeded([water(10), water(60, { window: "late" }), water(60, { window: "unknown" })])).toEqual([[]]);
    expect(exceeded([water(10), water(60, { basis: "binder" }), water("no-peak")])).toEqual([[]]);
  });

  test("bounds its phases, on the same basis only", () => {
    expect(exceeded([], [amountRow("ah3", 35)])).toEqual([[["ah3", 35, 0.2]]]);
    const others = [amountRow("ah3", 35, { basis: "paste" }), amountRow("calcite", 99), amountRow("ettringite", "x")];
    expect(exceeded([water(1)], others)).toEqual([[]]);
  });

  test("is asked of cells of a known mix that have something to hold against it, each with its key", () => {
    expect(rows([water(10, { mix: "N" }), water(10, { mix: "unknown" }), water(10, { mix: null })])).toEqual([]);
    expect(rows([water("no-peak")], [amountRow("calcite", 5)])).toEqual([]);
    const keys = rows([water(10), water(11, { age_d: 28 })], [amountRow("ah3", 5, { curing: "dry", curing_d: null })]);
    expect(keys.map(({ mix, curing, curing_d, age_d }) => [mix, curing, curing_d, age_d])).toEqual([
      ["M", "moist", 7, 7],
      ["M", "moist", 7, 28],
      ["M", "dry", null, 7],
    ]);
  });

  test("tells less of AH3 in a regime that carbonated, at every age", () => {
    const reasons = (carbonated: CellKey[]) =>
      rows([], [amountRow("ah3", 15)], carbonated)[0]!.yeelimite_reacted!.reasons;
    const said = ["carbonation of ettringite makes AH3 (R12)"];
    expect(reasons([cellOf({ age_d: 90 })])).toEqual(said);
    for (const other of [{ mix: "N" }, { curing: "dry" }, { curing_d: 3 }])
      expect(reasons([cellOf(other)])).toEqual([]);
    expect(reasons([])).toEqual([]);
  });
});
