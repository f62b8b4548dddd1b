import { describe, expect, test } from "vitest";
import { planRuns } from "../../src/campaign/planRuns.ts";
import { summarise } from "../../src/campaign/summarise.ts";
import { minutesOf } from "../../src/compare/cellKey.ts";
import { indexCells } from "../../src/compare/indexCells.ts";
import { type Pair, pairOf } from "../../src/compare/pairOf.ts";
import type { ComparedCell } from "../../src/compare/types.ts";
import { indexBytes } from "../../src/protocol/indexBytes.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { exampleCampaign } from "../../src/simulate/exampleCampaign.ts";
import { makeCell } from "./makeCell.ts";

const pair = (...of: Parameters<typeof pairOf>): Pair => {
  const found = pairOf(...of);
  if (typeof found === "string") throw new Error(found);
  return found;
};
const tenth = { model: "proportional", a: 0, b: 0.1, df: 12 } as const;
const unnamed = (cell: ComparedCell, mark: string): ComparedCell => ({
  ...cell,
  specimens: cell.specimens.map(({ specimen, value }) => ({ specimen: `${mark}${specimen}`, value })),
});

describe("the error of a mean is never below what the noise of its runs gives it", () => {
  test("a proportional scatter that vanishes with the index, the cells far from zero as before", () => {
    const near = unnamed(makeCell([0.01, 0.02, 0.03], { scatter: tenth, floor: 0.04 }), "a");
    const far = unnamed(makeCell([9, 10, 11], { scatter: tenth, floor: 0.04 }), "b");
    // s/√n of 10 ± 10 % of three: 0.577; of 0.02: 0.0012, and the floor is 0.04.
    expect(pair(near, far).of(1).se).toBeCloseTo(Math.hypot(0.04, 1 / Math.sqrt(3)), 12);
    expect(pair({ ...near, floor: 0 }, far).of(1).se).toBeCloseTo(Math.hypot(0.002, 1) / Math.sqrt(3), 12);
    expect(pair(near, unnamed(near, "c")).of(1).se).toBeCloseTo(0.04 * Math.SQRT2, 12);
    expect(pair(near, far).of(0.5).se).toBeCloseTo(Math.hypot(0.04, 0.5 / Math.sqrt(3)), 12);
    expect(pair(near, far).u).toBeCloseTo(0.04, 12);
  });

  test("specimens that happen to agree, by each cell's own scatter", () => {
    const alike = unnamed(makeCell([5, 5, 5], { floor: 0.3 }), "a");
    const apart = unnamed(makeCell([3, 4, 5], { floor: 0.3 }), "b");
    const { se } = pair(alike, apart, { scatter: "welch" }).of(1);
    expect(se).toBeCloseTo(Math.hypot(0.3, 1 / Math.sqrt(3)), 12);
  });

  test("specimens in common, of which there are three of four: the floor of three", () => {
    const cell = makeCell([5, 6, 7], { age_d: 1, floor: 0.3 });
    const four = makeCell([4, 5, 6, 7], { age_d: 7, floor: 0.3 });
    const named = (one: ComparedCell): ComparedCell => unnamed(one, "prism ");
    // Differences of 1 each do not scatter.
    expect(pair(named(cell), named(four)).of(1).se).toBeCloseTo(Math.hypot(0.3, 0.3 * Math.sqrt(4 / 3)), 12);
    expect(pairOf(named({ ...cell, floor: 0 }), named({ ...four, floor: 0 }))).toBe("no-scatter");
  });

  test("it is the random part of ages.csv", () => {
    const { files } = exampleCampaign(1, { size: "small" });
    const bytesOf = (name: string) => files.find((file) => file.name === name)!.bytes;
    const sheet = { name: "sheet.csv", text: new TextDecoder().decode(bytesOf("sheet.csv")) };
    const protocol = settle(protocols.csa);
    const { jobs } = planRuns({ sheet, files: files.map(({ name }) => name) });
    const campaign = summarise(
      jobs.map((job) => indexBytes(bytesOf(job.file), job, { protocol })),
      { protocol },
    );
    let floors = 0;
    for (const cell of indexCells(campaign)) {
      const row = campaign.ages.find(
        (one) =>
          one.window === cell.quantity &&
          one.mix === cell.mix &&
          one.curing === cell.curing &&
          one.curing_d === cell.curing_d &&
          minutesOf(one.age_d) === minutesOf(cell.age_d),
      )!;
      if (row.u_random === null || cell.scatter === null) continue;
      const { a, b } = cell.scatter;
      const s = (a + b * Math.abs(cell.value!)) / Math.sqrt(cell.specimens.length);
      expect(Math.max(s, cell.floor!) / row.u_random).toBeCloseTo(1, 6);
      expect(cell.floor).toBeGreaterThan(0);
      floors++;
    }
    expect(floors).toBeGreaterThan(3);
  });
});
