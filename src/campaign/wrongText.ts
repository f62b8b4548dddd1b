/**
 * What is wrong with a cell, as it goes on after a colon.
 *
 * @throws What is no finding about the cell.
 */
export function wrongText(error: unknown): string {
  if (!(error instanceof SyntaxError || error instanceof RangeError)) throw error;
  return error.message.charAt(0).toLowerCase() + error.message.slice(1);
}
