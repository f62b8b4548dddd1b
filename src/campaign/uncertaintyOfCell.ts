import type { Term } from "../measured.ts";
import { studentQuantile } from "../numerics/studentQuantile.ts";
import { combineTerms } from "../phases/combineTerms.ts";
import type { Scatter } from "./scatterOf.ts";
import { meanTerms, type Specimen } from "./specimensOf.ts";

/** Uncertainty of the mean of a cell. */
export interface CellUncertainty {
  /** From the scatter of specimens, s/√n. */
  u_random: number;
  /** From what all runs of the cell share (calibration, buoyancy, mix): not divided by n. */
  u_shared: number;
  index_u: number;
  /** Welch–Satterthwaite. */
  df: number;
  /** Half-width of the 95 % interval. */
  half: number;
  /** Shared terms, and the random one under its own key. */
  terms: Term[];
}

/** Terms that belong to one run alone: the scatter of specimens contains them already. */
export const perRun: RegExp = /^(noise|ignition|residue):/;

/**
 * u² = s²/n + u_shared² with the pooled scatter s of the campaign (JCGM 100:2008, 4.2.4 and 5.2.2), and the degrees of
 * freedom by Welch–Satterthwaite (annex G.4), where shared terms have infinitely many.
 *
 * The random part is never below what the runs' own terms (noise, ignition, residue) give the mean.
 *
 * @returns null where the scatter of specimens is not known: a number would be an invention.
 */
export function uncertaintyOfCell(
  specimens: readonly Specimen[],
  options: { index: number; scatter: Scatter | null; key: string },
): CellUncertainty | null {
  const { index, scatter, key } = options;
  if (scatter === null) return null;
  const all = meanTerms(specimens.map(({ terms }) => terms));
  const shared = all.filter((term) => !perRun.test(term.key));
  const own = combineTerms(all.filter((term) => perRun.test(term.key)));
  const s = scatter.a + scatter.b * Math.abs(index);
  // Never below what the balance alone brings: a proportional scatter vanishes with the index, the noise does not.
  const u_random = Math.max(own, s / Math.sqrt(specimens.length));
  const u_shared = combineTerms(shared);
  const index_u = Math.hypot(u_random, u_shared);
  const df = u_random === 0 ? 1e6 : Math.min(scatter.df * (index_u / u_random) ** 4, 1e6);
  const terms = [...shared, { cause: "specimens", effect: u_random, key: `specimens:${key}` }];
  return { u_random, u_shared, index_u, df, half: studentQuantile(0.975, df) * index_u, terms };
}
