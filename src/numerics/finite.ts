/**
 * The values as an array of finite numbers; statistics refuse anything else, because a NaN that is skipped or a blank
 * that counts as zero changes n without a word.
 *
 * @throws {RangeError} Fewer values than `atLeast`.
 * @throws {TypeError} A value that is not a finite number.
 */
export function finite(values: Iterable<number>, options: { atLeast: number; what: string }): number[] {
  const list = [...values];
  const { atLeast, what } = options;
  if (list.length < atLeast) {
    throw new RangeError(`Give at least ${atLeast} value${atLeast === 1 ? "" : "s"} for ${what}, not ${list.length}`);
  }
  const wrong = list.findIndex((value) => typeof value !== "number" || !Number.isFinite(value));
  if (wrong >= 0) {
    throw new TypeError(`Give finite numbers for ${what}: value ${wrong + 1} of ${list.length} is ${list[wrong]}`);
  }
  return list;
}
