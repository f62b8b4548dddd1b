import { applyFilter } from "../curve/applyFilter.ts";
import { filterTable } from "../curve/filterTable.ts";
import { pointsOf } from "../curve/pointsOf.ts";
import type { Curve } from "../curve/types.ts";
import { fraserSuzuki, type PeakShape } from "../numerics/fraserSuzuki.ts";
import type { PeakRange } from "./fitTypes.ts";

/** How many shapes are kept: derivatives ask for the same ones again and again. */
const KEPT = 64;

/**
 * What the DTG of a curve shows of a peak: the peak sent through the grid and the smoothing of the curve itself, so that
 * smoothing, which lowers and widens peaks, does not bias the fit.
 *
 * @param curve Its grid and its smoothing are used, not its readings.
 * @param range The grid points asked for.
 * @returns Shape of a peak of area one → its DTG at every grid point of the range, 1/°C.
 */
export function peakModel(curve: Curve, range: PeakRange): (shape: Required<PeakShape>) => Float64Array {
  const { piece, first, end } = range;
  const step = curve.options.grid.step_C;
  const { points, degree } = pointsOf(curve.options, piece.gridEnd - piece.gridFirst);
  const derive = filterTable(points, { degree, derivative: 1, step });
  // The filter needs half its width beyond the range; where the piece ends before, its end rows apply as in the curve.
  const half = (points - 1) / 2;
  const low = Math.max(piece.gridFirst, Math.min(first - half, piece.gridEnd - points));
  const high = Math.min(piece.gridEnd, Math.max(end + half, piece.gridFirst + points));
  const mass = new Float64Array(high - low);
  const out = new Float64Array(high - low);
  const cache = new Map<string, Float64Array>();

  return (shape) => {
    const key = `${shape.position} ${shape.width} ${shape.asymmetry}`;
    const known = cache.get(key);
    if (known) return known;
    const density = fraserSuzuki(shape);
    // Two neighbouring grid means differ by the density under a triangle two steps wide: 1/12, 10/12, 1/12 of its values.
    const start = curve.temperature[low]!;
    let [before, here] = [density(start - step / 2), density(start + step / 2)];
    mass[0] = 0;
    for (let i = 1; i < mass.length; i++) {
      const after = density(start + (i + 0.5) * step);
      mass[i] = mass[i - 1]! - (step * (before + 10 * here + after)) / 12;
      before = here;
      here = after;
    }
    applyFilter(derive, mass, { out, first: 0, end: mass.length });
    // DTG = −dm/dT.
    const dtg = out.slice(first - low, end - low).map((slope) => -slope);
    if (cache.size === KEPT) cache.clear();
    cache.set(key, dtg);
    return dtg;
  };
}
