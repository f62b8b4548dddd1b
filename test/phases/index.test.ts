import { describe, expect, test } from "vitest";
import { indexOf } from "../../src/phases/indexOf.ts";
import { referenceMass } from "../../src/phases/referenceMass.ts";
import type { Mix } from "../../src/phases/types.ts";

const value = (x: number) => ({ value: x, u: null, terms: [] });
const mix = (known: Partial<Mix>): Mix => ({
  mix: "M",
  w_b: null,
  loi_binder_pct: null,
  sand_binder_ignited: null,
  u_w_b: null,
  u_loi_binder_pct: null,
  u_sand_binder_ignited: null,
  polymer_pct: null,
  retarder: null,
  contents: {},
  ...known,
});

describe("the reference mass", () => {
  test("ignited is the specimen's own ignited mass", () => {
    expect(referenceMass("ignited", { ignited: value(28), initial: 40, mix: null })).toEqual(value(28));
  });

  test("initial is the mass before heating, also without an ignited mass", () => {
    expect(referenceMass("initial", { ignited: { missing: "ends-before-ignition" }, initial: 40, mix: null })).toEqual(
      value(40),
    );
  });

  test("binder undoes the ignition of the binder: FACTS reaction R2, 0.92451 g ignited per g binder with its gypsum", () => {
    // Gypsum water of ye'elimite + 2 gypsum: 7.549 % of the binder (4 × 18.015 / (610.248 + 2 × 172.164)).
    const loi = (100 * 4 * 18.015) / (610.248 + 2 * 172.164);
    const reference = referenceMass("binder", {
      ignited: value(0.92451),
      initial: 1,
      mix: mix({ loi_binder_pct: loi }),
    });
    expect("value" in reference && reference.value).toBeCloseTo(1, 4);
  });

  test("binder of a mortar is its share 1/(1 + s)", () => {
    const reference = referenceMass("binder", {
      ignited: value(40),
      initial: 43,
      mix: mix({ loi_binder_pct: 0, sand_binder_ignited: 3 }),
    });
    expect(reference).toEqual(value(10));
  });

  test.for([null, mix({})])("binder is missing where the mix has no loss on ignition: %j", (unknown) => {
    expect(referenceMass("binder", { ignited: value(40), initial: 43, mix: unknown })).toEqual({
      missing: "no-binder-loss",
    });
  });

  test("what is missing stays missing", () => {
    const missing = { missing: "ends-before-ignition" };
    expect(referenceMass("ignited", { ignited: missing, initial: 1, mix: null })).toEqual(missing);
    expect(indexOf(value(1), missing)).toEqual(missing);
    expect(indexOf({ missing: "window-truncated" }, value(1))).toEqual({ missing: "window-truncated" });
    expect(indexOf(value(3), value(20))).toEqual(value(15));
  });
});
