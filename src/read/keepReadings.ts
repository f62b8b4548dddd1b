import { UnreadableError } from "../errors.ts";
import { type Flag, flag } from "../flags.ts";
import { mostMass } from "../massLimits.ts";
import type { MassScale } from "./massScale.ts";
import type { DroppedRows, Table } from "./types.ts";
import type { Understanding } from "./understandColumns.ts";

/** The columns of a run, rows that lack one left out; still in the units of the file. */
export interface Readings {
  temperature: Float64Array;
  mass: Float64Array;
  time: Float64Array | null;
  lines: Uint32Array;
  dropped: DroppedRows[];
  flags: Flag[];
}

/** How many line numbers are named. */
const named = 5;
/** A time missing in more rows than this share is no time. */
const mostTimeless = 0.1;
/** Absolute zero and a temperature no furnace of a thermobalance reaches, °C. */
const [coldest, hottest] = [-273.15, 3000];

/**
 * Rows with a possible temperature, a possible mass and (where there is one) a time; the arrays of the table themselves where all rows have them.
 *
 * @param scale How the written mass becomes mg or %.
 * @throws UnreadableError `no-readings` where fewer than two rows remain
 */
export function keepReadings(
  table: Table,
  { columns, temperature, mass, time }: Understanding,
  scale: Pick<MassScale, "factor" | "offset">,
): Readings {
  const warm = table.values[temperature]!;
  const weight = table.values[mass]!;
  let clock = time === null ? null : table.values[time]!;
  const flags: Flag[] = [];
  if (clock !== null && hasMissing(clock)) {
    const timeless = clock.reduce((sum, value) => sum + (Number.isNaN(value) ? 1 : 0), 0);
    if (timeless > mostTimeless * clock.length) {
      clock = null;
      flags.push(flag("time-unusable", `The time is missing in ${timeless} of ${warm.length} rows.`));
    }
  }
  const { factor, offset } = columns[temperature]!.known ?? { factor: 1, offset: 0 };
  const [lowest, highest] = [(coldest - offset) / factor - 1e-9, (hottest - offset) / factor];
  // Comparisons with NaN are false.
  const isPossible = (written: number): boolean => Math.abs(written * scale.factor + scale.offset) <= mostMass;
  const whyNot = (i: number): string | null => {
    if (Number.isNaN(warm[i]!))
      return Number.isNaN(weight[i]!) ? "temperature and mass missing" : "temperature missing";
    if (Number.isNaN(weight[i]!)) return "mass missing";
    if (warm[i]! < lowest || warm[i]! > highest) return "impossible temperature";
    if (!isPossible(weight[i]!)) return "impossible mass";
    return clock !== null && Number.isNaN(clock[i]!) ? "time missing" : null;
  };
  let whole = 0;
  for (; whole < warm.length; whole++) {
    const value = warm[whole]!;
    if (!(value >= lowest && value <= highest && isPossible(weight[whole]!))) break;
    if (clock !== null && Number.isNaN(clock[whole]!)) break;
  }
  if (whole === warm.length && whole >= 2) {
    return { temperature: warm, mass: weight, time: clock, lines: table.lines, dropped: [], flags };
  }
  const rows: number[] = [];
  const dropped = new Map<string, DroppedRows>();
  for (let i = 0; i < warm.length; i++) {
    const reason = whyNot(i);
    if (reason === null) {
      rows.push(i);
      continue;
    }
    const entry = dropped.get(reason) ?? { reason, count: 0, lines: [] };
    entry.count++;
    if (entry.lines.length < named) entry.lines.push(table.lines[i]!);
    dropped.set(reason, entry);
  }
  if (rows.length < 2) {
    const message = `Fewer than two rows have both a temperature and a mass. Export the run again.`;
    throw new UnreadableError("no-readings", message, { source: table.source.name });
  }
  const pick = (values: Float64Array): Float64Array => Float64Array.from(rows, (row) => values[row]!);
  return {
    temperature: pick(warm),
    mass: pick(weight),
    time: clock === null ? null : pick(clock),
    lines: Uint32Array.from(rows, (row) => table.lines[row]!),
    dropped: [...dropped.values()],
    flags,
  };
}

function hasMissing(values: Float64Array): boolean {
  for (let i = 0; i < values.length; i++) if (Number.isNaN(values[i]!)) return true;
  return false;
}
