import { describe, expect, test } from "vitest";
import { binderContents } from "../../src/phases/binderContents.ts";
import { binderMaxima } from "../../src/phases/binderMaxima.ts";
import { limeSource } from "../../src/phases/limeSource.ts";
import { overlapFlags } from "../../src/phases/overlapFlags.ts";
import { plausibility } from "../../src/phases/plausibility.ts";
import { indexBytes } from "../../src/protocol/indexBytes.ts";
import { newJob } from "../../src/protocol/newJob.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { analyticFixture } from "../analyticFixtures.ts";
import { makeMix } from "./makeMix.ts";

/** 80 % clinker (70 % ye'elimite, 15 % belite, 15 % inert) and 20 % gypsum. */
const fx3 = makeMix({ w_b: 0.5, contents: { yeelimite_pct: 56, belite_pct: 12, gypsum_pct: 20 } });
const pure = makeMix({ w_b: 0.6, contents: { yeelimite_pct: 56, gypsum_pct: 20 } });
const amount = (value: number, u = 0) => ({ value, u });
const within = (value: number | null | undefined, expected: number, tolerance = 0.0005) =>
  expect(Math.abs(value! - expected)).toBeLessThanOrEqual(tolerance);

// Figures of FX3 and FX3b are arithmetic from reactions R1–R7 and the abridged standard atomic weights (Prohaska et al., Pure
// Appl Chem 94:573, 2022), worked out apart from this code.
describe("what a binder can give", () => {
  const found = () => binderMaxima(fx3)!;

  test("FX3: ettringite 72.900, monosulfate 20.967, AH3 28.632, added water 46.499 g per 100 g of binder", () => {
    within(found().sulfate_per_yeelimite, 1.26592, 0.000005);
    within(found().complete.ettringite, 72.9);
    within(found().complete.monosulfate, 20.967);
    within(found().complete.ah3, 28.632);
    within(found().complete.added_water, 46.499);
    within(found().water.needed, 0.46499, 0.000005);
  });

  test("FX3: 76.084, 21.883, 29.883 and 52.899 g of water per 100 g of ignited mass", () => {
    const { complete, maxima } = plausibility(fx3, {})!;
    within(complete.ettringite, 76.084);
    within(complete.monosulfate, 21.883);
    within(complete.ah3, 29.883);
    within(complete.bound_water, 52.899);
    within(maxima.ettringite, 76.084);
    within(maxima.ah3, 29.883);
  });

  test("FX3b: then all belite gives 29.145 g of strätlingite, leaves 17.763 g of AH3 and takes 6.276 g of water", () => {
    within(found().with_belite.straetlingite, 29.145);
    within(found().with_belite.ah3, 17.763);
    within(found().with_belite.added_water - found().complete.added_water, 6.276);
  });

  test("belite stops where AH3 is used up: 0.5645 g of belite per g of ye'elimite", () => {
    const { with_belite } = binderMaxima(makeMix({ contents: { yeelimite_pct: 40, belite_pct: 60 } }))!;
    within(with_belite.ah3, 0, 1e-9);
    within(with_belite.straetlingite, 40 * 0.5645 * 2.4287, 0.01);
  });

  test.for([
    [{ yeelimite_pct: 100 }, 0.5314],
    [{ yeelimite_pct: 100 / 1.5642, gypsum_pct: 56.42 / 1.5642 }, 0.6417],
    [{ yeelimite_pct: 100 / 1.4462, anhydrite_pct: 44.62 / 1.4462 }, 0.7757],
    [{ yeelimite_pct: 100 / 1.4757, bassanite_pct: 47.57 / 1.4757 }, 0.7402],
  ] as const)("the stoichiometric water of %j is %d of the binder", ([contents, expected]) => {
    within(binderMaxima(makeMix({ contents }))!.water.needed, expected, 0.0001);
  });

  test("the mixing water hydrates in proportion: sulfate goes first", () => {
    // R2 takes 34 mol of water per mol of ye'elimite while gypsum lasts, R1 18 after: x = 1.26592 is used up at 63.3 %.
    const share = (w_b: number) => binderMaxima({ ...pure, w_b })!.water.reacted_at_most!;
    expect(share(0.46499)).toBeCloseTo(1, 4);
    expect(share(0.7)).toBe(1);
    const moles = 56 / 610.248;
    expect(share((0.4 * moles * 34 * 18.015) / 100)).toBeCloseTo(0.4, 9);
    const turn = 1.26592 / 2;
    expect(share((moles * 18.015 * (turn * 34 + 0.1 * 18)) / 100)).toBeCloseTo(turn + 0.1, 4);
  });

  test("from oxides: alumina that iron leaves over, the rest of the sulfate as a source", () => {
    // Oxides of a published clinker: Al2O3 37.5, Fe2O3 3.1, SO3 9.7 %; 69.5 % ye'elimite by X-ray diffraction (Li et al., Cem
    // Concr Res 108:103, 2018). The bound must lie above it, by no more than a few per cent.
    const clinker = binderMaxima(makeMix({ contents: { Al2O3_pct: 37.5, Fe2O3_pct: 3.1, SO3_pct: 9.7 } }))!;
    expect(clinker.by).toBe("oxides");
    expect(clinker.yeelimite_pct).toBeGreaterThan(69.5);
    expect(clinker.yeelimite_pct).toBeLessThan(72);
    // (37.5/101.961 − 3.1/159.687)/3·610.248
    within(clinker.yeelimite_pct, 70.864, 0.01);
    const blended = binderMaxima(makeMix({ contents: { al2o3_pct: 28, so3_pct: 16 } }))!;
    // n(Y) = 28/101.961/3 = 0.091538 mol; n(SO3) = 16/80.057 = 0.199858 mol; x = 1.1833.
    within(blended.sulfate_per_yeelimite, 1.1833, 0.0002);
  });

  test("a mix that does not tell its binder has no maxima", () => {
    expect(binderMaxima(makeMix({ contents: { gypsum_pct: 20 } }))).toBeNull();
    expect(plausibility(makeMix(), { ah3: amount(1) })).toBeNull();
    expect(plausibility({ ...fx3, w_b: null }, {}, { basis: "paste" })).toBeNull();
  });

  test("columns are known by several spellings; what is zero or text is not there", () => {
    const contents = {
      "Ye'elimite_pct": 50,
      Hemihydrate_pct: 8,
      "free lime_pct": 1,
      C4AF_pct: 3,
      belite_pct: 0,
      clinker: "K1",
    };
    expect(binderContents(makeMix({ contents, polymer_pct: 2 }))).toEqual({
      phases: { yeelimite: 50, bassanite: 8, lime: 1, ferrite: 3 },
      oxides: {},
      organics: { polymer: 2 },
    });
    expect(limeSource(makeMix({ contents }))).toBe("lime");
  });

  test("the anhydrous binder's measured loss on ignition goes before the one of its composition", () => {
    within(binderMaxima(fx3)!.ignited_g, 95.8144, 0.001);
    expect(binderMaxima({ ...fx3, loi_binder_pct: 6 })!.ignited_g).toBe(94);
  });
});

describe("bounds that stay true", () => {
  const most = (contents: Record<string, number>) => binderMaxima(makeMix({ contents }))!.at_most;

  test("monosulfate may stand above its final amount while sulfate is undissolved: R1 bounds it", () => {
    within(most({ yeelimite_pct: 56, gypsum_pct: 20 }).monosulfate, 56 * 1.0201, 0.01);
  });

  test("with carbonate or lime, ye'elimite's own sulfate can go into ettringite too (R8: 1 mol from 3 of ye'elimite)", () => {
    within(most({ yeelimite_pct: 100, limestone_pct: 10 }).ettringite, 0.6856 * 100, 0.02);
    // R5: 3 mol from 1 of ye'elimite and 8 of gypsum.
    const r5 = most({ yeelimite_pct: 10, gypsum_pct: (10 * 8 * 172.164) / 610.248, lime_pct: 5 });
    within(r5.ettringite, (10 * 3 * 1255.074) / 610.248, 0.001);
    expect(r5.bound_water).toBeNull();
  });

  test("alite and Portland cement bring what nobody has counted: no bound", () => {
    expect(most({ yeelimite_pct: 50, gypsum_pct: 10, portland_cement_pct: 20 })).toMatchObject({
      ettringite: null,
      monosulfate: null,
      ah3: null,
      bound_water: null,
    });
  });

  test("other aluminates raise the bound of AH3 by their alumina", () => {
    const plain = most({ yeelimite_pct: 50 }).ah3!;
    // 1 mol of AH3 per mol of CA at most: 156.006/158.038 g per g.
    within(most({ yeelimite_pct: 50, ca_pct: 10 }).ah3! - plain, 9.8714, 0.001);
  });
});

describe("amounts above the maximum", () => {
  test("are flagged with both numbers; at the maximum they are not", () => {
    const { exceeded, flags } = plausibility(pure, { ettringite: amount(80, 1), ah3: amount(29.8, 0.5) })!;
    expect(exceeded.map(({ quantity }) => quantity)).toEqual(["ettringite"]);
    expect(flags.map(({ sentence }) => sentence)).toEqual([
      "Ettringite: 80.00 g per 100 g (ignited) is above the maximum of 76.08 that this binder can give.",
    ]);
    expect(
      plausibility(pure, { ettringite: amount(76.083), ah3: amount(29.882), bound_water: amount(52.898) })!.exceeded,
    ).toEqual([]);
  });

  test("by no more than their uncertainty, that is said", () => {
    const { flags } = plausibility(pure, { ah3: amount(31, 1) }, { basis: "binder" })!;
    expect(flags[0]!.sentence).toBe(
      "AH3: 31.00 g per 100 g (binder) is above the maximum of 28.63 that this binder can give.",
    );
    expect(plausibility(pure, { ah3: amount(29, 1) }, { basis: "binder" })!.flags[0]!.sentence).toContain(
      ", though by no more than its uncertainty.",
    );
  });

  test("on the basis paste the maxima are over 1 + w/b", () => {
    within(plausibility(fx3, {}, { basis: "paste" })!.maxima.ettringite, 72.9 / 1.5, 0.001);
  });
});

describe("degree of reaction of ye'elimite from AH3", () => {
  const reacted = (...args: Parameters<typeof plausibility>) => plausibility(...args)!.yeelimite_reacted!;

  test("is AH3 over its maximum, ± 1.96 u, and valid where nothing speaks against it", () => {
    const { low, high, valid, reasons } = reacted(pure, { ah3: amount(14.9415, 1) });
    expect(valid).toBe(true);
    expect(reasons).toEqual([]);
    expect((low + high) / 2).toBeCloseTo(0.5, 3);
    expect((high - low) / 2).toBeCloseTo(1.96 / 29.883, 4);
  });

  test("belite: strätlingite may have taken AH3 up, so the range is wide and called invalid (FX3b is fully reacted)", () => {
    const fx3b = reacted(fx3, { ah3: amount(17.763 / 0.958144) });
    expect(fx3b.valid).toBe(false);
    expect(fx3b.low).toBeCloseTo(0.6204, 3);
    expect(fx3b.high).toBeCloseTo(1, 6);
    expect(reacted(fx3, { ah3: amount(29.883) }).low).toBeCloseTo(1, 4);
    expect(fx3b.reasons).toEqual(["belite (12.0 %) may have taken up 11.3 g of AH3 as strätlingite (R7)"]);
  });

  test("lime lets ye'elimite react without AH3: no upper end", () => {
    const { low, high, valid } = reacted(makeMix({ contents: { ...pure.contents, lime_pct: 3 } }), { ah3: amount(10) });
    expect([high, valid]).toEqual([1, false]);
    expect(low).toBeCloseTo(10 / 29.883, 3);
  });

  test("carbonation of ettringite makes one AH3 beside the two of its ye'elimite: the lower end falls to two thirds", () => {
    const { low, valid, reasons } = reacted(pure, { ah3: amount(15) }, { carbonated: true });
    expect(low).toBeCloseTo(15 / 29.883 / 1.5, 3);
    expect([valid, reasons]).toEqual([false, ["carbonation of ettringite makes AH3 (R12)"]]);
  });

  test("other aluminates may have made the AH3: the lower end falls by as much", () => {
    const mix = makeMix({ contents: { ...pure.contents, ferrite_pct: 5, c12a7_pct: 2 } });
    const { low, valid } = reacted(mix, { ah3: amount(15) });
    // 5/485.956 + 7·2/1386.651 mol of alumina as AH3.
    const others = (5 / 485.956 + 14 / 1386.651) * 156.006;
    expect(low).toBeCloseTo((15 - others / 0.958144) / 29.883, 3);
    expect(valid).toBe(false);
  });

  test("is said to be invalid in a flag with the range", () => {
    const { flags } = plausibility(fx3, { ah3: amount(17.763 / 0.958144) })!;
    expect(flags.map(({ code, sentence }) => [code, sentence])).toEqual([
      [
        "degree-invalid",
        "AH3 does not tell the degree of reaction of ye'elimite (between 62 and 100 %): belite (12.0 %) may have taken up 11.3 g of AH3 as strätlingite (R7).",
      ],
    ]);
  });
});

describe("ratio of AH3 to ettringite and water", () => {
  test("theory runs from 0.2486 (R2–R4) to complete hydration", () => {
    const { ah3_per_ettringite: ratio } = plausibility(pure, { ah3: amount(20), ettringite: amount(60) })!;
    within(ratio!.measured, 1 / 3, 1e-12);
    within(ratio!.theory_low, 0.2486, 0.00005);
    within(ratio!.theory_high, 28.632 / 72.9, 0.00002);
    expect(
      plausibility(makeMix({ contents: { yeelimite_pct: 50 } }), { ah3: amount(9), ettringite: amount(1) })!
        .ah3_per_ettringite!.theory_high,
    ).toBeNull();
  });

  test.for([
    [10, 60, ["ratio-unexpected"]],
    [14, 60, []],
    [25, 60, ["ratio-unexpected"]],
    [23.8, 60, []],
  ] as const)("AH3 %d and ettringite %d: %j", ([ah3, aft, expected]) => {
    const { flags } = plausibility(pure, { ah3: amount(ah3, 0.5), ettringite: amount(aft, 0.5) })!;
    expect(flags.map(({ code }) => code)).toEqual(expected);
  });

  test("mixing water that cannot hydrate everything is said with both ratios", () => {
    expect(plausibility({ ...pure, w_b: 0.4 }, {})!.flags.map(({ sentence }) => sentence)).toEqual([
      "The mix M has w/b 0.4, and complete hydration of its ye'elimite takes up 0.465: the mixing water alone hydrates at most 78 %.",
    ]);
    expect(plausibility(pure, {})!.flags).toEqual([]);
  });
});

describe("what the mix names under a window", () => {
  const csa = protocols.csa.windows.map(({ name, from_C, to_C }) => ({ window: name, from_C, to_C }));
  const under = (known: Parameters<typeof makeMix>[0], age_d: number | null = 7) =>
    overlapFlags(csa, makeMix(known), age_d).map(({ code, window }) => `${code} ${window}`);

  test("organics under every window that 180–520 °C touches", () => {
    const touched = ["aft-afm", "ah3", "ch-range", "bound-water"].map((window) => `organic-overlap ${window}`);
    expect(under({ polymer_pct: 5 })).toEqual(touched);
    expect(under({ contents: { PVA_fibre_pct: 0.4 } })).toEqual(touched);
    expect(under({ polymer_pct: 0 })).toEqual([]);
  });

  test("a retarder by what it is: citric acid like organics, borax from 60 °C on", () => {
    expect(under({ retarder: "citric acid" })).toEqual(
      ["aft-afm", "ah3", "ch-range", "bound-water"].map((window) => `retarder-overlap ${window}`),
    );
    const narrow = [{ window: "low", from_C: 50, to_C: 150 }];
    expect(overlapFlags(narrow, makeMix({ retarder: "Borax" }), 7).length).toBe(1);
    expect(overlapFlags(narrow, makeMix({ retarder: "citric acid" }), 7)).toEqual([]);
    for (const retarder of ["none", "-", "", null]) expect(under({ retarder })).toEqual([]);
  });

  test("limestone under carbonate only", () => {
    expect(under({ contents: { limestone_pct: 10 } })).toEqual(["limestone-overlap carbonate"]);
  });

  test("gypsum and bassanite may be unreacted up to one day, with the most that their water can be", () => {
    const contents = { gypsum_pct: 20 };
    expect(under({ contents }, 1)).toEqual(["sulfate-overlap aft-afm", "sulfate-overlap bound-water"]);
    expect(under({ contents }, 3)).toEqual([]);
    expect(under({ contents }, null)).toEqual([]);
    expect(under({ contents: { anhydrite_pct: 20 } }, 0.25)).toEqual([]);
    expect(overlapFlags(csa, makeMix({ contents }), 0.5)[0]!.sentence).toBe(
      "Unreacted gypsum or bassanite (at most 4.2 g of water per 100 g of binder) in the mix M can lose mass in the window aft-afm.",
    );
  });
});

describe("a run of FX3", () => {
  const codesOf = (contents: Record<string, number>) => {
    const { bytes, file } = analyticFixture("FX3");
    const result = indexBytes(bytes, newJob(file, { mix: "M" }), {
      protocol: settle(protocols.csa),
      mix: makeMix({ contents, loi_binder_pct: 4.1856 }),
    });
    if (result.status === "failed") throw new Error(result.error.message);
    return result.windows.flatMap(({ window, flags }) =>
      flags.filter(({ code }) => code === "above-maximum").map(({ sentence }) => `${window}: ${sentence}`),
    );
  };

  test("binds all the water that its binder can, and no more", () => {
    // 52.899 g of the theory; the step holds a thousandth more or less.
    expect(codesOf({ yeelimite_pct: 56.1, gypsum_pct: 20 })).toEqual([]);
  });

  test("binds more than a poorer binder could: flagged with both numbers under the window that shows it", () => {
    expect(codesOf({ yeelimite_pct: 45, gypsum_pct: 20 })).toEqual([
      expect.stringMatching(
        /^bound-water: Bound water: 52\.90 g per 100 g \(ignited\) is above the maximum of 4\d\.\d\d that this binder can give\.$/,
      ),
    ]);
  });
});
