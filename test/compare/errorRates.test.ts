import { describe, expect, test } from "vitest";
import { powerOfDifference } from "../../src/numerics/powerOfDifference.ts";
import { familyErrors, foundShare, marginErrors, planned, shortErrors } from "../bench/compareRates.ts";

// A slice of test/bench/compareRates.ts, where 10,000 campaigns each are asked for at most 5.5 % (Dunnett: 4.5 to 5.5 %).
const count = 600;
/** Three standard errors of a rate of 5 %, on top of what the whole is held to. */
const most = 0.055 + 3 * Math.sqrt((0.05 * 0.95) / count);

describe("claims that are wrong", () => {
  test("a difference where there is none, in a family of 16: Holm", () => {
    expect(familyErrors("holm", { count, seed: "slice" })).toBeLessThan(most);
    expect(familyErrors("holm", { count, seed: "slice shared", shared: 0.05 })).toBeLessThan(most);
  });

  test("the same by Dunnett, which is no more careful than it must be", () => {
    const rate = familyErrors("dunnett", { count: 300, seed: "slice" });
    const slack = 3 * Math.sqrt((0.05 * 0.95) / 300);
    expect(rate).toBeLessThan(0.055 + slack);
    expect(rate).toBeGreaterThan(0.045 - slack);
  });

  test("within the margin at either edge of it", () => {
    expect(marginErrors(-1, { count, seed: "slice", margin: 0.1 })).toBeLessThan(most);
    expect(marginErrors(1, { count, seed: "slice", margin: 0.1 })).toBeLessThan(most);
  });

  test("too short a curing sufficient", () => {
    expect(shortErrors({ count, seed: "slice", margin: 0.1 })).toBeLessThan(most);
  });
});

test("power as predicted, here within ten points, in the whole within three", () => {
  const share = foundShare({ count, seed: "slice", specimens: 4, ratio: 0.95 });
  const { difference, se, df } = planned({ specimens: 4, ratio: 0.95 });
  expect(Math.abs(share - powerOfDifference(difference, { se, df }))).toBeLessThan(0.1);
});
