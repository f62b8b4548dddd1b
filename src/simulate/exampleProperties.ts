import { type SeededRandom, seededRandom } from "../numerics/seededRandom.ts";
import type { ExampleCuring, ExampleMix } from "./exampleDesign.ts";
import type { TruthRow } from "./exampleTruth.ts";

/** A cell in which properties are measured; it need not have a run. */
export interface PropertyCell {
  mix: ExampleMix;
  curing: ExampleCuring;
  age_d: number;
}

/** Demoulding: until then every specimen keeps its water, days. */
const demoulding_d = 0.25;

/** Specimens of a cell scatter by this share of their strength (common practice, no source). */
const strengthScatter = 0.03;
/** Prisms scatter by this, and each of their readings by so much more, microstrain (common practice, no source). */
const prismScatter = 18;
const readingScatter = 6;

/** 1 MPa in psi and 1 microstrain in %: one mix is written in other units, so that reading it has to convert. */
const psiPerMPa = 145.03773773;
const percentPerMicrostrain = 1e-4;

/** Columns of properties.csv. */
const columns = ["mix", "curing", "curing_d", "age_d", "property", "value", "unit", "specimen"];

/**
 * Strength and length change of the example: three specimens per cell for strength, which are broken, and three prisms per regime for
 * length change, which are measured again at every age.
 *
 * @param cells Cells to measure; those of the second mix are written in psi and %.
 * @returns Rows of properties.csv with their heading, and what is true of each cell in MPa and microstrain.
 */
export function exampleProperties(
  cells: readonly PropertyCell[],
  options: { seed: number | string; specimens: number },
): { rows: string[][]; truth: TruthRow[] } {
  const { seed, specimens } = options;
  const rows: string[][] = [columns];
  const truth: TruthRow[] = [];
  for (const property of ["strength", "length_change"] as const) {
    for (const { mix, curing, age_d } of cells) {
      const value = property === "strength" ? strength(mix, curing, age_d) : lengthChange(curing, age_d);
      truth.push(truthRow(mix, curing, { age_d, property, value }));
      for (let s = 1; s <= specimens; s++) {
        const regime = `${mix.mix}-${curing.curing}${curing.curing_d ?? ""}`;
        const head = [mix.mix, curing.curing, `${curing.curing_d ?? ""}`, `${age_d}`, property];
        const place = `${seed}/${regime}/${age_d}/${s}`;
        const prism = `${regime}-p${s}`;
        if (property === "strength") {
          const measured = value * (1 + strengthScatter * typical(seededRandom(`${place}/strength`)));
          rows.push([...head, ...strengthCells(measured, mix), `${s}`]);
        } else {
          const own = prismScatter * typical(seededRandom(`${seed}/${prism}`));
          const reading = readingScatter * typical(seededRandom(`${place}/length`));
          rows.push([...head, ...lengthCells(value + own + reading, mix), prism]);
        }
      }
    }
  }
  return { rows, truth };
}

/** Standard deviation of a normal variable of which values beyond ±1.5 are drawn again: √(1 − 3φ(1.5)/(2Φ(1.5) − 1)). */
const withoutTails = 0.742647;

/** A deviate of standard deviation one without the far ones: an example should tell its story with every seed. */
function typical(random: SeededRandom): number {
  let z = random.normal();
  while (Math.abs(z) > 1.5) z = random.normal();
  return z / withoutTails;
}

/**
 * True strength, MPa: about 70 % of the 28-day strength after the first day, then straight with the logarithm of age (common
 * practice, no source). From the end of moist curing on a regime loses its share of that in the same way.
 */
function strength(mix: ExampleMix, curing: ExampleCuring, age_d: number): number {
  const end_d = Math.max(curing.curing_d ?? Number.POSITIVE_INFINITY, demoulding_d);
  const dried = age_d <= end_d ? 0 : Math.log(age_d / end_d) / Math.log(28 / end_d);
  return mix.strength_28d_MPa * (0.7 + (0.3 * Math.log(age_d)) / Math.log(28)) * (1 - curing.strength_loss * dried);
}

/** True length change since demoulding, microstrain: under water specimens swell, sealed they shrink a little, in air much. */
function lengthChange(curing: ExampleCuring, age_d: number): number {
  const moist_d = Math.min(age_d, Math.max(curing.curing_d ?? age_d, demoulding_d));
  const dry_d = age_d - moist_d;
  const moist = curing.open
    ? 140 * (1 - Math.exp(-(moist_d - demoulding_d) / 4))
    : -45 * Math.log10(age_d / demoulding_d);
  return moist - (780 * dry_d) / (dry_d + 9);
}

function strengthCells(value: number, mix: ExampleMix): [string, string] {
  return mix.other_units ? [(value * psiPerMPa).toFixed(0), "psi"] : [value.toFixed(1), "MPa"];
}

function lengthCells(value: number, mix: ExampleMix): [string, string] {
  return mix.other_units ? [(value * percentPerMicrostrain).toFixed(4), "%"] : [value.toFixed(0), "microstrain"];
}

function truthRow(
  { mix }: ExampleMix,
  { curing, curing_d }: ExampleCuring,
  { age_d, property, value }: { age_d: number; property: string; value: number },
): TruthRow {
  const none = { loss_pct_initial: null, index: null, index_step: null, index_area: null };
  const unit = property === "strength" ? "MPa" : "microstrain";
  return {
    ...{ mix, curing, curing_d, age_d, kind: "property", name: property, rule: null, ...none },
    ...{ per_100g_ignited: null, per_100g_binder: null, value, unit },
  };
}
