import { seededRandom } from "../numerics/seededRandom.ts";
import { zeroCelsius } from "./constants.ts";
import { trueMass } from "./trueMass.ts";
import type { MeasureOptions, Model, SimulatedRun } from "./types.ts";

/**
 * Simulates a thermogravimetric run: a sum of Arrhenius reactions under a temperature programme, as a balance would
 * show it. Nothing is integrated numerically, so the noise-free mass is exact and can serve as truth.
 *
 * @param model Sample, reactions, background and programme. Not changed.
 * @param options Readings, seed and what the balance adds; without them the run is noise-free.
 * @returns Readings and truth as arrays of `rows` values: s, °C and mg.
 * @throws {RangeError} A model without physical meaning, or an option outside its range.
 * @example
 * ```ts
 * import { simulateRun } from "tg-hydrates";
 * const run = simulateRun(
 *   {
 *     sample_mg: 30,
 *     reactions: [{ name: "ettringite", loss_pct: 12, ln_A_per_min: 25.0, E_kJ_mol: 81.0 }],
 *     programme: { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] },
 *   },
 *   { rows: 2000, noise_ug: 1, seed: 7 },
 * );
 * if (Math.abs(run.true_mass_mg.at(-1)! - 26.4) > 1e-9) throw new Error("12 % of 30 mg are 3.6 mg");
 * ```
 */
export function simulateRun(model: Model, options: MeasureOptions = {}): SimulatedRun {
  const { rows = 5000, seed = 1, noise_ug = 0, noise_correlation = 0, drift_ug_per_h = 0, buoyancy_ug = 0 } = options;
  const { resolution_ug = 0, temperature_offset_C = 0, temperature_noise_C = 0 } = options;
  checkMeasure({ rows, noise_ug, noise_correlation, resolution_ug, temperature_noise_C });

  const truth = trueMass(model);
  const start_K = model.programme.start_C + zeroCelsius;
  // A stream of its own for each cause: switching one off leaves the others as they were.
  const balance = seededRandom(`${seed}/balance`);
  const thermometer = seededRandom(`${seed}/thermometer`);

  const time_s = new Float64Array(rows);
  const temperature_C = new Float64Array(rows);
  const mass_mg = new Float64Array(rows);
  const true_temperature_C = new Float64Array(rows);
  const true_mass_mg = new Float64Array(rows);
  const fresh = Math.sqrt(1 - noise_correlation ** 2);
  let noise = balance.normal();
  for (let i = 0; i < rows; i++) {
    const minute = (truth.duration_min * i) / (rows - 1);
    const moment = truth.at(minute);
    // First-order autoregression with unit variance from the first reading on.
    if (i > 0) noise = noise_correlation * noise + fresh * balance.normal();
    const apparent_ug =
      noise_ug * noise +
      drift_ug_per_h * (minute / 60) +
      buoyancy_ug * (1 - start_K / (moment.temperature_C + zeroCelsius));
    time_s[i] = minute * 60;
    true_temperature_C[i] = moment.temperature_C;
    true_mass_mg[i] = moment.mass_mg;
    temperature_C[i] = moment.temperature_C + temperature_offset_C + temperature_noise_C * thermometer.normal();
    mass_mg[i] = rounded(moment.mass_mg + apparent_ug / 1000, resolution_ug / 1000);
  }
  return { model, time_s, temperature_C, mass_mg, true_temperature_C, true_mass_mg };
}

function rounded(value: number, unit: number): number {
  return unit === 0 ? value : Math.round(value / unit) * unit;
}

type Checked = Pick<
  MeasureOptions,
  "rows" | "noise_ug" | "noise_correlation" | "resolution_ug" | "temperature_noise_C"
>;

function checkMeasure(options: Required<Checked>): void {
  const { rows, noise_correlation } = options;
  if (!(Number.isInteger(rows) && rows >= 2)) throw new RangeError(`Give two or more whole rows, not ${rows}`);
  if (!(Math.abs(noise_correlation) < 1)) {
    throw new RangeError(`Give a correlation between -1 and 1 at noise_correlation, not ${noise_correlation}`);
  }
  for (const field of ["noise_ug", "resolution_ug", "temperature_noise_C"] as const) {
    if (!(options[field] >= 0 && Number.isFinite(options[field]))) {
      throw new RangeError(`Give zero or more at ${field}, not ${options[field]}`);
    }
  }
}
