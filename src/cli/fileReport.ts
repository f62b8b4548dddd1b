import { toCurve } from "../curve/toCurve.ts";
import type { Curve, Isothermal, Piece } from "../curve/types.ts";
import { type ErrorData, UnreadableError } from "../errors.ts";
import { type Flag, flag } from "../flags.ts";
import { protocols } from "../protocol/protocols.ts";
import { readRun } from "../read/readRun.ts";
import { readTable } from "../read/readTable.ts";
import type { DroppedRows, ReadOptions, Run, TableColumn, UnderstoodColumn } from "../read/types.ts";

/** A stretch of a run. */
export interface SegmentReport {
  kind: "heating" | "isothermal";
  from_C: number;
  to_C: number;
  /** Duration, min; null without time. */
  duration_min: number | null;
  /** K/min; null without time. */
  heating_rate_K_per_min: number | null;
  rows: number;
}

/** How a file was understood. Null: not known, or not reached because of `error`. */
export interface FileReport {
  file: string;
  encoding: string | null;
  delimiter: string | null;
  decimal_mark: string | null;
  /** With their quantity where the file could be read; without where their meaning could not be told. */
  columns: (UnderstoodColumn | TableColumn)[];
  /** Rows with a finite temperature and mass. */
  rows_read: number | null;
  /** Rows and other lines inside the table that were not taken; why and where stands in `dropped`. */
  rows_dropped: number;
  dropped: DroppedRows[];
  temperature_min_C: number | null;
  temperature_max_C: number | null;
  initial_mass_mg: number | null;
  heating_rate_K_per_min: number | null;
  /** Standard deviation of one reading, µg. */
  noise_ug: number | null;
  segments: SegmentReport[];
  metadata: Record<string, string>;
  flags: Flag[];
  error: ErrorData | null;
}

/**
 * How the bytes of a file are understood. A file that cannot be read has an `error`, a run that cannot be analysed has a flag.
 *
 * @param options `name` of the file and `columns`, as for `readRun`.
 */
export function fileReport(bytes: Uint8Array, options: ReadOptions & { name: string }): FileReport {
  const { name } = options;
  try {
    return runReport(readRun(bytes, options));
  } catch (error) {
    if (!(error instanceof UnreadableError)) throw error;
    return unreadReport(name, error, bytes);
  }
}

/** The report of a file that cannot be read: what is known of its table, if it has one. */
export function unreadReport(file: string, error: Error & { code: string }, bytes?: Uint8Array): FileReport {
  const table = bytes && tableOf(bytes, file);
  const { line, column } = error instanceof UnreadableError ? error.place : {};
  return {
    file,
    encoding: table?.encoding ?? null,
    delimiter: table?.delimiter ?? null,
    decimal_mark: table?.decimalMark ?? null,
    columns: table?.columns ?? [],
    rows_read: null,
    ...droppedOf(table?.dropped ?? []),
    temperature_min_C: null,
    temperature_max_C: null,
    initial_mass_mg: null,
    heating_rate_K_per_min: null,
    noise_ug: null,
    segments: [],
    metadata: table?.metadata ?? {},
    flags: [],
    error: {
      code: error.code,
      message: error.message,
      ...(line === undefined ? {} : { line }),
      ...(column === undefined ? {} : { column }),
    },
  };
}

function tableOf(bytes: Uint8Array, name: string): ReturnType<typeof readTable> | undefined {
  try {
    return readTable(bytes, { name });
  } catch {
    return undefined;
  }
}

function runReport(run: Run): FileReport {
  const { encoding, delimiter, decimal_mark, columns, rows_read, rows_dropped } = run.reading;
  const { curve, flags } = curveOf(run);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const temperature of run.temperature) {
    if (temperature < low) low = temperature;
    if (temperature > high) high = temperature;
  }
  return {
    file: run.source.name,
    encoding,
    delimiter,
    decimal_mark,
    columns,
    rows_read,
    ...droppedOf(rows_dropped),
    temperature_min_C: low,
    temperature_max_C: high,
    initial_mass_mg: run.initialMass,
    heating_rate_K_per_min: curve?.heatingRate ?? null,
    noise_ug: noiseOf(curve),
    segments: curve === null ? [] : segmentsOf(curve),
    metadata: run.metadata,
    flags: oncePerCode([...run.flags, ...flags]),
    error: null,
  };
}

/** The curve under the grid and smoothing of the built-in protocol; where there is none, a flag says why. */
function curveOf(run: Run): { curve: Curve | null; flags: Flag[] } {
  try {
    const curve = toCurve(run, protocols.csa);
    return { curve, flags: curve.flags };
  } catch (error) {
    if (!(error instanceof UnreadableError)) throw error;
    const sentence = error.message.slice(`${run.source.name}: `.length);
    return { curve: null, flags: [flag("no-heating", `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`)] };
  }
}

/** Null where masses are in %, or so far out of range that their squares overflow. */
function noiseOf(curve: Curve | null): number | null {
  if (curve === null || curve.run.massUnit !== "mg") return null;
  const noise = 1000 * curve.noise.sd;
  return Number.isFinite(noise) ? noise : null;
}

/** Several stages may find the same. */
function oncePerCode(flags: readonly Flag[]): Flag[] {
  return flags.filter(({ code }, i) => flags.findIndex((other) => other.code === code) === i);
}

/** Heating and isothermals in the order of the readings. */
function segmentsOf({ pieces, isothermals, run }: Curve): SegmentReport[] {
  const minutes = (from: number, to: number): number | null => (run.time === null ? null : (to - from) / 60);
  const heating = ({ first, end, from, to }: Piece): SegmentReport & { first: number } => {
    const duration_min = run.time === null ? null : minutes(run.time[first]!, run.time[end - 1]!);
    const heating_rate_K_per_min = duration_min ? (to - from) / duration_min : null;
    return { first, kind: "heating", from_C: from, to_C: to, duration_min, heating_rate_K_per_min, rows: end - first };
  };
  const hold = ({ first, end, temperature, from, to }: Isothermal): SegmentReport & { first: number } => {
    const duration_min = minutes(from, to);
    const heating_rate_K_per_min = run.time === null ? null : 0;
    return {
      ...{ first, kind: "isothermal", from_C: temperature, to_C: temperature },
      ...{ duration_min, heating_rate_K_per_min, rows: end - first },
    };
  };
  return [...pieces.map(heating), ...isothermals.map(hold)]
    .sort((a, b) => a.first - b.first)
    .map(({ first: _, ...segment }) => segment);
}

function droppedOf(dropped: DroppedRows[]): Pick<FileReport, "rows_dropped" | "dropped"> {
  return { rows_dropped: dropped.reduce((sum, { count }) => sum + count, 0), dropped };
}
