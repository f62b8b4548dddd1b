import { applyFilterTransposed } from "./applyFilterTransposed.ts";
import { type FilterTable, filterTable } from "./filterTable.ts";
import type { Functional } from "./functional.ts";
import { gridMeansTransposed } from "./gridMeansTransposed.ts";
import { pointsOf } from "./pointsOf.ts";
import type { Curve } from "./types.ts";

/**
 * Weights of a functional on the readings of the run: the transposes of smoothing, grid and isotonic averaging, one
 * after the other. With them the noise of a loss is √Σw²σ², whatever the rule (JCGM 100:2008, 5.1.2).
 *
 * @returns One weight per reading of the run; the sum of weight · mass is the value of the functional.
 */
export function pullBack(curve: Curve, { mass, dtg, readings }: Functional): Float64Array {
  const out = new Float64Array(curve.run.mass.length);
  const { step_C: step } = curve.options.grid;
  for (const piece of curve.pieces) {
    const { gridFirst, gridEnd, firstPoint, knots } = piece;
    const raw = new Float64Array(gridEnd - gridFirst);
    const { points, degree } = pointsOf(curve.options, raw.length);
    const smooth = filterTable(points, { degree, derivative: 0, step });
    const derive = filterTable(points, { degree, derivative: 1, step });
    const spread = (weights: Map<number, number>, table: FilterTable, sign: 1 | -1): boolean => {
      let touched = false;
      for (const [k, w] of weights) {
        if (k < gridFirst || k >= gridEnd) continue;
        touched = true;
        applyFilterTransposed(table, { k: k - gridFirst, w: sign * w }, { weights: raw, first: 0, end: raw.length });
      }
      return touched;
    };
    const onMass = spread(mass, smooth, 1);
    // DTG = −dm/dT.
    const onDtg = spread(dtg, derive, -1);
    if (!onMass && !onDtg) continue;
    const onKnots = gridMeansTransposed(knots.temperature, raw, { first: firstPoint, step });
    const { knotOf, count } = knots;
    if (!knotOf || !count) for (let i = 0; i < onKnots.length; i++) out[piece.first + i]! += onKnots[i]!;
    else for (let i = 0; i < knotOf.length; i++) out[piece.first + i]! += onKnots[knotOf[i]!]! / count[knotOf[i]!]!;
  }
  for (const [i, w] of readings) out[i]! += w;
  return out;
}
