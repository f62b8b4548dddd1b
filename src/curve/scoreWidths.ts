import type { Run } from "../read/types.ts";
import { forEachResidual } from "./forEachResidual.ts";
import { residualsOfNoise } from "./residualsOfNoise.ts";
import { toCurve } from "./toCurve.ts";
import type { Curve, CurveOptions } from "./types.ts";

/** How one smoothing width fits one run. */
export interface WidthScore {
  width_C: number;
  /** Lag-one correlation of the residuals about the sharpest peak beyond that of smoothed noise, in standard errors. */
  excess: number;
  /** Largest DTG, % of the initial mass per °C. */
  height: number;
}

/** The neighbourhood of the sharpest peak in which residuals are judged, °C on both sides. */
const NEAR = 30;

/**
 * Scores smoothing widths on one run by the residuals about its sharpest peak: too wide a filter leaves residuals that
 * resemble their neighbours more than smoothed noise does, since what it flattens is left in them. The noise and its own
 * correlation come from the narrowest width (criterion of Vivó-Truyols and Schoenmakers, Anal Chem 78:4598, 2006:
 * the autocorrelation of the residuals against that of the noise).
 *
 * @param widths Growing, °C.
 */
export function scoreWidths(run: Run, options: CurveOptions, widths: readonly number[]): WidthScore[] {
  let lagOne = 0;
  let summit: number | null = null;
  return widths.map((width_C, i) => {
    const curve = toCurve(run, { ...options, smoothing: { ...options.smoothing, width_C } });
    let top = 0;
    for (let k = 0; k < curve.dtg.length; k++) if (curve.dtg[k]! > curve.dtg[top]!) top = k;
    if (i === 0) lagOne = curve.noise.lagOne;
    summit ??= curve.temperature[top]!;
    const { ratio, n } = correlationNear(curve, summit);
    return {
      width_C,
      excess: (ratio - residualsOfNoise(curve)(lagOne).ratio) * Math.sqrt(n),
      height: (100 * curve.dtg[top]!) / curve.initialMass,
    };
  });
}

/** Lag-one correlation of readings less the smoothed curve about a temperature. */
function correlationNear(curve: Curve, centre: number): { ratio: number; n: number } {
  let [squares, products, n] = [0, 0, 0];
  let before: number | null = null;
  forEachResidual(curve, (residual, temperature) => {
    const near = Math.abs(temperature - centre) <= NEAR;
    if (near) {
      squares += residual * residual;
      if (before !== null) products += residual * before;
      n++;
    }
    before = near ? residual : null;
  });
  return { ratio: squares > 0 ? products / squares : 0, n };
}
