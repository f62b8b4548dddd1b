import type { PeakFitSpec } from "./fitTypes.ts";

/**
 * Refuses peaks that cannot be fitted, before any run is looked at.
 *
 * @throws {RangeError} A value out of its range; the message names the field and its value.
 */
export function checkPeakSpec(spec: PeakFitSpec): void {
  const { peaks, from_C, to_C, width_u_pct = 0, asymmetry_u = 0, limits = {} } = spec;
  if (!(from_C < to_C)) throw new RangeError(`Peak fit: from_C must lie below to_C, not ${from_C} and ${to_C}`);
  if (peaks.length === 0) throw new RangeError("Peak fit: name at least one peak");
  const names = new Set<string>();
  for (const { name, position_C, width_C, asymmetry = 0 } of peaks) {
    if (names.has(name)) throw new RangeError(`Peak fit: two peaks have the name ${name}`);
    names.add(name);
    const [low, high] = position_C;
    if (!(low < high && low > from_C && high < to_C)) {
      throw new RangeError(
        `Peak ${name}: position_C must rise and lie inside ${from_C}–${to_C} °C, not ${low} and ${high}`,
      );
    }
    if (!(width_C > 0 && width_C < to_C - from_C)) {
      throw new RangeError(`Peak ${name}: width_C must be above 0 and below the range of the fit, not ${width_C}`);
    }
    if (!(Math.abs(asymmetry) <= 2)) {
      throw new RangeError(`Peak ${name}: asymmetry must lie between -2 and 2, not ${asymmetry}`);
    }
  }
  const shares = { width_u_pct, asymmetry_u, ...limits };
  for (const [field, value] of Object.entries(shares)) {
    if (!(value >= 0 && Number.isFinite(value))) {
      throw new RangeError(`Peak fit: ${field} must be zero or more, not ${value}`);
    }
  }
}
