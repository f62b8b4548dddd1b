import { theoreticalLosses } from "../chemistry/theoreticalLosses.ts";
import { type Flag, flag } from "../flags.ts";
import { binderContents } from "./binderContents.ts";
import type { Mix } from "./types.ts";

/**
 * Where organic additions decompose in inert gas, °C: polymers 200–500, cellulose and acids from about 180 (common practice, no
 * source).
 */
const ORGANIC = [180, 520] as const;
/** Borates lose their own water from about 60 °C on (common practice, no source). */
const BORATE = [60, 520] as const;
/** Limestone is well crystallised: 600–800 °C (Villagrán-Zaccardi et al., calcite by quantitative TG), later at high rates. */
const CARBONATE = [600, 850] as const;
/** Gypsum: 95–170 °C at 5 K/min, complete at about 180 (Thermochim Acta 269–270:631–638, 1995); bassanite to about 200 (common practice, no source). */
const SULFATE = [95, 200] as const;
/** Up to this age gypsum or bassanite is taken to be possibly unreacted, d (common practice, no source). */
const EARLY_d = 1;

/** A range of temperature with its name. */
export interface NamedRange {
  window: string;
  from_C: number;
  to_C: number;
}

/**
 * What the mix table names that loses mass under a window beside the hydrates: organics, retarder, limestone, and at early age the
 * sulfate source.
 *
 * @param age_d Age of the specimen; null where it is not known, which counts as late.
 */
export function overlapFlags(range: NamedRange, mix: Mix | null, age_d: number | null): Flag[] {
  if (mix === null) return [];
  const { window } = range;
  const { phases, organics } = binderContents(mix);
  const flags: Flag[] = [];
  const percent = (value: number) => `${Number(value.toPrecision(3))} %`;
  const add = (code: "organic-overlap" | "retarder-overlap" | "limestone-overlap" | "sulfate-overlap", what: string) =>
    flags.push(flag(code, `${what} in the mix ${mix.mix} can lose mass in the window ${window}.`, window));

  const named = Object.entries(organics).map(([name, share]) => `${name} (${percent(share)})`);
  if (named.length > 0 && touches(range, ORGANIC)) add("organic-overlap", named.join(", "));
  const { retarder } = mix;
  if (retarder !== null && !/^(?:none|no|-|–|0)?$/i.test(retarder.trim())) {
    if (touches(range, /bor(?:ax|ic|ate)/i.test(retarder) ? BORATE : ORGANIC)) add("retarder-overlap", retarder.trim());
  }
  if (phases.limestone !== undefined && touches(range, CARBONATE)) {
    add("limestone-overlap", `limestone (${percent(phases.limestone)})`);
  }
  if (age_d !== null && age_d <= EARLY_d && touches(range, SULFATE)) {
    const water = (["gypsum", "bassanite"] as const).reduce(
      (sum, phase) => sum + ((phases[phase] ?? 0) * theoreticalLosses(phase).waterPct) / 100,
      0,
    );
    if (water > 0) {
      add(
        "sulfate-overlap",
        `unreacted gypsum or bassanite (at most ${water.toFixed(1)} g of water per 100 g of binder)`,
      );
    }
  }
  return flags;
}

function touches({ from_C, to_C }: NamedRange, [low, high]: readonly [number, number]): boolean {
  return from_C < high && to_C > low;
}
