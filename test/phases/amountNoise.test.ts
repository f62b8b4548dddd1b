import { expect, test } from "vitest";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { indexRun } from "../../src/protocol/indexRun.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import { makeRun } from "../makeRun.ts";
import { amountOf, codes, parted, protocolOf, row, step } from "./amountProtocol.ts";

test("noise of the corrected amount goes through the combined weights: observed within 10 % of predicted in 500 draws", () => {
  const { temperature_C, mass_mg, time_s } = simulateRun(
    {
      sample_mg: 40,
      reactions: [placeReaction({ loss_pct: 9, peak_C: 110, width_C: 30 })],
      programme: { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] },
    },
    { rows: 1200 },
  );
  const protocol = protocolOf(parted, {
    hydroxyl: { window: "ah3", aft: "aft", afm: "afm", k: 1, u_k: 0, u_k_afm: 0 },
  });
  const random = seededRandom("hydroxyl noise");
  const values: number[] = [];
  const predicted: number[] = [];
  for (let draw = 0; draw < 500; draw++) {
    const noisy = mass_mg.map((mass) => mass + 0.002 * random.normal());
    const { amount } = row(indexRun(makeRun(temperature_C, noisy, { time: time_s, name: "a" }), protocol), "ah3");
    if ("missing" in amount) throw new Error(amount.missing);
    values.push(amount.value);
    predicted.push(Math.abs(amount.terms.find(({ cause }) => cause === "noise")!.effect));
  }
  const mean = values.reduce((a, b) => a + b) / values.length;
  const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
  const typical = predicted.reduce((a, b) => a + b) / predicted.length;
  // 500 draws know a standard deviation to 1/√1000 = 3.2 %.
  expect(sd / typical).toBeGreaterThan(0.9);
  expect(sd / typical).toBeLessThan(1.1);
});

test("an empty window passes half the detection limit (the critical level) in 5 % of runs, and the limit itself hardly ever", () => {
  // Currie's critical level is half the detection limit for known noise (α = β = 5 %).
  const rows = 900;
  const { temperature_C, mass_mg, time_s } = simulateRun(
    {
      sample_mg: 40,
      reactions: [placeReaction({ loss_pct: 9, peak_C: 110, width_C: 30 })],
      programme: { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] },
    },
    { rows },
  );
  const csa = protocols.csa;
  const protocol = settle({
    ...csa,
    windows: [step("empty", 500, 560)],
    uncertainty: { ...csa.uncertainty, buoyancy_u_mg: 0, temperature_u_C: 0 },
  });
  const random = seededRandom("detection");
  let above = 0;
  let flagged = 0;
  const draws = 1000;
  for (let draw = 0; draw < draws; draw++) {
    const noisy = mass_mg.map((mass) => mass + 0.003 * random.normal());
    const [window] = indexRun(makeRun(temperature_C, noisy, { time: time_s, name: "a" }), protocol).windows;
    const value = amountOf(window!.index) as number;
    if (value > window!.detection_limit! / 2) above++;
    if (codes(window!).includes("below-detection")) flagged++;
    expect(codes(window!).includes("below-detection")).toBe(value <= window!.detection_limit!);
  }
  // 5 ± 0.7 % by counting alone.
  expect(above / draws).toBeGreaterThan(0.028);
  expect(above / draws).toBeLessThan(0.072);
  expect(flagged / draws).toBeGreaterThan(0.995);
});
