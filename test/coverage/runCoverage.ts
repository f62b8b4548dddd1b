import type { Rule } from "../../src/losses/types.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { combineTerms } from "../../src/phases/combineTerms.ts";
import { indexRun } from "../../src/protocol/indexRun.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { Protocol } from "../../src/protocol/types.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import { trueMass } from "../../src/simulate/trueMass.ts";
import type { Model } from "../../src/simulate/types.ts";
import { makeRun } from "../makeRun.ts";

/** What is drawn for every run. */
export interface Situation {
  name: string;
  /** Independent draws. */
  draws: number;
  temperature_u_C: number;
  buoyancy_u_mg: number;
  noise_ug: number;
  noise_correlation: number;
  rows?: number;
}

/** One row of the coverage table. */
export interface CoverageRow {
  situation: string;
  window: string;
  rule: string;
  truth: number;
  /** Mean deviation from the truth, g per 100 g. */
  bias: number;
  /** Standard deviation of the index over the draws, g per 100 g. */
  sd: number;
  /** Share of 95 % intervals that hold the truth, %. */
  coverage: number;
  /** Whether it is the window's own rule. */
  own: boolean;
  /** Mean half-width of the intervals, g per 100 g. */
  half_width: number;
}

/** A CSA paste with overlapping steps on a sloping background; 10 K/min from 25 to 1000 °C. */
const model: Model = {
  sample_mg: 40,
  reactions: [
    placeReaction({ loss_pct: 9, peak_C: 112, width_C: 36 }),
    placeReaction({ loss_pct: 2.2, peak_C: 178, width_C: 44 }),
    placeReaction({ loss_pct: 3.1, peak_C: 272, width_C: 40 }),
    placeReaction({ loss_pct: 1.1, peak_C: 445, width_C: 38 }),
    placeReaction({ loss_pct: 1.6, peak_C: 705, width_C: 60 }),
  ],
  background: [{ from_C: 40, to_C: 570, loss_pct_per_C: 0.004 }],
  programme: { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] },
};

/** Every window of csa by step and by area, and one by tangent; the name carries the rule. */
const windows: Protocol["windows"] = [
  ...protocols.csa.windows.flatMap(({ amount: _, ...window }) =>
    (["step", "area"] as const).map((rule) => ({ ...window, rule, name: `${window.name}.${rule}` })),
  ),
  {
    name: "ah3.tangent",
    from_C: 220,
    to_C: 350,
    rule: "tangent",
    tangent: { before_C: [210, 228], after_C: [335, 375] },
  },
];

/** Draws runs with all their errors and counts how often the 95 % interval of each index holds the noise-free truth. */
export function runCoverage(situation: Situation, seed: string): CoverageRow[] {
  const { temperature_u_C, buoyancy_u_mg, draws, rows = 5000 } = situation;
  const protocol = settle({
    ...protocols.csa,
    windows,
    uncertainty: { ...protocols.csa.uncertainty, temperature_u_C, buoyancy_u_mg },
  });
  const tally = new Map<string, { sum: number; squares: number; held: number; width: number }>();
  for (let draw = 0; draw < draws; draw++) {
    const random = seededRandom(`${seed}/${situation.name}/${draw}`);
    const simulated = simulateRun(model, {
      rows,
      seed: `${seed}/${situation.name}/${draw}`,
      noise_ug: situation.noise_ug,
      noise_correlation: situation.noise_correlation,
      temperature_offset_C: temperature_u_C * random.normal(),
      buoyancy_ug: 1000 * buoyancy_u_mg * random.normal(),
    });
    const run = makeRun(simulated.temperature_C, simulated.mass_mg, { time: simulated.time_s, name: `${draw}` });
    for (const window of indexRun(run, protocol).windows) {
      const { window: key, index, rule } = window;
      if ("missing" in index) continue;
      const row = tally.get(key) ?? { sum: 0, squares: 0, held: 0, width: 0 };
      const half = 1.959964 * combineTerms(index.terms);
      const error = index.value - truthOf(key, rule);
      row.sum += error;
      row.squares += error * error;
      row.width += half;
      if (Math.abs(error) <= half) row.held++;
      tally.set(key, row);
    }
  }
  return [...tally].map(([key, { sum, squares, held, width }]) => {
    const [window, rule] = key.split(".") as [string, Rule];
    return {
      situation: situation.name,
      window,
      rule,
      truth: truthOf(key, rule),
      bias: sum / draws,
      sd: Math.sqrt(squares / draws - (sum / draws) ** 2),
      coverage: (100 * held) / draws,
      own: protocols.csa.windows.find(({ name }) => name === window)?.rule === rule,
      half_width: width / draws,
    };
  });
}

const truths = new Map<string, number>();

/** The index of the noise-free mass by the rule's own definition, from the closed form of the model, not by the pipeline. */
function truthOf(name: string, rule: Rule): number {
  const known = truths.get(`${name} ${rule}`);
  if (known !== undefined) return known;
  const truth = trueMass(model);
  const m = (T: number) => truth.at((T - 25) / 10).mass_mg;
  const { from_C, to_C, tangent } = windows.find((window) => window.name === name)!;
  const line = (low: number, high: number) => {
    const n = 2001;
    let [sx, sy, sxx, sxy] = [0, 0, 0, 0];
    const middle = (low + high) / 2;
    for (let i = 0; i < n; i++) {
      const T = low + ((high - low) * i) / (n - 1) - middle;
      const y = m(T + middle);
      sx += T;
      sy += y;
      sxx += T * T;
      sxy += T * y;
    }
    const slope = (sxy - (sx * sy) / n) / (sxx - (sx * sx) / n);
    return { slope, at: (T: number) => sy / n + slope * (T - middle) };
  };
  const step = m(from_C) - m(to_C);
  let loss = step;
  if (rule === "area") {
    const slopes = line(from_C - 5, from_C + 5).slope + line(to_C - 5, to_C + 5).slope;
    loss = step + 0.5 * slopes * (to_C - from_C);
  }
  if (rule === "tangent") {
    const rate = (T: number) => (m(T - 0.01) - m(T + 0.01)) / 0.02;
    let peak = from_C;
    for (let T = from_C; T <= to_C; T += 0.02) if (rate(T) > rate(peak)) peak = T;
    loss = line(...tangent!.before_C).at(peak) - line(...tangent!.after_C).at(peak);
  }
  let ignited = 0;
  for (let i = 0; i <= 200; i++) ignited += m(945 + i * 0.05) / 201;
  const index = (100 * loss) / ignited;
  truths.set(`${name} ${rule}`, index);
  return index;
}
