import { type Flag, flag } from "../flags.ts";
import type { Run } from "./types.ts";

/** A fall of the temperature below this is the noise of a thermocouple; a deeper one than `cooling` is no wobble, °C. */
const wobble = 0.5;
const cooling = 5;

/** A temperature that falls back while heating, by more than its noise and less than a cooling; limits are common practice. */
export function findWobble({ temperature, lines, temperatureResolution }: Run): Flag[] {
  const least = Math.max(wobble, 3 * temperatureResolution);
  let [highest, depth, since] = [temperature[0]!, 0, 0];
  let [times, deepest, first] = [0, 0, 0];
  for (let i = 1; i < temperature.length; i++) {
    const now = temperature[i]!;
    if (now >= highest) {
      if (depth > least) {
        if (times++ === 0) first = lines[since]!;
        if (depth > deepest) deepest = depth;
      }
      highest = now;
      depth = 0;
    } else if (highest - now > cooling) {
      highest = now;
      depth = 0;
    } else if (highest - now > depth) {
      if (depth <= least) since = i;
      depth = highest - now;
    }
  }
  if (times === 0) return [];
  const often = times === 1 ? "once" : `${times} times`;
  const sentence = `The temperature falls back ${often} by up to ${Number(deepest.toPrecision(2))} °C while heating, first in line ${first}.`;
  return [flag("temperature-wobbles", sentence)];
}
