import { describe, expect, test } from "vitest";
import { toCurve } from "../../src/curve/toCurve.ts";
import { losses } from "../../src/losses/losses.ts";
import type { Window } from "../../src/losses/types.ts";
import { combineTerms } from "../../src/phases/combineTerms.ts";
import { measureAmounts } from "../../src/phases/measureAmounts.ts";
import type { Corrections, Mix } from "../../src/phases/types.ts";
import { makeRun, ramp } from "../makeRun.ts";
import { protocolOf, step, water } from "./amountProtocol.ts";
import { makeMix } from "./makeMix.ts";

const sigmoid = (T: number, at: number, width: number) => 1 / (1 + Math.exp((at - T) / width));
/** 40 mg that lose 8, 1, 2, 1.5 and 2.5 mg, each within its window: 25 mg are left. */
const tg = (T: number) =>
  40 -
  8 * sigmoid(T, 110, 3) -
  1 * sigmoid(T, 200, 3) -
  2 * sigmoid(T, 290, 3) -
  1.5 * sigmoid(T, 450, 3) -
  2.5 * sigmoid(T, 720, 6);
const windows = [
  step("aft", 60, 150, water("ettringite", 26)),
  step("afm", 150, 240, water("monosulfate", 6)),
  step("ah3", 240, 340, water("ah3", 3)),
  step("plain", 340, 390),
  step("ch", 400, 500, water("portlandite", 1)),
  step("carbonate", 600, 850, water("calcite", 1)),
];
const twentyFive = { value: 25, weights: null, terms: [] };

function measured(
  more: {
    windows?: Window[];
    corrections?: Corrections;
    mix?: Mix | null;
    reference?: typeof twentyFive | { missing: string };
    stepIndex?: number;
    from?: number;
  } = {},
) {
  const { corrections = {}, mix = makeMix({ contents: { lime_pct: 5 } }), reference = twentyFive, from = 25 } = more;
  const protocol = protocolOf(more.windows ?? windows);
  const { temperature, time } = ramp(from, 1000, { rows: 4000, rate: 10 });
  const curve = toCurve(makeRun(temperature, temperature.map(tg), { time }), protocol);
  const { uncertainty } = protocol;
  const context = { curve, uncertainty, file: "a.txt", balance: null, blank: null };
  const { stepIndex } = more;
  return measureAmounts(context, {
    ...{ losses: losses(curve, protocol).losses, reference, corrections, mix },
    ...(stepIndex === undefined ? {} : { stepIndex: () => ({ value: stepIndex, u: 0, terms: [] }) }),
  });
}
const byWindow = (...args: Parameters<typeof measured>) =>
  Object.fromEntries(measured(...args).map((row) => [row.window, row]));
const shown = (row: ReturnType<typeof measured>[0] | undefined) =>
  row && ("missing" in row.amount ? row.amount.missing : row.amount.value);
const said = (row: ReturnType<typeof measured>[0] | undefined) =>
  row?.flags.map(({ code, sentence }) => [code, sentence]);
const uncorrected =
  "All of the loss in ah3 was taken for AH3; hydroxyl water of AFt and AFm leaves there too and can double it.";

describe("amounts of phases", () => {
  test("are the loss per 100 g times the mass of phase per mass of gas, in the order of the windows", () => {
    const rows = measured();
    expect(rows.map(({ phase, window, mol_lost }) => [phase, window, mol_lost])).toEqual([
      ["ettringite", "aft", 26],
      ["monosulfate", "afm", 6],
      ["ah3", "ah3", 3],
      ["portlandite", "ch", 1],
      ["calcite", "carbonate", 1],
    ]);
    // Molar masses over those of the gas, from the atomic weights (Prohaska et al. 2022).
    const expected = [
      (32 * 1255.074) / (26 * 18.015),
      (4 * 622.506) / (6 * 18.015),
      (8 * 156.006) / (3 * 18.015),
      (6 * 74.092) / 18.015,
      (10 * 100.086) / 44.009,
    ];
    rows.forEach((row, i) => void expect((shown(row) as number) / expected[i]!).toBeCloseTo(1, 3));
    expect(rows.map(({ flags }) => flags.map(({ code }) => code))).toEqual([[], [], ["hydroxyl-uncorrected"], [], []]);
    expect(rows[2]!.flags[0]).toMatchObject({ sentence: uncorrected, window: "ah3" });
  });

  test("of phases in shorthand are the same, with the same cautions", () => {
    const shorthand = [step("ah3", 240, 340, water("AH3", 3)), step("ch", 400, 500, water("CH", 1))];
    const rows = byWindow({ windows: shorthand, mix: null });
    expect(said(rows.ah3)).toEqual([["hydroxyl-uncorrected", uncorrected]]);
    expect(rows.ch!.amount).toEqual({ missing: "no-lime-source" });
    const known = byWindow({ windows: shorthand });
    expect((shown(known.ch) as number) / ((6 * 74.092) / 18.015)).toBeCloseTo(1, 3);
    const corrections = { carbonation: { window: "ch", carbonate: "carbonate" } };
    expect(said(byWindow({ windows: [...shorthand, windows[5]!], corrections }).ch)![0]![0]).toBe(
      "carbonation-counted",
    );
  });

  test("without a reference are missing by its code, and nothing is said", () => {
    for (const row of measured({ reference: { missing: "ends-before-ignition" } })) {
      expect(row).toMatchObject({ amount: { missing: "ends-before-ignition" }, flags: [] });
    }
  });

  test("take the index of the step where it is known already", () => {
    const rows = byWindow({ stepIndex: 5 });
    expect(shown(rows.carbonate)).toBeCloseTo((5 * 100.086) / 44.009, 3);
    expect(rows.carbonate!.amount).toMatchObject({ u: 0, terms: [] });
  });

  test("below their detection limit are flagged as what they are", () => {
    const [row] = measured({ windows: [step("empty", 520, 580, water("brucite", 1))] });
    expect(row!.flags).toMatchObject([{ code: "below-detection", window: "empty" }]);
    expect(row!.flags[0]!.sentence).toMatch(/^brucite: /);
  });
});

describe("portlandite", () => {
  test("needs a source of lime, and says who names none", () => {
    expect(said(byWindow({ mix: null }).ch)).toEqual([
      ["no-lime-source", "The run names no mix: the loss in ch is not taken for portlandite."],
    ]);
    const { ch } = byWindow({ mix: makeMix() });
    expect(ch).toMatchObject({ amount: { missing: "no-lime-source" } });
    expect(ch!.flags).toMatchObject([
      {
        code: "no-lime-source",
        sentence: "The mix M names no lime source: the loss in ch is not taken for portlandite.",
        window: "ch",
      },
    ]);
  });

  test("has its carbonate added where the protocol says so: one mole for one", () => {
    const { ch } = byWindow({ corrections: { carbonation: { window: "ch", carbonate: "carbonate" } } });
    expect((shown(ch) as number) / ((6 * 74.092) / 18.015 + (10 * 74.092) / 44.009)).toBeCloseTo(1, 3);
    expect(ch!.flags).toMatchObject([
      {
        code: "carbonation-counted",
        sentence:
          "All carbon dioxide of carbonate was counted as carbonated portlandite, that of the binder too; the net amount leaves the binder's out.",
        window: "ch",
      },
    ]);
    if ("missing" in ch!.amount) throw new Error(ch!.amount.missing);
    expect(ch!.amount.terms.map(({ cause }) => cause).sort()).toEqual([
      ...["buoyancy", "noise", "temperature", "temperature, curvature"],
    ]);
  });

  test.for([
    { window: "other", carbonate: "carbonate" },
    { window: "ch", carbonate: "other" },
  ])("stays alone under %j", (carbonation) => {
    const { ch } = byWindow({ corrections: { carbonation } });
    expect((shown(ch) as number) / ((6 * 74.092) / 18.015)).toBeCloseTo(1, 3);
    expect(said(ch)).toEqual([]);
  });
});

describe("AH3 less hydroxyl water", () => {
  const hydroxyl = { window: "ah3", aft: "aft", afm: "afm" };
  const gross = (8 * 156.006) / (3 * 18.015);
  const factor = 156.006 / (3 * 18.015);

  test("is what is left of its loss, with the errors of the shares, signed", () => {
    const { ah3 } = byWindow({ corrections: { hydroxyl } });
    // Half of 6 of 26 mol of AFt's 32 g, and 6 of 6 mol of AFm's 4 g, per 100 g.
    const off = factor * ((0.5 * 6 * 32) / 26 + 4);
    expect((shown(ah3) as number) - (gross - off)).toBeCloseTo(0, 2);
    if ("missing" in ah3!.amount) throw new Error(ah3!.amount.missing);
    const { terms, u } = ah3!.amount;
    const effects = Object.fromEntries(terms.map(({ key, effect }) => [key, effect]));
    expect(effects["hydroxyl:k"]).toBeCloseTo((-factor * 0.3 * 6 * 32) / 26, 2);
    expect(effects["hydroxyl:k-afm"]).toBeCloseTo(-factor * 0.1 * 4, 2);
    expect(u).toBeCloseTo(combineTerms(terms), 12);
  });

  test("has no term for a share that is known", () => {
    const { ah3 } = byWindow({ corrections: { hydroxyl: { ...hydroxyl, u_k: 0, u_k_afm: 0 } } });
    if ("missing" in ah3!.amount) throw new Error(ah3!.amount.missing);
    expect(ah3!.amount.terms.filter(({ key }) => key.startsWith("hydroxyl"))).toEqual([]);
    expect(ah3!.amount.terms.length).toBe(4);
  });

  test("is missing where a loss is that must be taken off, and where nothing parts AFt and AFm", () => {
    const { ah3 } = byWindow({ corrections: { hydroxyl }, from: 80 });
    expect(ah3!.amount).toEqual({ missing: "window-truncated" });
    expect(said(ah3)!.map(([code]) => code)).toEqual(["hydroxyl-corrected"]);
    const refused = byWindow({ corrections: { hydroxyl: { ...hydroxyl, afm: "none" } } }).ah3;
    expect(refused!.amount).toEqual({ missing: "hydroxyl-refused" });
    expect(said(refused)!.map(([code]) => code)).toEqual(["hydroxyl-refused"]);
  });

  test("of another window than the correction's is not corrected", () => {
    const { ah3 } = byWindow({ corrections: { hydroxyl: { ...hydroxyl, window: "carbonate" } } });
    expect((shown(ah3) as number) / gross).toBeCloseTo(1, 3);
    expect(said(ah3)).toEqual([["hydroxyl-uncorrected", uncorrected]]);
  });
});
