import { expect, test } from "vitest";
import { familyErrors, verdicts } from "../bench/errorRates.ts";

// A slice of test/bench/errorRates.ts: 10,000 seeded studies each, where the standard error of a rate of 5 % is 0.22 %.
const studies = 10_000;

test.for([{ sizes: [3, 3, 3, 3, 3] }, { sizes: [6, 3, 3, 2, 3] }] as const)(
  "where nothing differs, cells of $sizes call a difference as often as the adjustment promises",
  ({ sizes }) => {
    const { holm, dunnett, dunnettOneSided, unadjusted } = familyErrors({ sizes, studies });
    expect(holm.rate).toBeLessThanOrEqual(0.055);
    for (const { rate } of [dunnett, dunnettOneSided]) {
      expect(rate).toBeGreaterThanOrEqual(0.045);
      expect(rate).toBeLessThanOrEqual(0.055);
    }
    // Without adjustment the simulation would show it: it can fail.
    expect(unadjusted.rate).toBeGreaterThan(0.1);
  },
);

test("a difference as large as the margin is called within, or outside, it in 5.5 of 100 studies at most", () => {
  for (const n of [3, 6]) {
    const { within, outside } = verdicts({ n, cells: 8, difference: 2, margin: 2, studies });
    expect(within.rate).toBeLessThanOrEqual(0.055);
    expect(outside.rate).toBeLessThanOrEqual(0.055);
    expect(within.rate).toBeGreaterThan(0.04);
  }
});

test.for([
  { n: 3, cells: 2, difference: 3, margin: 4 },
  { n: 3, cells: 8, difference: 2.5, margin: 2.5 },
  { n: 6, cells: 2, difference: 0, margin: 2 },
  { n: 4, cells: 3, difference: -1, margin: 3 },
] as const)(
  "power is as predicted within 3 points: $n specimens, $cells cells, truth $difference, margin $margin",
  (comparison) => {
    const { difference, within } = verdicts({ ...comparison, studies });
    expect(Math.abs(difference.rate - difference.predicted)).toBeLessThan(0.03);
    expect(Math.abs(within.rate - within.predicted)).toBeLessThan(0.03);
  },
);
