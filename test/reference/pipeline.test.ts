import { describe, expect, test } from "vitest";
import { valueOrNull } from "../../src/measured.ts";
import { indexRun } from "../../src/protocol/indexRun.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import type { Programme, Reaction, SimulatedRun } from "../../src/simulate/types.ts";
import { makeRun } from "../makeRun.ts";
import { readReference } from "../readReference.ts";

const asRun = ({ temperature_C, mass_mg, time_s }: SimulatedRun) =>
  makeRun(temperature_C, mass_mg, { time: time_s, resolution: 1e-4 });

interface RunReference {
  sample_mg: number;
  reactions: Reaction[];
  ignited_mg: number;
  indices: Record<string, { step: number; area: number }>;
}
/** Adaptive quadrature, shares nothing but the parameters: test/reference/twentyFourRuns.py. */
const many = readReference<{ programme: Programme; windows: [string, number, number][]; runs: RunReference[] }>(
  "twentyFourRuns",
);

describe("24 simulated runs of 5,000 rows with 1 µg noise at 10 K/min", () => {
  test("use the windows of the protocol csa", () => {
    expect(many.windows).toEqual(protocols.csa.windows.map(({ name, from_C, to_C }) => [name, from_C, to_C]));
  });

  const results = many.runs.map(({ sample_mg, reactions }, i) =>
    indexRun(
      asRun(simulateRun({ sample_mg, reactions, programme: many.programme }, { rows: 5000, noise_ug: 1, seed: i + 1 })),
      settle(protocols.csa),
    ),
  );

  test.for(many.runs.map((one, i) => [i + 1, one] as const))(
    "run %i: every step index within 0.01, the index of every area window within 0.06 g per 100 g of the noise-free value",
    ([number, { indices }]) => {
      for (const { window, rule, index_step, index_area } of results[number - 1]!.windows) {
        expect(Math.abs(valueOrNull(index_step)! - indices[window]!.step), `${window} step`).toBeLessThan(0.01);
        if (rule !== "area") continue;
        expect(Math.abs(valueOrNull(index_area)! - indices[window]!.area), `${window} area`).toBeLessThan(0.06);
      }
    },
  );

  test.for(many.runs.map((one, i) => [i + 1, one] as const))(
    "run %i: the area index of every window, wide ones too, within 0.01 g per 100 g and four deviations of its noise",
    ([number, { indices, ignited_mg }]) => {
      // A line through the readings of one anchor: u(slope) = σ/√Σ(T − T̄)²; two of them act over half the width each.
      const spacing_C = 975 / 4999;
      const readings = 10 / spacing_C;
      const slope = 0.001 / Math.sqrt((readings * 10 ** 2) / 12);
      for (const { window, from_C, to_C, index_area } of results[number - 1]!.windows) {
        const deviation = (100 * (to_C - from_C) * slope) / Math.SQRT2 / ignited_mg;
        const difference = Math.abs(valueOrNull(index_area)! - indices[window]!.area);
        expect(difference, window).toBeLessThan(0.01 + 4 * deviation);
      }
    },
  );
});

/** Wu and Shih, Thermochim Acta 223:177–186 (1993), doi 10.1016/0040-6031(93)80132-t: test/reference/sodiumBicarbonate.py. */
const bicarbonate = readReference<{
  E_kJ_mol: number;
  A_per_min: number;
  peaks: { rate_K_per_min: number; peak_C: number }[];
}>("sodiumBicarbonate");

test.for(bicarbonate.peaks)(
  "the pipeline finds the DTG peak of sodium bicarbonate within 0.1 °C: %j",
  ({ rate_K_per_min, peak_C }) => {
    const simulated = simulateRun(
      {
        sample_mg: 10,
        reactions: [
          { loss_pct: 36.916, ln_A_per_min: Math.log(bicarbonate.A_per_min), E_kJ_mol: bicarbonate.E_kJ_mol },
        ],
        programme: { start_C: 25, segments: [{ to_C: 250, rate_K_per_min }] },
      },
      { rows: 5000 },
    );
    const window = { name: "bicarbonate", from_C: 60, to_C: 220, rule: "step" as const };
    const [found] = indexRun(asRun(simulated), settle({ ...protocols.csa, windows: [window] })).windows;
    expect(Math.abs(found!.peak_C! - peak_C)).toBeLessThan(0.1);
  },
);
