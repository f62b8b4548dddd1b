import { describe, expect, test } from "vitest";
import { cellCoverage } from "./cellCoverage.ts";

/** Campaigns per situation; `DRAWS=2000 npx vitest run test/coverage` prints the shares. */
const campaigns = Number(process.env.DRAWS ?? 250);

const common = { campaigns, specimens: [1, 2, 3, 3, 2, 1, 3, 3, 2, 3, 3, 3], noise: 0.05 };
const situations = [
  { ...common, name: "scatter 3 %", scatter: 0.03, calibration: 0.01, buoyancy: 0.05 },
  { ...common, name: "scatter 5 %", scatter: 0.05, calibration: 0.01, buoyancy: 0.05 },
  { ...common, name: "scatter 3 %, poor calibration", scatter: 0.03, calibration: 0.03, buoyancy: 0.2 },
  { ...common, name: "few cells", scatter: 0.04, calibration: 0.01, buoyancy: 0.05, specimens: [3, 3, 1, 2] },
  { ...common, name: "no shared error", scatter: 0.03, calibration: 0, buoyancy: 0 },
];

describe("95 % intervals of cells hold the true mean of the regime", () => {
  test.for(situations)("$name", { timeout: 600_000 }, (situation) => {
    const shares = cellCoverage(situation, "cells");
    if (process.env.DRAWS !== undefined) {
      process.stdout.write(
        `${situation.name}: ${[...shares].map(([n, share]) => `${n}: ${share.toFixed(1)} %`).join(", ")}\n`,
      );
    }
    // Cells of one campaign share their errors: the effective number of draws is the number of campaigns.
    const slack = 300 * Math.sqrt((0.95 * 0.05) / campaigns);
    for (const [n, share] of shares) {
      expect(share, `${n} specimens`).toBeGreaterThan(93 - slack);
      expect(share, `${n} specimens`).toBeLessThan(97 + slack);
    }
  });
});
