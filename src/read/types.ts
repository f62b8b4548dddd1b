import type { Flag } from "../flags.ts";

/** What a column holds, once it is known. */
export type Quantity =
  | "temperature"
  | "programme-temperature"
  | "furnace-temperature"
  | "reference-temperature"
  | "time"
  | "mass"
  | "mass-percent"
  | "mass-fraction"
  | "mass-change"
  | "mass-change-percent"
  | "derivative"
  | "heat-flow"
  | "index"
  | "other";

/** How a column was recognised. */
export type RecognisedBy = "name" | "unit" | "behaviour" | "override" | "none";

/** One column of the table as the file writes it. */
export interface TableColumn {
  /** 1-based position in the table. */
  number: number;
  /** Name as written, without its unit; empty where the file has none. */
  name: string;
  /** Unit as written; empty where the file has none. */
  unit: string;
}

/** A column with its meaning. */
export interface UnderstoodColumn extends TableColumn {
  quantity: Quantity;
  by: RecognisedBy;
  /** Why, in words, where it is a guess. */
  reason?: string;
  /** How sure a guess is: `high`, `medium` or `low`; absent where nothing was guessed. */
  confidence?: Confidence;
}

export type Confidence = "high" | "medium" | "low";

/** What the cells of a column are: numbers, `h:min:s`, `min:s` (or `h:min`), dates with times, words, nothing. */
export type CellKind = "number" | "clock" | "short-clock" | "date" | "text" | "empty";

/** Rows that were not taken, with the reason and the first line numbers. */
export interface DroppedRows {
  reason: string;
  count: number;
  /** The first few 1-based line numbers. */
  lines: number[];
}

/** The table of a file in the file's own words: numbers without units' meaning. */
export interface Table {
  source: { name: string };
  /** `utf-8`, `utf-16le`, `utf-16be` or `windows-1252`. */
  encoding: string;
  /** `\t`, `;`, `,`, `|` or ` ` (blanks). */
  delimiter: string;
  decimalMark: "." | ",";
  columns: TableColumn[];
  /** What the cells of each column are; clocks and dates stand in `values` as s. */
  cells: CellKind[];
  /** One array per column, all of the same length; NaN where a cell is empty or a missing mark (only here). */
  values: Float64Array[];
  /** 1-based line of every row. */
  lines: Uint32Array;
  /** Preamble lines `key: value`, as written. */
  metadata: Record<string, string>;
  /** Lines inside the table that are no rows. */
  dropped: DroppedRows[];
  /**
   * Largest number of decimals written in each column (for the print resolution); of a column with exponents that of its
   * coarsest number.
   */
  decimals: number[];
}

/** Names or numbers of columns with their units, given by the user for a file that cannot be inferred. */
export interface ColumnOverride {
  /** Column name or 1-based number as text. */
  column: string;
  quantity: Quantity;
  /** Unit to read it in; the column's own where absent. */
  unit?: string;
}

/** Options of {@link readRun}. */
export interface ReadOptions {
  /** Name of the source, for messages and provenance. @default "run" */
  name?: string;
  columns?: ColumnOverride[];
  /** Mass before heating, mg, where it is known from elsewhere (the run sheet); goes before what the file states. */
  initialMass_mg?: number;
}

/** One measurement of one aliquot: units known, every number finite, in the order of measurement. */
export interface Run {
  source: { name: string; sha256?: string };
  /** Sample temperature, °C. */
  temperature: Float64Array;
  /** Mass, in `massUnit`. */
  mass: Float64Array;
  /** `mg`, or `%` of the initial mass where the file knows no absolute mass. */
  massUnit: "mg" | "%";
  /** Time since the first reading, s, non-decreasing; null where the file has none. */
  time: Float64Array | null;
  /** Mass before heating, mg: the first reading, or the mass the file states; null where unknown. */
  initialMass: number | null;
  /** Smallest step the file can write, in `massUnit` (10^-decimals in its own unit, converted). */
  massResolution: number;
  /** Smallest step the file can write, °C. */
  temperatureResolution: number;
  /** 1-based line of every reading. */
  lines: Uint32Array;
  metadata: Record<string, string>;
  /** How the file was understood. */
  reading: Reading;
  flags: Flag[];
}

/** How a file was understood, as plain data. */
export interface Reading {
  encoding: string;
  delimiter: string;
  decimal_mark: string;
  columns: UnderstoodColumn[];
  /** Rows with a finite temperature and mass. */
  rows_read: number;
  rows_dropped: DroppedRows[];
  /** What the lines around the table state, where they state it with a unit; null otherwise. */
  stated?: Stated;
}

/** What a file says about its run. */
export interface Stated {
  initial_mass_mg: number | null;
  heating_rate_K_per_min: number | null;
  gas: string | null;
}
