import { describe, expect, test } from "vitest";
import type { Requirement } from "../../src/campaign/decisions.ts";
import { CAUTION, sufficientCuring } from "../../src/compare/sufficientCuring.ts";
import { readReference } from "../readReference.ts";
import { constant, makeCell } from "./makeCell.ts";

/** R 4.2.2: test/reference/compare.R. */
const reference = readReference<{
  cells: { curing: string; age_d: number; values: number[] }[];
  s: number;
  df: number;
  sufficient: { curing: string; p: number; lower: number; bound: number; p_value: number }[];
}>("compare");
const scatter = constant(reference.s, reference.df);
const valuesOf = (curing: string) =>
  reference.cells.find((cell) => cell.curing === curing && cell.age_d === 28)!.values;
/** The reference's regimes as durations of one curing: moist 14 d, wax 7 d, cloth 3 d, air 1 d. */
const series = (
  [
    [14, "moist"],
    [7, "wax"],
    [3, "cloth"],
    [1, "air"],
  ] as const
).map(([curing_d, name]) => makeCell(valuesOf(name), { curing: "cloth", curing_d, scatter }));

const options = { test_age_min: 28 * 1440 };
const share = (size: number) => [{ quantity: null, kind: "share", size, unit: null }] as const;
const atLeast = (value: number): Requirement[] => [{ quantity: "strength", at: "least", value, unit: "MPa" }];

describe("reasoning", () => {
  test("p in ratio form, lower bound of the share and bound of the mean, as R computes them", () => {
    const [row] = sufficientCuring(series, { ...options, margins: share(0.1), requirements: atLeast(20) });
    const shorter = row!.steps.slice(1);
    expect(shorter.map(({ curing_d }) => curing_d)).toEqual([7, 3, 1]);
    shorter.forEach((step, i) => {
      const known = reference.sufficient[i]!;
      expect(step.p).toBeCloseTo(known.p, 10);
      expect(step.share_lower95! / 100).toBeCloseTo(known.lower, 10);
      expect(step.bound95).toBeCloseTo(known.bound, 10);
    });
    expect(shorter.map(({ verdict }) => verdict)).toEqual(["holds", "holds", "not shown"]);
    expect(row!.sufficient_d).toBe(3);
    expect(row!.sentence).toBe(
      "strength of M1 at 28 d, cloth: 3 d is the shortest shown to lose no more than 10 % against 14 d and to reach at least 20 MPa (95 % bound). 1 d is not shown to hold; that is not to say that it fails.",
    );
  });

  test("a margin in the unit of the quantity", () => {
    const margins = [{ quantity: "strength", kind: "value", size: 3, unit: "MPa" }] as const;
    const [row] = sufficientCuring(series, { ...options, margins });
    const [, wax, cloth] = row!.steps;
    expect(wax!.p).toBeCloseTo(reference.sufficient[0]!.p_value, 10);
    expect(cloth!.p).toBeCloseTo(reference.sufficient[1]!.p_value, 10);
    expect(row!.sufficient_d).toBe(7);
  });

  test("the first failure ends the sequence: what lies beyond is not tested, however good it looks", () => {
    const cells = [14, 7, 3].map((curing_d, i) =>
      makeCell(
        [
          [42, 42],
          [30, 30],
          [43, 43],
        ][i]!,
        { curing: "cloth", curing_d, scatter },
      ),
    );
    const [row] = sufficientCuring(cells, { ...options, margins: share(0.1) });
    expect(row!.steps.map(({ verdict }) => verdict)).toEqual(["longest", "not shown", "not reached"]);
    expect(row!.sufficient_d).toBe(14);
    expect(row!.sentence).toContain(
      "no duration shorter than 14 d is shown to lose no more than 10 % against 14 d. 7 d is not shown to hold",
    );
  });

  test("the lower 95 % bound must reach a requirement, not the mean", () => {
    // Bounds by R: 40.52, 38.72, 31.45; the mean of 3 d is 39.6.
    const only = (value: number) => sufficientCuring(series, { ...options, requirements: atLeast(value) })[0]!;
    expect(only(38.7).sufficient_d).toBe(3);
    expect(only(38.8).sufficient_d).toBe(7);
    expect(only(45).sufficient_d).toBe(null);
    expect(only(45).sentence).toBe(
      "strength of M1 at 28 d, cloth: not even 14 d is shown to reach at least 45 MPa (95 % bound).",
    );
  });

  test("both together: a duration must hold in both", () => {
    const [row] = sufficientCuring(series, { ...options, margins: share(0.1), requirements: atLeast(40) });
    expect(row!.sufficient_d).toBe(7);
  });

  test("an upper limit for what must not be exceeded", () => {
    const shrinkage = [14, 7, 1].map((curing_d, i) =>
      makeCell(
        [
          [300, 310],
          [340, 350],
          [520, 530],
        ][i]!,
        { curing: "cloth", curing_d, quantity: "shrinkage", unit: "microstrain", scatter: constant(10, 12) },
      ),
    );
    const requirements: Requirement[] = [{ quantity: "shrinkage", at: "most", value: 400, unit: "microstrain" }];
    const [row] = sufficientCuring(shrinkage, { ...options, requirements });
    expect(row!.sufficient_d).toBe(7);
    expect(row!.sentence).toContain("7 d is the shortest shown to stay at 400 microstrain or below (95 % bound)");
  });

  test("every shorter duration holds", () => {
    const [row] = sufficientCuring(series.slice(0, 3), { ...options, margins: share(0.2) });
    expect(row!.sufficient_d).toBe(3);
    expect(row!.sentence).toContain("Every shorter duration that was tested holds.");
  });
});

describe("never without its caution", () => {
  test.for([[{}], [{ margins: share(0.1) }], [{ requirements: atLeast(90) }]] as const)("%j", ([given]) => {
    for (const row of sufficientCuring(series, { ...options, ...given })) expect(row.caution).toBe(CAUTION);
    expect(CAUTION).toContain("the local code and the engineer of record");
  });
});

describe("odd designs", () => {
  test("nothing stated: not judged, and said", () => {
    const [row] = sufficientCuring(series, options);
    expect(row).toMatchObject({ sufficient_d: null, margin: null, requirement: null });
    expect(row!.sentence).toBe("strength of M1 at 28 d, cloth: not judged: no margin and no requirement was stated.");
    expect(row!.steps.map(({ verdict }) => verdict)).toEqual(["longest", "not reached", "not reached", "not reached"]);
  });

  test("which way a change of length is worse nobody said: a margin does not judge it", () => {
    const cells = [7, 1].map((curing_d) =>
      makeCell([300, 310], { curing: "cloth", curing_d, quantity: "shrinkage", unit: "microstrain", scatter }),
    );
    const [row] = sufficientCuring(cells, { ...options, margins: share(0.1) });
    expect(row!.sufficient_d).toBe(null);
    expect(row!.sentence).toContain("not judged: whether more of it is better was not said");
  });

  test("a duration of one specimen ends the sequence, with the reason", () => {
    const cells = [series[0]!, makeCell([42], { curing: "cloth", curing_d: 7, scatter }), series[2]!];
    const [row] = sufficientCuring(cells, { ...options, margins: share(0.1) });
    expect(row!.steps.map(({ verdict }) => verdict)).toEqual(["longest", "one-specimen", "not reached"]);
    expect(row!.sentence).toContain(
      "7 d is not shown to hold, since one specimen has no verdict; that is not to say that it fails.",
    );
  });

  test("the longest of one specimen holds nothing up", () => {
    const cells = [makeCell([42], { curing: "cloth", curing_d: 14, scatter }), series[1]!];
    const [row] = sufficientCuring(cells, { ...options, margins: share(0.1), requirements: atLeast(20) });
    expect(row!.sufficient_d).toBe(null);
  });

  test("no duration besides the longest, another age, no age: no row", () => {
    expect(sufficientCuring([series[0]!], { ...options, margins: share(0.1) })).toEqual([]);
    expect(sufficientCuring(series, { test_age_min: 1440, margins: share(0.1) })).toEqual([]);
    const ageless = series.map((cell) => ({ ...cell, age_d: null }));
    expect(sufficientCuring(ageless, { ...options, margins: share(0.1) })).toEqual([]);
  });
});
