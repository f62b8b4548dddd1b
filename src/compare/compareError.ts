/** A comparison that cannot be made as asked: no such reference, an age that no cell has, a margin for an unknown quantity. */
export class CompareError extends RangeError {
  override name = "CompareError";
}
