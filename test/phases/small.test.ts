import { describe, expect, test } from "vitest";
import { toCurve } from "../../src/curve/toCurve.ts";
import type { Loss } from "../../src/losses/types.ts";
import { checkSubstance } from "../../src/phases/checkSubstance.ts";
import { conversionDegree } from "../../src/phases/conversionDegree.ts";
import { exceededSentence } from "../../src/phases/exceededSentence.ts";
import { hydrationDegree } from "../../src/phases/hydrationDegree.ts";
import { hydroxylParts } from "../../src/phases/hydroxylParts.ts";
import { overlapFlags } from "../../src/phases/overlapFlags.ts";
import { waterRatioFlags } from "../../src/phases/waterRatioFlags.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { makeRun, ramp } from "../makeRun.ts";
import { water } from "./amountProtocol.ts";
import { makeMix } from "./makeMix.ts";

describe("the sentence of an amount above its maximum", () => {
  const of = (value: number, u: number | null) =>
    exceededSentence({ quantity: "straetlingite", value, u, maximum: 10 }, "paste");
  const sentence = (value: string) =>
    `Strätlingite: ${value} g per 100 g (paste) is above the maximum of 10.00 that this binder can give`;

  test.for([
    [11, null, false],
    [11, 0.5, false],
    [11, 0.6, true],
    [14, 2, false],
    [13.9, 2, true],
    // 1.96 standard uncertainties just reach it.
    [11.96, 1, true],
    [10.001, 0, false],
  ] as const)("%d ± %s: by no more than its uncertainty: %s", ([value, u, within]) => {
    expect(of(value, u)).toBe(
      `${sentence(value.toFixed(2))}${within ? ", though by no more than its uncertainty" : ""}.`,
    );
  });

  test.for([
    ["ettringite", "Ettringite"],
    ["monosulfate", "Monosulfate"],
    ["ah3", "AH3"],
    ["bound_water", "Bound water"],
  ] as const)("%s is called %s", ([quantity, label]) => {
    expect(exceededSentence({ quantity, value: 11, u: null, maximum: 10 }, "ignited")).toMatch(
      new RegExp(`^${label}: 11\\.00 g per 100 g \\(ignited\\)`),
    );
  });
});

describe("the degree of conversion", () => {
  test.for([
    [30, 70, undefined, 70],
    [30, 70, 1, 70],
    // 70/(70 + 30/0.5)
    [30, 70, 0.5, 7000 / 130],
    [0, 5, undefined, 100],
    [5, 0, undefined, 0],
  ] as const)("of CAH10 %d and AH3 %d with K %s is %d %", ([cah10, ah3, K, degree]) => {
    expect(conversionDegree(cah10, ah3, K === undefined ? {} : { K })).toBeCloseTo(degree, 12);
  });

  test.for([
    [-1, 5],
    [5, -1],
    [0, 0],
    [Number.NaN, 5],
    [5, Number.NaN],
  ] as const)("of %d and %d there is none", ([cah10, ah3]) => {
    expect(() => conversionDegree(cah10, ah3)).toThrow(
      new RangeError(`Give peak sizes of zero or more, not both zero, not ${cah10} and ${ah3}`),
    );
  });

  test.for([0, -1, Number.NaN])("with K %d there is none", (K) => {
    expect(() => conversionDegree(1, 1, { K })).toThrow(new RangeError(`Give a constant above 0 at K, not ${K}`));
  });
});

describe("the degree of hydration", () => {
  const losses = { dehydration: 10, dehydroxylation: 2, decarbonation: 3 };

  test.for([
    // M(H2O)/M(CO2) = 18.015/44.009 (atomic weights: Prohaska et al. 2022).
    [{}, 12 + (3 * 18.015) / 44.009, 24],
    [{ waterPerCo2: 0.41 }, 13.23, 24],
    [{ waterPerCo2: 0.5, binderDecarbonation: 1 }, 13, 24],
    [{ waterPerCo2: 0.5, ultimate: 0.3 }, 13.5, 30],
  ] as const)("under %j is %d of %d g per 100 g", ([options, bound, whole]) => {
    const found = hydrationDegree(losses, options);
    expect(found.boundWater).toBeCloseTo(bound, 6);
    expect(found.degree).toBeCloseTo(bound / whole, 6);
  });

  test.for([0, -0.24, Number.NaN])("needs an ultimate above 0, not %d", (ultimate) => {
    expect(() => hydrationDegree(losses, { ultimate })).toThrow(
      new RangeError(`Give an ultimate bound water above 0 g per g, not ${ultimate}`),
    );
  });
});

describe("hydroxyl water under AH3", () => {
  const loss = (name: string, more: Partial<Loss> & { mol_lost?: number } = {}): Loss => {
    const { mol_lost, ...rest } = more;
    const none = { missing: "none" };
    return {
      window: {
        ...{ name, from_C: 50, to_C: 150, rule: "step" as const },
        ...(mol_lost === undefined ? {} : { amount: water("ettringite", mol_lost) }),
      },
      step: { value: 1, weights: { mass: { at: [], w: [] }, dtg: { at: [], w: [] }, readings: { at: [], w: [] } } },
      ...{ area: none, tangent: none, flags: [] },
      peak: {
        temperature: 100,
        dtg: 1,
        jitter: { mass: { at: [], w: [] }, dtg: { at: [], w: [] }, readings: { at: [], w: [] } },
      },
      ...rest,
    };
  };
  const parted = { window: "ah3", aft: "aft", afm: "afm" };
  const done = {
    code: "hydroxyl-corrected",
    sentence: "Hydroxyl water of AFt (share 0.5 ± 0.3) and of AFm (share 1 ± 0.1) was taken off.",
    window: "ah3",
  };

  test.for([
    // 6 of the 12 OH as water beside 26 and 6 mol of molecular water (Ca6[Al(OH)6]2(SO4)3·26H2O, Ca4[Al(OH)6]2(SO4)·6H2O).
    [undefined, undefined, 26, 6],
    [20, 7, 20, 7],
  ] as const)("of windows for %s and %s mol is a share of their loss by 6 mol", ([ofAft, ofAfm, aft, afm]) => {
    const losses = [
      loss("aft", ofAft === undefined ? {} : { mol_lost: ofAft }),
      loss("afm", ofAfm === undefined ? {} : { mol_lost: ofAfm }),
    ];
    const { parts, flags } = hydroxylParts(losses, parted);
    expect(flags).toMatchObject([done]);
    expect(parts!.map(({ loss: one }) => one.window.name)).toEqual(["aft", "afm"]);
    expect(parts!.map(({ factor }) => factor)).toEqual([
      expect.closeTo((0.5 * 6) / aft, 12),
      expect.closeTo(6 / afm, 12),
    ]);
    expect(parts!.map(({ u }) => u)).toEqual([
      [{ cause: "hydroxyl water of AFt", effect: expect.closeTo((0.3 * 6) / aft, 12), key: "hydroxyl:k" }],
      [{ cause: "hydroxyl water of AFm", effect: expect.closeTo((0.1 * 6) / afm, 12), key: "hydroxyl:k-afm" }],
    ]);
  });

  test("of a common window goes by the share of AFm in its loss", () => {
    const correction = {
      window: "ah3",
      aft_afm: "both",
      afm_share: 0.2,
      u_afm_share: 0.05,
      k: 0.8,
      k_afm: 0.9,
      u_k: 0.2,
    };
    const { parts, flags } = hydroxylParts([loss("both")], correction);
    expect(flags.map(({ sentence }) => sentence)).toEqual([
      "Hydroxyl water of AFt (share 0.8 ± 0.2) and of AFm (share 0.9 ± 0.1) was taken off.",
    ]);
    const [aft, afm] = [(0.8 * 6) / 26, (0.9 * 6) / 6];
    expect(parts).toHaveLength(1);
    expect(parts![0]!.factor).toBeCloseTo(0.8 * aft + 0.2 * afm, 12);
    expect(parts![0]!.u).toEqual([
      { cause: "hydroxyl water of AFt", effect: expect.closeTo((0.8 * 0.2 * 6) / 26, 12), key: "hydroxyl:k" },
      { cause: "hydroxyl water of AFm", effect: expect.closeTo(0.2 * 0.1, 12), key: "hydroxyl:k-afm" },
      { cause: "share of AFm", effect: expect.closeTo((afm - aft) * 0.05, 12), key: "hydroxyl:afm-share" },
    ]);
    // Without a share all of it is AFt.
    const plain = hydroxylParts([loss("both")], { window: "ah3", aft_afm: "both" }).parts![0]!;
    expect(plain.factor).toBeCloseTo((0.5 * 6) / 26, 12);
    expect(plain.u.map(({ effect }) => effect)).toEqual([expect.closeTo((0.3 * 6) / 26, 12), 0, 0]);
  });

  test("of an AFm without a peak of its own is doubted, if there is a loss at all", () => {
    const codes = (afm: Partial<Loss>) =>
      hydroxylParts([loss("aft"), loss("afm", afm)], parted).flags.map(({ code, window }) => [code, window]);
    expect(codes({})).toEqual([["hydroxyl-corrected", "ah3"]]);
    expect(codes({ peak: null, step: { missing: "window-truncated" } })).toEqual([["hydroxyl-corrected", "ah3"]]);
    const { flags } = hydroxylParts([loss("aft"), loss("afm", { peak: null })], parted);
    expect(flags).toMatchObject([
      done,
      {
        code: "afm-unproven",
        sentence: "The window afm has no DTG maximum of its own: what is counted as AFm there may be a tail of AFt.",
        window: "ah3",
      },
    ]);
  });

  test.for([
    [{ window: "ah3", aft_afm: "both" }, "there is no window both"],
    [parted, "AFt and AFm are not parted into aft and afm in this campaign"],
  ] as const)("under %j without its windows is refused", ([correction, why]) => {
    for (const losses of [[], [loss("aft")], [loss("afm")]]) {
      const { parts, flags } = hydroxylParts(losses, correction);
      expect(parts).toBeNull();
      expect(flags).toMatchObject([
        {
          code: "hydroxyl-refused",
          sentence: `The hydroxyl water under ah3 cannot be taken off: ${why}.`,
          window: "ah3",
        },
      ]);
    }
  });
});

describe("what a mix loses beside its hydrates", () => {
  const under = (from_C: number, to_C: number, known: Parameters<typeof makeMix>[0], age_d: number | null = 1) =>
    overlapFlags([{ window: "w", from_C, to_C }], makeMix(known), age_d).map(({ code }) => code);

  // Ranges that touch at one temperature share none.
  test.for([
    [{ polymer_pct: 1 }, 180, 520, "organic-overlap"],
    [{ retarder: "citric acid" }, 180, 520, "retarder-overlap"],
    [{ retarder: "boric acid" }, 60, 520, "retarder-overlap"],
    [{ retarder: "sodium borate" }, 60, 520, "retarder-overlap"],
    [{ contents: { limestone_pct: 5 } }, 600, 850, "limestone-overlap"],
    [{ contents: { gypsum_pct: 5 } }, 95, 200, "sulfate-overlap"],
    [{ contents: { bassanite_pct: 5 } }, 95, 200, "sulfate-overlap"],
  ] as const)("%j between %d and %d °C", ([known, low, high, code]) => {
    expect(under(low - 20, low, known)).toEqual([]);
    expect(under(low - 20, low + 1, known)).toEqual([code]);
    expect(under(low + 1, high - 1, known)).toEqual([code]);
    expect(under(high - 1, high + 20, known)).toEqual([code]);
    expect(under(high, high + 20, known)).toEqual([]);
    expect(under(20, 1000, known)).toEqual([code]);
  });

  test("is named with its share", () => {
    const sentences = (known: Parameters<typeof makeMix>[0], age_d: number | null = 1) =>
      overlapFlags([{ window: "w", from_C: 20, to_C: 1000 }], makeMix(known), age_d).map(({ sentence }) => sentence);
    expect(sentences({ polymer_pct: 1.23456, contents: { PVA_fibre_pct: 0.4, limestone_pct: 10 } })).toEqual([
      "polymer (1.23 %), PVA_fibre (0.4 %) in the mix M can lose mass in the window w.",
      "Limestone (10 %) in the mix M can lose mass in the window w.",
    ]);
    expect(sentences({ retarder: " tartaric acid " })).toEqual([
      "tartaric acid in the mix M can lose mass in the window w.",
    ]);
    // 20 g of gypsum hold 2·18.015/172.164 of water, 10 g of bassanite 9.0075/145.142: 4.186 + 0.621 g.
    expect(sentences({ contents: { gypsum_pct: 20, bassanite_pct: 10 } })).toEqual([
      "Unreacted gypsum or bassanite (at most 4.8 g of water per 100 g of binder) in the mix M can lose mass in the window w.",
    ]);
  });

  test.for(["none", "None", " no ", "-", "–", "0", "", null])("a retarder called %j is none", (retarder) => {
    expect(under(20, 1000, { retarder })).toEqual([]);
  });

  test.for(["no borax", "nonex", "0.5 % citric acid"])("a retarder called %j is one", (retarder) => {
    expect(under(20, 1000, { retarder })).toEqual(["retarder-overlap"]);
  });

  test("is unreacted sulfate up to one day, where the age is known", () => {
    const contents = { gypsum_pct: 20 };
    const at = (age_d: number | null) => under(20, 1000, { contents }, age_d).length;
    expect([at(0), at(1), at(1.01), at(null)]).toEqual([1, 1, 0, 0]);
  });
});

test("a missing water-to-binder ratio is told where it is what is missing", () => {
  const missing = { missing: "no-water-ratio" };
  expect(waterRatioFlags(missing, makeMix(), "w")).toMatchObject([
    {
      code: "no-water-ratio",
      sentence: "An amount per 100 g of paste needs the water-to-binder ratio of the mix M.",
      window: "w",
    },
  ]);
  expect(waterRatioFlags(missing, null, "w")[0]!.sentence).toContain("of the mix (none named).");
  expect(waterRatioFlags({ missing: "no-binder-loss" }, makeMix(), "w")).toEqual([]);
  expect(waterRatioFlags({ value: 1, u: null, terms: [] }, makeMix(), "w")).toEqual([]);
});

test.for([0, -5, Number.NaN])("a check of a sample of %d mg is refused", (first) => {
  const { temperature, time } = ramp(25, 600, { rows: 1000, rate: 10 });
  const curve = toCurve(
    makeRun(
      temperature,
      temperature.map(() => 10),
      { time, name: "o.txt" },
    ),
    protocols.csa,
  );
  expect(() => checkSubstance({ ...curve, initialMass: first }, "gypsum")).toThrow(
    `o.txt: the first mass is ${first} mg: a sample weighs more than nothing; tare the balance with the empty crucible`,
  );
});
