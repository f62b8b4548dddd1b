/** A figure that cannot be drawn. The message says what to do. */
export class DrawError extends Error {
  override name = "DrawError";
}
