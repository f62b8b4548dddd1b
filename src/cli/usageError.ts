/** A command line that cannot work. */
export class UsageError extends Error {
  override name = "UsageError";
}
