import { describe, expect, test } from "vitest";
import { findValley } from "../../src/curve/findValley.ts";
import { shapeOf } from "../../src/curve/meanShape.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import { losses } from "../../src/losses/losses.ts";
import type { Rule, Window } from "../../src/losses/types.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import { trueMass } from "../../src/simulate/trueMass.ts";
import type { Model } from "../../src/simulate/types.ts";
import { makeRun } from "../makeRun.ts";

const rules = ["step", "area", "tangent"] as const;

function paste(...peaks: { loss_pct: number; peak_C: number; width_C: number }[]): Model {
  const programme = { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] };
  return { sample_mg: 40, reactions: peaks.map((peak) => placeReaction(peak)), programme };
}

/** What the pipeline makes of a model in one window: loss by every rule, % of the sample. */
function measured(model: Model, window: Window, noise_ug = 0): Record<Rule, number> {
  const protocol = settle({ ...protocols.csa, windows: [window] });
  const { temperature_C, mass_mg, time_s } = simulateRun(model, { noise_ug, seed: "bias" });
  const [loss] = losses(toCurve(makeRun(temperature_C, mass_mg, { time: time_s }), protocol), protocol).losses;
  const pct = (rule: Rule) => {
    const found = loss![rule];
    return "missing" in found ? Number.NaN : (100 * found.value) / model.sample_mg;
  };
  return { step: pct("step"), area: pct("area"), tangent: pct("tangent") };
}

/** Where the DTG of a single peak rises above and falls below a share of its maximum, °C. */
function feet(model: Model, share: number): [number, number] {
  const truth = trueMass(model);
  const m = (T: number) => truth.at((T - 25) / 10).mass_mg;
  const dtg = (T: number) => m(T - 0.25) - m(T + 0.25);
  const T = Array.from({ length: 1900 }, (_, i) => 26 + i / 2);
  const highest = Math.max(...T.map(dtg));
  const above = T.filter((t) => dtg(t) > share * highest);
  return [above[0]!, above.at(-1)!];
}

describe("bias", () => {
  test.for([
    { peak_C: 120, width_C: 20 },
    { peak_C: 150, width_C: 40 },
    { peak_C: 275, width_C: 40 },
    { peak_C: 450, width_C: 30 },
    { peak_C: 710, width_C: 60 },
  ])("is below 0.5 % of the loss where the peak's own DTG is below 0.1 % at both edges: %j", (peak) => {
    const model = paste({ loss_pct: 5, ...peak });
    const [low, high] = feet(model, 0.001).map(Math.round) as [number, number];
    const window: Window = {
      name: "w",
      from_C: low,
      to_C: high,
      rule: "step",
      // The slope at an edge is a mean over the band: it must be narrow against the peak, or its flank is in it.
      anchor_C: Math.min(10, peak.width_C / 4),
      tangent: { before_C: [Math.max(low - 25, 27), low], after_C: [high, high + 25] },
    };
    for (const rule of rules) expect(Math.abs(measured(model, window)[rule] / 5 - 1), rule).toBeLessThan(0.005);
  });

  test("of area and tangent for an isolated peak in the default windows is the known shortfall", () => {
    const shortfall = (peak: { peak_C: number; width_C: number }, window: Window) => {
      const found = measured(paste({ loss_pct: 5, ...peak }), window);
      return { step: 1 - found.step / 5, area: 1 - found.area / 5, tangent: 1 - found.tangent / 5 };
    };
    const [, ah3, ch] = protocols.csa.windows;
    const table = {
      "AH3, 275 °C": shortfall(
        { peak_C: 275, width_C: 40 },
        { ...ah3!, tangent: { before_C: [210, 230], after_C: [340, 360] } },
      ),
      "portlandite, 450 °C": shortfall(
        { peak_C: 450, width_C: 32 },
        { ...ch!, tangent: { before_C: [385, 405], after_C: [490, 510] } },
      ),
    };
    if (process.env.DRAWS !== undefined) process.stdout.write(`${JSON.stringify(table, null, 1)}\n`);
    for (const { step, area, tangent } of Object.values(table)) {
      // The baseline takes a part of the flanks: area is an index, and always the smaller number.
      expect(area).toBeGreaterThan(step);
      expect(area).toBeGreaterThan(0.01);
      expect(tangent).toBeGreaterThan(0);
      expect(area).toBeLessThan(0.35);
    }
  });

  test("of overlapping peaks falls with their distance, and below a distance they are not resolved", () => {
    const rows = [20, 25, 30, 35, 40, 50, 60, 80].map((distance) => {
      const model = paste(
        { loss_pct: 8, peak_C: 112, width_C: 34 },
        { loss_pct: 2.5, peak_C: 112 + distance, width_C: 40 },
      );
      const { temperature_C, mass_mg, time_s } = simulateRun(model, { noise_ug: 1, seed: "overlap" });
      const shape = shapeOf(toCurve(makeRun(temperature_C, mass_mg, { time: time_s }), protocols.csa));
      const valley = findValley(shape, { from_C: 115, to_C: 112 + distance, within_C: [50, 260], step_C: 0.5 });
      if (valley === null) return { distance, at: null, lower: null, upper: null };
      const T = valley.temperature;
      const lower = measured(model, { name: "aft", from_C: 30, to_C: T, rule: "step" }).step / 8 - 1;
      const upper = measured(model, { name: "afm", from_C: T, to_C: 320, rule: "step" }).step / 2.5 - 1;
      return { distance, at: T, lower, upper };
    });
    if (process.env.DRAWS !== undefined) process.stdout.write(`${rows.map((row) => JSON.stringify(row)).join("\n")}\n`);
    const resolved = rows.filter((row) => row.at !== null);
    expect(rows[0]!.at).toBeNull();
    expect(resolved.length).toBeGreaterThan(1);
    // Once resolved always resolved further away, and the split gets better.
    expect(rows.slice(rows.indexOf(resolved[0]!)).every((row) => row.at !== null)).toBe(true);
    expect(Math.abs(resolved.at(-1)!.upper!)).toBeLessThan(Math.abs(resolved[0]!.upper!));
    expect(Math.abs(resolved.at(-1)!.lower!)).toBeLessThan(0.03);
  });
});
