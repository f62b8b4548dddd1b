import { describe, expect, test } from "vitest";
import { binderMaxima } from "../../src/phases/binderMaxima.ts";
import { makeMix } from "./makeMix.ts";

// Molar masses, g/mol, by hand from the abridged standard atomic weights (Prohaska et al., Pure Appl Chem 94:573, 2022).
const M = {
  ...{ yeelimite: 610.248, gypsum: 172.164, bassanite: 145.142, anhydrite: 136.134, belite: 172.237, ca: 158.038 },
  ...{ c3a: 270.192, c4af: 485.956, c12a7: 1386.651, ettringite: 1255.074, monosulfate: 622.506, ah3: 156.006 },
  ...{ straetlingite: 418.318, water: 18.015, so3: 80.057, al2o3: 101.961, fe2o3: 159.687 },
};
const of = (contents: Record<string, number>, more: Parameters<typeof makeMix>[0] = {}) =>
  binderMaxima(makeMix({ contents, ...more }))!;
const near = (value: number | null, expected: number) => expect(value! / expected).toBeCloseTo(1, 4);

describe("sulfate", () => {
  test("of every source counts by its moles", () => {
    const { sulfate_per_yeelimite } = of({ yeelimite_pct: 50, gypsum_pct: 10, bassanite_pct: 5, anhydrite_pct: 8 });
    const sulfate = 10 / M.gypsum + 5 / M.bassanite + 8 / M.anhydrite;
    near(sulfate_per_yeelimite, (sulfate * M.yeelimite) / 50);
  });

  test("that oxides leave over is what its named sources bring, or anhydrite", () => {
    const moles = 28 / M.al2o3 / 3;
    const left = 16 / M.so3 - moles;
    const oxides = { al2o3_pct: 28, so3_pct: 16 };
    const some = { gypsum_pct: 10, bassanite_pct: 4, anhydrite_pct: 3 };
    // 0.1077 of 0.1083 mol have a name; the rest makes no difference to the sum.
    for (const named of [{}, { gypsum_pct: 5 }, { anhydrite_pct: 2 }, some]) {
      near(of({ ...oxides, ...named }).sulfate_per_yeelimite, left / moles);
    }
    // More named than the analysis has: the names are believed.
    const more = { gypsum_pct: 20, bassanite_pct: 4, anhydrite_pct: 3 };
    const named = 20 / M.gypsum + 4 / M.bassanite + 3 / M.anhydrite;
    near(of({ ...oxides, ...more }).sulfate_per_yeelimite, named / moles);
    expect(of({ ...oxides, ...more }).by).toBe("oxides");
  });

  test("limits the ye'elimite of an analysis poor in it", () => {
    near(of({ al2o3_pct: 30, so3_pct: 4 }).yeelimite_pct, (4 / M.so3) * M.yeelimite);
    expect(of({ al2o3_pct: 30, so3_pct: 4 }).sulfate_per_yeelimite).toBe(0);
  });

  test("and alumina are both needed of an analysis; iron takes alumina first", () => {
    expect(binderMaxima(makeMix({ contents: { al2o3_pct: 30 } }))).toBeNull();
    expect(binderMaxima(makeMix({ contents: { so3_pct: 10 } }))).toBeNull();
    const { yeelimite_pct, sulfate_per_yeelimite, complete } = of({ al2o3_pct: 1, fe2o3_pct: 10, so3_pct: 5 });
    expect([yeelimite_pct, sulfate_per_yeelimite, complete.ettringite]).toEqual([0, 0, 0]);
  });
});

describe("complete hydration", () => {
  test("with belite binds the water of R7 too", () => {
    const { complete, with_belite } = of({ yeelimite_pct: 56, belite_pct: 12, gypsum_pct: 20 });
    // C2S + AH3 + 5 H → C2ASH8.
    near(with_belite.bound_water - complete.bound_water, (12 / M.belite) * 5 * M.water);
    near(with_belite.added_water - complete.added_water, (12 / M.belite) * 5 * M.water);
    near(complete.ah3 - with_belite.ah3, (12 / M.belite) * M.ah3);
    expect(complete.straetlingite).toBe(0);
  });
});

describe("bounds", () => {
  const most = (contents: Record<string, number>) => of(contents).at_most;
  const n = (contents: { yeelimite_pct: number }) => contents.yeelimite_pct / M.yeelimite;

  test.for([
    ["ca", 1],
    ["c3a", 1],
    ["c4af", 1],
    ["c12a7", 7],
  ] as const)("with %s, of %d mol of alumina a mole, are those of its alumina", ([part, count]) => {
    const contents = { yeelimite_pct: 50, [`${part}_pct`]: 10 };
    const alumina = (count * 10) / M[part];
    const found = most(contents);
    near(found.ah3, (2 * n(contents) + alumina) * M.ah3);
    near(found.bound_water, (38 * n(contents) + 32 * alumina) * M.water);
    // Without a source of sulfate there is that of ye'elimite: 3 mol make one of ettringite.
    near(found.ettringite, (n(contents) / 3) * M.ettringite);
    near(found.monosulfate, n(contents) * M.monosulfate);
  });

  test("beside limestone all sulfate can go into either hydrate, as far as alumina goes", () => {
    const contents = { yeelimite_pct: 50, gypsum_pct: 10, limestone_pct: 5 };
    const sulfate = 10 / M.gypsum;
    const found = most(contents);
    near(found.ettringite, ((n(contents) + sulfate) / 3) * M.ettringite);
    near(found.monosulfate, (n(contents) + sulfate) * M.monosulfate);
    near(found.bound_water, 38 * n(contents) * M.water);
    const rich = { yeelimite_pct: 10, anhydrite_pct: 60, ca_pct: 5 };
    const alumina = 3 * n(rich) + 5 / M.ca;
    near(most(rich).ettringite, alumina * M.ettringite);
    near(most(rich).monosulfate, alumina * M.monosulfate);
  });

  test("of plain ye'elimite and gypsum: R1 bounds monosulfate, complete hydration the rest", () => {
    const contents = { yeelimite_pct: 56, gypsum_pct: 20 };
    const { at_most, complete } = of(contents);
    near(at_most.monosulfate, n(contents) * M.monosulfate);
    expect(at_most.ettringite).toBe(complete.ettringite);
    expect(at_most.bound_water).toBe(complete.bound_water);
    expect(at_most.straetlingite).toBe(0);
  });

  test("belite adds its strätlingite and the water of R7, whatever stands beside", () => {
    const belite = { belite_pct: 12 };
    for (const beside of [{}, { ca_pct: 5 }, { limestone_pct: 5 }]) {
      const without = most({ yeelimite_pct: 56, gypsum_pct: 20, ...beside });
      const found = most({ yeelimite_pct: 56, gypsum_pct: 20, ...beside, ...belite });
      near(found.straetlingite, (12 / M.belite) * M.straetlingite);
      near(found.bound_water! - without.bound_water!, (12 / M.belite) * 5 * M.water);
    }
  });

  test("belite alone makes no strätlingite; with any aluminate it can", () => {
    const none = { al2o3_pct: 1, fe2o3_pct: 10, so3_pct: 5, belite_pct: 10 };
    expect(most(none).straetlingite).toBe(0);
    near(most({ ...none, ca_pct: 5 }).straetlingite, (10 / M.belite) * M.straetlingite);
  });

  test("are open for what lime, alite and Portland cement bring", () => {
    const binder = { yeelimite_pct: 50, gypsum_pct: 10 };
    for (const lime of ["lime_pct", "portlandite_pct"]) {
      const found = most({ ...binder, [lime]: 5 });
      expect(found.bound_water).toBeNull();
      near(found.ettringite, ((n(binder) + 10 / M.gypsum) / 3) * M.ettringite);
    }
    const alite = most({ ...binder, alite_pct: 5 });
    expect(alite).toMatchObject({ ettringite: null, monosulfate: null, bound_water: null });
    near(alite.ah3, 2 * n(binder) * M.ah3);
    expect(most({ ...binder, opc_pct: 5 })).toMatchObject({ ettringite: null, monosulfate: null, ah3: null });
  });

  test("name what stands beside, in a fixed order", () => {
    const all = { limestone_pct: 1, opc_pct: 1, alite_pct: 1, lime_pct: 1, c3a_pct: 1, ca_pct: 1, ferrite_pct: 1 };
    expect(of({ yeelimite_pct: 50, ...all }).beside).toEqual([
      ...["ferrite", "calciumAluminate", "tricalciumAluminate", "lime", "alite", "portlandCement", "limestone"],
    ]);
    expect(of({ yeelimite_pct: 50, belite_pct: 9, gypsum_pct: 9 }).beside).toEqual([]);
  });
});

describe("what is left on ignition", () => {
  test.for([
    ["gypsum_pct", (2 * M.water) / M.gypsum],
    ["bassanite_pct", (0.5 * M.water) / M.bassanite],
    ["portlandite_pct", M.water / 74.092],
    ["limestone_pct", 44.009 / 100.086],
    ["anhydrite_pct", 0],
    ["belite_pct", 0],
  ] as const)("of a binder with 10 % of %s lacks %d of it", ([part, share]) => {
    near(of({ yeelimite_pct: 50, [part]: 10 }).ignited_g, 100 - 10 * share);
  });

  test("adds up over the parts", () => {
    const { ignited_g } = of({ yeelimite_pct: 50, gypsum_pct: 10, limestone_pct: 10 });
    near(ignited_g, 100 - (20 * M.water) / M.gypsum - 440.09 / 100.086);
  });
});

describe("mixing water", () => {
  test("that is not known limits nothing that is known", () => {
    expect(of({ yeelimite_pct: 50 }).water).toMatchObject({ w_b: null, reacted_at_most: null });
  });

  test("hydrates in proportion without a source of sulfate, by the 18 mol of R1", () => {
    const whole = (18 * M.water) / M.yeelimite;
    near(of({ yeelimite_pct: 100 }, { w_b: whole / 4 }).water.reacted_at_most, 0.25);
    expect(of({ yeelimite_pct: 100 }, { w_b: 1.01 * whole }).water.reacted_at_most).toBe(1);
    near(of({ yeelimite_pct: 100 }).water.needed, whole);
  });

  test("with more than two moles of sulfate hydrates by the 34 mol of R2 to the end", () => {
    // x > 2: the turn is at complete hydration.
    const contents = { yeelimite_pct: 50, gypsum_pct: 40 };
    const whole = ((50 / M.yeelimite) * 34 * M.water) / 100;
    near(of(contents, { w_b: 0.7 * whole }).water.reacted_at_most, 0.7);
    near(of(contents, { w_b: whole * 0.9999 }).water.reacted_at_most, 0.9999);
    expect(of(contents, { w_b: 1.01 * whole }).water.reacted_at_most).toBe(1);
  });

  test("of a binder without ye'elimite limits nothing", () => {
    expect(of({ al2o3_pct: 1, fe2o3_pct: 10, so3_pct: 5 }, { w_b: 0.3 }).water.reacted_at_most).toBe(1);
  });
});
