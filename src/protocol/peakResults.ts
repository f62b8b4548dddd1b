import { addTo, functional } from "../curve/functional.ts";
import { type Flag, flag } from "../flags.ts";
import { fitPeaks } from "../losses/fitPeaks.ts";
import type { PeakFitSpec } from "../losses/fitTypes.ts";
import { combineTerms } from "../phases/combineTerms.ts";
import type { BudgetContext } from "../phases/measureIndex.ts";
import { noiseTerm } from "../phases/noiseTerm.ts";
import type { Reference } from "../phases/referenceMass.ts";
import type { PeakResult } from "./types.ts";

/**
 * Fitted peaks of a run as indices, for a protocol with `peaks`: areas by `fitPeaks` with their terms, noise with its
 * covariance with the reference mass. Where the fit is refused every peak is missing with the reason: never a made-up split.
 */
export function peakResults(
  context: BudgetContext,
  options: { spec: PeakFitSpec | undefined; reference: Reference | { missing: string } },
): { peaks: PeakResult[]; flags: Flag[] } {
  const { spec, reference } = options;
  if (!spec) return { peaks: [], flags: [] };
  const fit = fitPeaks(context.curve, spec);
  if (fit.verdict === "refused") {
    const misfit_pct = fit.check?.misfitPct ?? null;
    const peaks = spec.peaks.map(({ name }) => ({
      name,
      position_C: null,
      misfit_pct,
      index: { missing: fit.reason },
    }));
    return { peaks, flags: [flag("peaks-refused", fit.message)] };
  }
  const peaks = fit.peaks.map((peak): PeakResult => {
    const result = { name: peak.name, position_C: peak.position, misfit_pct: fit.check.misfitPct };
    if ("missing" in reference) return { ...result, index: reference };
    const scale = 100 / reference.value;
    const value = scale * peak.area;
    const whole = addTo(functional(), peak.weights, scale);
    if (reference.weights) addTo(whole, reference.weights, -value / reference.value);
    const terms = [
      noiseTerm(context, whole, scale),
      ...peak.terms
        .filter(({ cause }) => cause !== "noise")
        .map((term) => ({ ...term, effect: scale * term.effect + 0 })),
      ...reference.terms.map(({ cause, relative, key }) => ({ cause, effect: -value * relative + 0, key })),
    ];
    return { ...result, index: { value, u: combineTerms(terms), terms } };
  });
  return { peaks, flags: [] };
}
