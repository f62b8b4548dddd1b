import { describe, expect, test } from "vitest";
import { combineTerms } from "../../src/phases/combineTerms.ts";
import { referenceMass } from "../../src/phases/referenceMass.ts";
import { makeMix } from "./makeMix.ts";

const weighed = (value: number) => ({
  value,
  weights: { mass: { at: [3], w: [1] }, dtg: { at: [], w: [] }, readings: { at: [], w: [] } },
});
describe("the reference mass", () => {
  test("ignited is the specimen's own ignited mass, with its weights", () => {
    const reference = referenceMass("ignited", { ignited: weighed(28), initial: weighed(40), mix: null });
    expect(reference).toEqual({ ...weighed(28), terms: [] });
  });

  test("initial is the mass before heating, also without an ignited mass", () => {
    const ignited = { missing: "ends-before-ignition" };
    expect(referenceMass("initial", { ignited, initial: weighed(40), mix: null })).toEqual({
      ...weighed(40),
      terms: [],
    });
  });

  test("binder undoes the ignition of the binder: 0.92451 g ignited per g of ye'elimite + 2 gypsum", () => {
    // Gypsum water is 4 × 18.015 of 610.248 + 2 × 172.164 g/mol (atomic weights: Prohaska et al. 2022).
    const loi = (100 * 4 * 18.015) / (610.248 + 2 * 172.164);
    const reference = referenceMass("binder", {
      ignited: weighed(0.92451),
      initial: weighed(1.4),
      mix: makeMix({ loi_binder_pct: loi }),
    });
    expect("value" in reference && reference.value).toBeCloseTo(1, 4);
    expect("value" in reference && reference.weights!.mass.w[0]).toBeCloseTo(1 / 0.92451, 4);
  });

  test("binder of a mortar is its share 1/(1 + s), and an error of s enters by s/(1 + s)", () => {
    const reference = referenceMass("binder", {
      ignited: weighed(40),
      initial: weighed(43),
      mix: makeMix({ loi_binder_pct: 0, sand_binder_ignited: 3, u_sand_binder_ignited: 0.03 }),
    });
    // 1 % of s = 3 is 0.75 % of the binder's mass.
    expect(reference).toMatchObject({ value: 10, terms: [{ cause: "sand", relative: -0.0075, key: "mix:M:sand" }] });
  });

  test.for([null, makeMix({})])("binder is missing where the mix has no loss on ignition: %j", (unknown) => {
    expect(referenceMass("binder", { ignited: weighed(40), initial: weighed(43), mix: unknown })).toEqual({
      missing: "no-binder-loss",
    });
  });
});

describe("terms of uncertainty", () => {
  test("of one key add with their signs, of different keys in squares", () => {
    const terms = [
      { cause: "a", effect: 3, key: "x" },
      { cause: "b", effect: -3, key: "x" },
      { cause: "c", effect: 0.3, key: "y" },
      { cause: "d", effect: -0.4, key: "z" },
    ];
    expect(combineTerms(terms)).toBeCloseTo(0.5, 12);
  });
});
