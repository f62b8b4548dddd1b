import { describe, expect, test } from "vitest";
import { molarMass } from "../../src/chemistry/molarMass.ts";
import { reactionMasses } from "../../src/chemistry/reactionMasses.ts";
import { type ReactionName, reactions } from "../../src/chemistry/reactions.ts";
import { shorthandComposition } from "../../src/chemistry/shorthandComposition.ts";
import { theoreticalLosses } from "../../src/chemistry/theoreticalLosses.ts";
import { yeelimiteHydrates } from "../../src/chemistry/yeelimiteHydrates.ts";

// Figures are arithmetic from the published atomic weights (Prohaska et al., Pure Appl Chem 94:573, 2022), worked out
// apart from this code.

const within = (value: number, expected: number, tolerance: number) =>
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(tolerance);

function elementsOf(side: Record<string, number>): Record<string, number> {
  const sum: Record<string, number> = {};
  for (const [shorthand, moles] of Object.entries(side)) {
    for (const [element, count] of Object.entries(shorthandComposition(shorthand))) {
      sum[element] = (sum[element] ?? 0) + moles * count;
    }
  }
  return sum;
}

test.for(Object.keys(reactions) as ReactionName[])("%s has the same elements on both sides", (name) => {
  const left = elementsOf(reactions[name].left);
  const right = elementsOf(reactions[name].right);
  expect(Object.keys(left).toSorted()).toEqual(Object.keys(right).toSorted());
  for (const [element, moles] of Object.entries(left)) expect(right[element]).toBeCloseTo(moles, 10);
});

test("there are twelve reactions", () => {
  expect(Object.keys(reactions)).toHaveLength(12);
});

describe("theoretical maxima per gram of ye'elimite", () => {
  test.for([
    ["R1", null, 1.0201, 0.5314, 0.5314],
    ["R2", 2.0567, null, 1.0037, 0.6417],
    ["R3", 2.0567, null, 1.1218, 0.7757],
    ["R4", 2.0567, null, 1.0923, 0.7402],
  ] as [ReactionName, number | null, number | null, number, number][])("%s", ([name, aft, afm, water, ratio]) => {
    const { left, right } = reactionMasses(name, "C4A3$");
    if (aft !== null) within(right.C6A$3H32!, aft, 0.0005);
    if (afm !== null) within(right.C4A$H12!, afm, 0.0005);
    within(right.AH3!, 0.5113, 0.0005);
    within(left.H!, water, 0.0005);
    // Stoichiometric water to binder (check 11): water over everything else that goes in.
    const solids = Object.entries(left).reduce((sum, [shorthand, mass]) => sum + (shorthand === "H" ? 0 : mass), 0);
    within(left.H! / solids, ratio, 0.001);
  });

  test.for([
    ["R2", "C$H2", 0.5642],
    ["R3", "C$", 0.4462],
    ["R4", "C$H0.5", 0.4757],
    ["R8", "Cc", 0.1093],
  ] as [ReactionName, string, number][])("%s takes %s", ([name, source, mass]) => {
    within(reactionMasses(name, "C4A3$").left[source]!, mass, 0.0001);
  });

  test("R8 with calcite", () => {
    const { left, right } = reactionMasses("R8", "C4A3$");
    within(right.C6A$3H32!, 0.6856, 0.0001);
    within(right.C4AcH11!, 0.621, 0.0001);
    within(right.AH3!, 0.5113, 0.0001);
    within(left.H!, 0.7085, 0.0001);
  });

  test("with two gypsum: 2.0567 g ettringite, 0.5113 g AH3, as 4.0225 to 1 (check 10)", () => {
    const { right } = reactionMasses("R2", "C4A3$");
    within(right.C6A$3H32!, 2.0567, 0.0005);
    within(right.AH3!, 0.5113, 0.0005);
    within(right.C6A$3H32! / right.AH3!, 4.0225, 0.0005);
    within(right.AH3! / right.C6A$3H32!, 0.2486, 0.0001);
    const monosulfate = reactionMasses("R1", "C4A3$").right;
    within(monosulfate.AH3! / monosulfate.C4A$H12!, 0.5012, 0.0001);
  });

  test("belite to strätlingite (R7)", () => {
    const { left, right } = reactionMasses("R7", "C2S");
    within(right.C2ASH8!, 2.4287, 0.0001);
    within(left.AH3!, 0.9058, 0.0001);
    within(left.H!, 0.523, 0.0001);
    within(reactionMasses("R2", "C4A3$").right.AH3! / left.AH3!, 0.5645, 0.0001);
  });

  test("conversion of CAH10 by mass (R11, check 12; reaction in Ramachandran et al. 2002, p. 411)", () => {
    const { right } = reactionMasses("R11", "CAH10");
    within(100 * right.C3AH6!, 37.285 / 1, 0.005);
    within(100 * right.AH3!, 30.753, 0.005);
    within(100 * right.H!, 31.962, 0.005);
  });

  test("a participant that the reaction does not have is refused", () => {
    expect(() => reactionMasses("R7", "C4A3$")).toThrow(
      new RangeError("R7 has no C4A3$: name one of C2S, AH3, H, C2ASH8"),
    );
  });
});

/** Loss on ignition and amounts per 100 g ignited mass of a mixture of hydrates given in g. */
function ignite(grams: Record<string, number>) {
  const mass = Object.values(grams).reduce((sum, value) => sum + value, 0);
  const lost = Object.entries(grams).reduce((sum, [name, g]) => sum + (g * theoreticalLosses(name).totalPct) / 100, 0);
  return { mass, lost, lossPct: (100 * lost) / mass, perIgnited: (value: number) => (100 * value) / (mass - lost) };
}

describe("fully hydrated ye'elimite", () => {
  test("with two calcium sulfate", () => {
    const { right } = reactionMasses("R3", "C4A3$");
    const aft = right.C6A$3H32!;
    const ah3 = right.AH3!;
    const whole = ignite({ ettringite: aft, ah3 });
    within((100 * aft) / whole.mass, 80.09, 0.005);
    within((100 * ah3) / whole.mass, 19.91, 0.005);
    within(whole.lossPct, 43.684, 0.005);
    within(whole.perIgnited(aft), 142.215, 0.005);
    within(whole.perIgnited(ah3), 35.355, 0.005);
    within(whole.perIgnited(whole.lost), 77.57, 0.005);
    within((100 * ah3 * theoreticalLosses("ah3").waterPct) / 100 / whole.lost, 15.79, 0.005);
  });

  test("without sulfate", () => {
    const { right } = reactionMasses("R1", "C4A3$");
    const afm = right.C4A$H12!;
    const ah3 = right.AH3!;
    const whole = ignite({ monosulfate: afm, ah3 });
    within((100 * afm) / whole.mass, 66.61, 0.005);
    within((100 * ah3) / whole.mass, 33.39, 0.005);
    within(whole.lossPct, 34.699, 0.005);
    within(whole.perIgnited(afm), 102.009, 0.005);
    within(whole.perIgnited(ah3), 51.129, 0.005);
    within(whole.perIgnited(whole.lost), 53.137, 0.005);
    within((100 * ah3 * theoreticalLosses("ah3").waterPct) / 100 / whole.lost, 33.33, 0.005);
  });

  test.for([
    ["R2", 0.92451],
    ["R3", 1],
    ["R4", 0.98],
  ] as [ReactionName, number][])("ignited mass per gram of anhydrous binder of %s", ([name, expected]) => {
    const { H: _, ...binder } = reactionMasses(name, "C4A3$").left;
    const { lossPct } = ignite(binder);
    within(1 - lossPct / 100, expected, 0.00005);
  });
});

describe("hydrates of ye'elimite at a given progress", () => {
  test("binder of 56 g ye'elimite and 20 g gypsum in 100 g (fixture FX3)", () => {
    const hydrates = yeelimiteHydrates(56, { gypsum: 20 });
    within(20 / molarMass("CaSO4·2H2O") / (56 / 610.248), 1.26592, 0.00001);
    within(hydrates.ettringite, 72.9, 0.001);
    within(hydrates.monosulfate, 20.967, 0.001);
    within(hydrates.ah3, 28.632, 0.001);
    within(hydrates.water, 46.499, 0.001);
    expect(hydrates.sulfates).toEqual({ gypsum: 0, bassanite: 0, anhydrite: 0 });
    expect(hydrates.yeelimite).toBe(0);
    const whole = ignite({
      ettringite: hydrates.ettringite,
      monosulfate: hydrates.monosulfate,
      ah3: hydrates.ah3,
      // 24 g that do not react: as lime they lose nothing.
      lime: 24,
    });
    within(whole.mass, 146.499, 0.001);
    within(whole.lossPct, 34.597, 0.001);
    within(whole.perIgnited(hydrates.ettringite), 76.084, 0.001);
    within(whole.perIgnited(hydrates.monosulfate), 21.883, 0.001);
    within(whole.perIgnited(hydrates.ah3), 29.883, 0.001);
    within(whole.perIgnited(whole.lost), 52.899, 0.001);
  });

  test("then 12 g belite to strätlingite (fixture FX3b)", () => {
    const { left, right } = reactionMasses("R7", "C2S");
    within(12 * right.C2ASH8!, 29.145, 0.001);
    within(yeelimiteHydrates(56, { gypsum: 20 }).ah3 - 12 * left.AH3!, 17.763, 0.001);
    within(12 * left.H!, 6.276, 0.001);
  });

  test.for([
    ["no sulfate", "H", "R1"],
    ["gypsum", "C$H2", "R2"],
    ["anhydrite", "C$", "R3"],
    ["bassanite", "C$H0.5", "R4"],
  ] as const)("with %s the amounts are those of the reaction", ([source, shorthand, name]) => {
    const { left, right } = reactionMasses(name, "C4A3$");
    const hydrates = yeelimiteHydrates(1, source === "no sulfate" ? {} : { [source]: left[shorthand]! });
    within(hydrates.ettringite, right.C6A$3H32 ?? 0, 1e-12);
    within(hydrates.monosulfate, right.C4A$H12 ?? 0, 1e-12);
    within(hydrates.ah3, right.AH3!, 1e-12);
    within(hydrates.water, left.H!, 1e-12);
  });

  test.for([
    { gypsum: 20, reacted: 0.3 },
    { anhydrite: 8, bassanite: 3, reacted: 0.8 },
    { gypsum: 60, anhydrite: 4 },
    {},
  ])("mass is conserved with %j", (options) => {
    const { gypsum = 0, bassanite = 0, anhydrite = 0 } = options as Record<string, number>;
    const { ettringite, monosulfate, ah3, yeelimite, water, sulfates } = yeelimiteHydrates(56, options);
    const after =
      ettringite + monosulfate + ah3 + yeelimite + sulfates.gypsum + sulfates.bassanite + sulfates.anhydrite;
    within(after, 56 + gypsum + bassanite + anhydrite + water, 1e-9);
  });

  test("sulfate goes into ettringite before any monosulfate forms", () => {
    const early = yeelimiteHydrates(56, { gypsum: 20, reacted: 0.5 });
    expect(early.monosulfate).toBe(0);
    expect(early.sulfates.gypsum).toBeGreaterThan(0);
    expect(yeelimiteHydrates(56, { gypsum: 20, reacted: 0.8 }).monosulfate).toBeGreaterThan(0);
  });

  test.for([
    [-1, {}, "Give a mass of zero or more for yeelimite, not -1"],
    [1, { gypsum: -2 }, "Give a mass of zero or more for gypsum, not -2"],
    [1, { reacted: 1.2 }, "Give a share between 0 and 1 at reacted, not 1.2"],
  ] as const)("%d g with %j is refused", ([yeelimite, options, message]) => {
    expect(() => yeelimiteHydrates(yeelimite, options)).toThrow(new RangeError(message));
  });
});

describe("analytic mixtures", () => {
  test("50 mg of 25 % portlandite, 10 % calcite, 65 % inert (fixture FX1)", () => {
    const water = (25 * theoreticalLosses("portlandite").waterPct) / 100;
    const co2 = (10 * theoreticalLosses("calcite").co2Pct) / 100;
    within(water, 6.07859, 0.00001);
    within(co2, 4.39712, 0.00001);
    within(100 - water - co2, 89.52429, 0.00001);
    within((100 * 25) / (100 - water - co2), 27.9254, 0.0001);
    within((100 * 10) / (100 - water - co2), 11.1702, 0.0001);
    // Carbonated portlandite counted as portlandite, on the ignited basis (check 14).
    const corrected = 25 + co2 * (molarMass("Ca(OH)2") / molarMass("CO2"));
    within(corrected, 32.4028, 0.0001);
    within((100 * corrected) / (100 - water - co2), 36.1945, 0.001);
  });

  test("40 % ettringite, 10 % monosulfate, 15 % AH3, 5 % calcite (fixtures FX2 and FX2b)", () => {
    const share = (name: string, pct: number) => (pct * theoreticalLosses(name).waterPct) / 100;
    const waters = [share("ettringite", 40), share("monosulfate", 10), share("ah3", 15)];
    const water = waters.reduce((sum, value) => sum + value);
    const co2 = (5 * theoreticalLosses("calcite").co2Pct) / 100;
    waters.forEach((value, i) => {
      within(value, [18.3728, 3.4727, 5.1964][i]!, 0.0001);
    });
    within(water, 27.042, 0.0001);
    within(co2, 2.1986, 0.0001);
    const residue = 100 - water - co2;
    within(residue, 70.7595, 0.0001);
    [
      [40, 56.53],
      [10, 14.132],
      [15, 21.199],
      [5, 7.066],
      [water, 38.217],
    ].forEach(([pct, expected]) => {
      within((100 * pct!) / residue, expected!, 0.001);
    });
    // Six hydroxyl waters of each in the window of AH3 double it.
    const hydroxyl =
      (40 * 6 * molarMass("H2O")) / theoreticalLosses("ettringite").molarMass +
      (10 * 6 * molarMass("H2O")) / theoreticalLosses("monosulfate").molarMass;
    within(hydroxyl, 5.1813, 0.0001);
    within((waters[2]! + hydroxyl) * theoreticalLosses("ah3").phasePerWater!, 29.96, 0.01);
  });

  test("mortar of three parts inert sand: per ignited mortar and per ignited binder (fixture FX4)", () => {
    const perMortar = (100 * 5) / 93;
    within(perMortar, 5.3763, 0.0001);
    within(perMortar * (1 + 3), 21.5054, 0.0001);
  });

  test("20 to 26 % ettringite imply by 1 to 2 stoichiometry 4.97 to 6.46 % AH3 and their water", () => {
    const ratio = 2 * (theoreticalLosses("ah3").molarMass / theoreticalLosses("ettringite").molarMass);
    for (const [aft, ah3, aftWater, ah3Water] of [
      [20, 4.97, 9.19, 1.72],
      [26, 6.46, 11.94, 2.24],
    ] as const) {
      within(aft * ratio, ah3, 0.005);
      within((aft * theoreticalLosses("ettringite").waterPct) / 100, aftWater, 0.005);
      within((aft * ratio * theoreticalLosses("ah3").waterPct) / 100, ah3Water, 0.005);
    }
  });
});
