import type { Cell } from "./readCell.ts";

/**
 * Thousands separators are doubtful where the mark can be a decimal mark; so is a decimal mark that always has three digits
 * behind it while numbers below a thousand have none: 998; 999; 1,000.
 */
export function isDoubtful(cells: (Cell | null)[]): boolean {
  const numbers = cells.filter((cell) => cell?.kind === "number") as Cell[];
  if (numbers.some(({ grouped, decimals }) => grouped && decimals === 0)) return true;
  const marked = numbers.filter(({ decimals }) => decimals !== 0);
  const bare = numbers.filter(({ decimals }) => decimals === 0);
  return (
    marked.length > 0 &&
    bare.length > 0 &&
    marked.every(
      ({ decimals, value, grouped, scientific }) => decimals === 3 && Math.abs(value) >= 1 && !grouped && !scientific,
    ) &&
    marked.every(({ value }) => Math.abs(value) < 1000) &&
    bare.every(({ value }) => Math.abs(value) < 1000 && Math.abs(value) >= 1)
  );
}
