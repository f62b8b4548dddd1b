import { type Flag, flag } from "../flags.ts";
import { binderMaxima } from "../phases/binderMaxima.ts";
import { plausibility } from "../phases/plausibility.ts";
import type { Mix } from "../phases/types.ts";
import type { RunResult } from "../protocol/types.ts";

/**
 * What the mix table says about all specimens of a mix at once: a mortar without the scatter of subsampling, and mixing water that
 * cannot hydrate all ye'elimite.
 *
 * @param runs Only mixes of their specimens are looked at.
 */
export function mixFlags(mixes: readonly Mix[], runs: readonly RunResult[]): Flag[] {
  const used = new Set(runs.filter(({ role }) => role === "specimen").map(({ mix }) => mix));
  return mixes
    .filter(({ mix }) => used.has(mix))
    .flatMap((mix) => {
      const flags: Flag[] = [];
      const { sand_binder_ignited: sand, u_sand_binder_ignited: u } = mix;
      if (sand !== null && sand > 0 && u === null) {
        const sentence = `The mix ${mix.mix} is a mortar (${sand} g of ignited sand per g of ignited binder), and nothing is said about the scatter of its subsamples.`;
        flags.push(flag("mortar-subsampling", sentence));
      }
      if (binderMaxima(mix) !== null) {
        flags.push(...(plausibility(mix, {})?.flags ?? []).filter(({ code }) => code === "water-limited"));
      }
      return flags;
    });
}
