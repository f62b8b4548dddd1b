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
 * @param ranges The windows of a run.
 * @param mix Its mix.
 * @param age_d Age of the specimen; null where it is not known, which counts as late.
 * @returns Flags with the names of their windows.
 */
export function overlapFlags(ranges: readonly NamedRange[], mix: Mix, age_d: number | null): Flag[] {
  const { phases, organics } = binderContents(mix);
  const percent = (value: number) => `${Number(value.toPrecision(3))} %`;
  const under = (code: Overlap, what: string, [low, high]: readonly [number, number]): Flag[] =>
    ranges
      .filter(({ from_C, to_C }) => from_C < high && to_C > low)
      .map(({ window }) => flag(code, `${what} in the mix ${mix.mix} can lose mass in the window ${window}.`, window));

  const named = Object.entries(organics).map(([name, share]) => `${name} (${percent(share)})`);
  const retarder = mix.retarder?.trim() ?? "";
  const retarded = !/^(?:none|no|-|–|0)?$/i.test(retarder);
  const water = (["gypsum", "bassanite"] as const).reduce(
    (sum, phase) => sum + ((phases[phase] ?? 0) * theoreticalLosses(phase).waterPct) / 100,
    0,
  );
  const early = age_d !== null && age_d <= EARLY_d && water > 0;
  const sulfate = `Unreacted gypsum or bassanite (at most ${water.toFixed(1)} g of water per 100 g of binder)`;
  return [
    ...(named.length > 0 ? under("organic-overlap", named.join(", "), ORGANIC) : []),
    ...(retarded ? under("retarder-overlap", retarder, /bor(?:ax|ic|ate)/i.test(retarder) ? BORATE : ORGANIC) : []),
    ...(phases.limestone === undefined
      ? []
      : under("limestone-overlap", `Limestone (${percent(phases.limestone)})`, CARBONATE)),
    ...(early ? under("sulfate-overlap", sulfate, SULFATE) : []),
  ];
}

type Overlap = "organic-overlap" | "retarder-overlap" | "limestone-overlap" | "sulfate-overlap";
