import { fixed, signed } from "../decisionWords.ts";
import { plainNumbers } from "./plainNumbers.ts";

/** `+0.5 [−1.0, +2.0]`, or without the interval where it is not known; empty without a value. */
export function interval(
  value: number | null,
  ends: readonly [number | null, number | null],
  options: { decimals: number; sign?: boolean; unit?: string },
): string {
  const { decimals, sign = false, unit = "" } = options;
  if (value === null) return "";
  const write = sign ? signed : fixed;
  const [low, high] = ends;
  const between = low === null || high === null ? "" : ` [${write(low, decimals)}, ${write(high, decimals)}]`;
  return plainNumbers(`${write(value, decimals)}${unit}${between}`);
}
