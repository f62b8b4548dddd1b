import { evaluate } from "../curve/functional.ts";
import { massAt } from "../curve/massAt.ts";
import type { Curve } from "../curve/types.ts";
import { type Flag, flag } from "../flags.ts";
import type { SettledProtocol } from "./types.ts";

/** Findings against the limits of a protocol: heating rate, warm start, a specimen that was not dry. */
export function limitFlags(curve: Curve, { limits, windows }: SettledProtocol): Flag[] {
  const flags: Flag[] = [];
  const rate = curve.heatingRate;
  const [slow, fast] = limits.heating_rate_K_per_min;
  // A rate is known to about a percent: 20.1 K/min is 20 K/min.
  if (rate !== null && (rate < 0.98 * slow || rate > 1.02 * fast)) {
    const sentence = `The heating rate is ${rate.toFixed(1)} K/min; the windows hold for ${slow}–${fast} K/min.`;
    flags.push(flag("heating-rate-outside", sentence));
  }
  const start = curve.run.temperature[0]!;
  if (start > limits.start_max_C) {
    flags.push(flag("starts-warm", `The run starts at ${start.toFixed(0)} °C, above ${limits.start_max_C} °C.`));
  }
  const first = Math.min(...windows.map((window) => window.from_C));
  const mass = massAt(curve, first, "leaving");
  const lost = mass === null ? 0 : 100 * (1 - evaluate(curve, mass) / curve.initialMass);
  if (lost > limits.start_loss_max_pct) {
    const sentence = `${lost.toFixed(2)} % of the initial mass is gone before the first window (${first} °C).`;
    flags.push(flag("starts-undried", sentence));
  }
  return flags;
}
