import type { Flag } from "../flags.ts";
import type { Measured } from "../measured.ts";

/** The cell `flags` of a row: codes of its flags and of its missing numbers, each once, joined by semicolons. */
export function flagCodes(flags: readonly Flag[], numbers: readonly Measured[] = []): string | null {
  const codes = new Set<string>(flags.map(({ code }) => code));
  for (const number of numbers) if ("missing" in number) codes.add(number.missing);
  return codes.size === 0 ? null : [...codes].join(";");
}
