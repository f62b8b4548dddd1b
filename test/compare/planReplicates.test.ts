import { describe, expect, test } from "vitest";
import { planReplicates } from "../../src/compare/planReplicates.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { constant, makeCell } from "./makeCell.ts";

/** Eight cells of three specimens with a standard deviation of 2 about 40. */
const cells = Array.from({ length: 8 }, (_, i) =>
  makeCell([38, 40, 42], { curing: `regime ${i}`, scatter: constant(2, 16) }),
);

describe("what the repeatability allows", () => {
  const [row] = planReplicates(cells, { comparisons: { strength: 7 } });

  test("its head says what it rests on", () => {
    expect(row).toMatchObject({ at: 40, sd: 2, df: 16, cells: 8, n_now: 3, comparisons: 7 });
  });

  test("power of the smallest difference found, and of the specimens asked for, by simulation within 3 points", () => {
    const random = seededRandom("power of a plan");
    /** Share of campaigns whose t test at this level finds a difference, scatter pooled over all cells. */
    const power = (difference: number, n: number, alpha: number) => {
      const df = 8 * (n - 1);
      let found = 0;
      const times = 4000;
      for (let i = 0; i < times; i++) {
        const means = [difference, 0].map((mean) => mean + (2 / Math.sqrt(n)) * random.normal());
        let chi2 = 0;
        for (let k = 0; k < df; k++) chi2 += random.normal() ** 2;
        const t = (means[0]! - means[1]!) / (2 * Math.sqrt(chi2 / df) * Math.sqrt(2 / n));
        if (tTail(Math.abs(t), df) <= alpha) found++;
      }
      return found / times;
    };
    expect(Math.abs(power(row!.detectable!, 3, 0.05) - 0.8)).toBeLessThan(0.03);
    expect(Math.abs(power(row!.detectable_family!, 3, 0.05 / 7) - 0.8)).toBeLessThan(0.03);
    for (const { difference, n } of row!.aims) {
      expect(power(difference, n!, 0.05)).toBeGreaterThan(0.77);
      if (n! > 2) expect(power(difference, n! - 1, 0.05)).toBeLessThan(0.83);
    }
  });

  test("5, 10 and 20 % of the mean are asked about, and the stated margin", () => {
    expect(row!.aims.map(({ difference_pct }) => difference_pct)).toEqual([5, 10, 20]);
    const margins = [{ quantity: "strength", kind: "value", size: 3, unit: null }] as const;
    expect(planReplicates(cells, { margins })[0]!.aims.map(({ difference }) => difference)).toEqual([2, 3, 4, 8]);
  });

  test("a family needs more than one comparison alone", () => {
    for (const { n, n_family } of row!.aims) expect(n_family!).toBeGreaterThanOrEqual(n!);
    expect(row!.detectable_family!).toBeGreaterThan(row!.detectable!);
  });
});

describe("odd designs", () => {
  test("one specimen everywhere: nothing to plan from", () => {
    expect(planReplicates(cells.map((cell) => makeCell([40], { curing: cell.curing })))).toEqual([]);
  });

  test("a mean that is lost in its scatter has no shares", () => {
    const lost = cells.map((cell) => ({
      ...cell,
      ...makeCell([-1, 0, 1], { curing: cell.curing, scatter: constant(1, 16) }),
    }));
    expect(planReplicates(lost)[0]).toMatchObject({ aims: [] });
  });

  test("more than a hundred specimens are not counted", () => {
    const wide = cells.map((cell) => ({ ...cell, scatter: constant(12, 16) }));
    expect(planReplicates(wide)[0]!.aims[0]).toMatchObject({ difference_pct: 5, n: null, n_family: null });
  });
});

/** Two-sided p of Student's t by Simpson's rule over the density: independent of the code that is tested. */
function tTail(t: number, df: number): number {
  const density = (x: number) => (1 + (x * x) / df) ** (-(df + 1) / 2);
  const integral = (to: number) => {
    const steps = 400;
    let sum = 0;
    for (let i = 0; i <= steps; i++) sum += (i === 0 || i === steps ? 1 : i % 2 ? 4 : 2) * density((to * i) / steps);
    return (sum * to) / steps / 3;
  };
  return 1 - integral(t) / integral(60);
}
