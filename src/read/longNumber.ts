/** Numbers that are not exact in one operation: many digits, large exponents. `mark` is the code of the decimal mark. */
export function longNumber(bytes: Uint8Array, from: number, to: number, mark: number): number {
  let text = "";
  for (let i = from; i < to; i++) text += bytes[i] === mark ? "." : String.fromCharCode(bytes[i]!);
  return Number(text);
}
