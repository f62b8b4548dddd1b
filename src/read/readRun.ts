import { readTable } from "./readTable.ts";
import { toRun } from "./toRun.ts";
import type { ReadOptions, Run } from "./types.ts";

/**
 * Reads one thermogravimetric run from the bytes of a text file: encoding, table, columns and units are inferred.
 *
 * @returns temperature in °C, mass in mg (or % of the initial mass), time in s; what was understood is in `reading`
 * @throws UnreadableError with a stable code, the file's name and what to do
 * @example
 * ```ts
 * import { readRun } from "tg-hydrates";
 * const run = readRun(new TextEncoder().encode("T/°C;m/mg\n25,0;10,01\n26,0;10,00\n"), { name: "a.txt" });
 * if (run.temperature[1] !== 26 || run.mass[0] !== 10.01) throw new Error("25 °C, 10.01 mg; 26 °C, 10 mg");
 * ```
 */
export function readRun(bytes: Uint8Array, options: ReadOptions = {}): Run {
  const { name = "run" } = options;
  return toRun(readTable(bytes, { name }), options);
}
