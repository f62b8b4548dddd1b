/**
 * Median and quartiles (linear interpolation between order statistics) of a list of numbers.
 *
 * @param {readonly number[]} samples
 * @returns {{ median: number, low: number, high: number }}
 */
export function spread(samples) {
  const sorted = [...samples].sort((a, b) => a - b);
  const at = (share) => {
    const place = share * (sorted.length - 1);
    const below = Math.floor(place);
    const above = Math.min(below + 1, sorted.length - 1);
    return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
  };
  return { median: at(0.5), low: at(0.25), high: at(0.75) };
}
