import { summarise } from "../../src/campaign/summarise.ts";
import type { Term } from "../../src/measured.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import type { RunDone } from "../../src/protocol/types.ts";
import { makeResult, twoWindows } from "../campaign/makeResult.ts";

/** How campaigns are drawn. */
export interface CellSituation {
  name: string;
  campaigns: number;
  /** Specimens of every cell. */
  specimens: number[];
  /** Relative scatter of specimens. */
  scatter: number;
  /** Standard deviation of the calibration error of the one balance, relative to the index. */
  calibration: number;
  /** Standard deviation of the buoyancy error, g per 100 g. */
  buoyancy: number;
  /** Noise of a run, g per 100 g. */
  noise: number;
}

/**
 * Draws whole campaigns (cells with their true means, specimens that scatter about them, one calibration and one
 * buoyancy error for all) and counts how often the interval of a cell holds its true mean.
 *
 * @returns Share by number of specimens, %.
 */
export function cellCoverage(situation: CellSituation, seed: string): Map<number, number> {
  const { campaigns, specimens, scatter, calibration, buoyancy, noise } = situation;
  const held = new Map<number, { held: number; of: number }>();
  for (let campaign = 0; campaign < campaigns; campaign++) {
    const random = seededRandom(`${seed}/${situation.name}/${campaign}`);
    const [tilt, lift] = [random.normal(), random.normal()];
    const truths = specimens.map((_, cell) => 8 + 3 * cell);
    const runs: RunDone[] = specimens.flatMap((n, cell) =>
      Array.from({ length: n }, (_, i) => {
        const own = truths[cell]! * (1 + scatter * random.normal());
        const value = own + own * calibration * tilt + buoyancy * lift + noise * random.normal();
        const run = makeResult(`${cell}-${i}.txt`, [value, 1], { age_d: cell + 1 });
        const terms: Term[] = [
          { cause: "noise", effect: noise, key: `noise:${cell}-${i}.txt` },
          { cause: "temperature", effect: value * calibration, key: "temperature:B1" },
          { cause: "buoyancy", effect: buoyancy, key: "buoyancy:B1" },
        ];
        run.windows[0]!.index = { value, u: null, terms };
        return run;
      }),
    );
    for (const row of summarise(runs, { protocol: twoWindows }).ages) {
      if (row.window !== "aft-afm" || row.index_lo95 === null) continue;
      const truth = truths[Math.round(row.age_d!) - 1]!;
      const count = held.get(row.n_specimens) ?? { held: 0, of: 0 };
      count.of++;
      if (row.index_lo95 <= truth && truth <= row.index_hi95!) count.held++;
      held.set(row.n_specimens, count);
    }
  }
  return new Map([...held].sort(([a], [b]) => a - b).map(([n, count]) => [n, (100 * count.held) / count.of]));
}
