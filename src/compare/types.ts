import type { Margin } from "../campaign/decisions.ts";
import type { Scatter } from "../campaign/scatterOf.ts";
import type { Term } from "../measured.ts";
import type { CellKey } from "../protocol/types.ts";

/** A specimen with its value: the mean of its replicates. */
export interface SpecimenValue {
  specimen: string;
  value: number;
}

/** One quantity (window or property) of one cell: the plain row that every comparison is made of. */
export interface ComparedCell extends CellKey {
  /** Window or property. */
  quantity: string;
  kind: "index" | "property";
  /** `g/100 g` of an index; of a property the unit of its first row. */
  unit: string;
  /** Specimens that have a value, each once. */
  specimens: SpecimenValue[];
  /** Mean over specimens; null where none has a value. */
  value: number | null;
  /** Errors of the mean that cells have in common, by key; never divided by n. */
  shared: Term[];
  /** Scatter of specimens, pooled over cells; null where no cell has two. */
  scatter: Scatter | null;
  /** What the noise, the ignition and the residue of its runs alone give the mean: its random error is never less. @default 0 */
  floor?: number;
  /** Codes of cautions. */
  flags: string[];
}

/** A curing regime. */
export interface Regime {
  curing: string | null;
  /** Days of curing; undefined: whatever they are. */
  curing_d?: number | null;
}

/** Specimens whose scatter is behind a standard error: pooled over all cells, or only those of the two cells. */
export type ScatterChoice = "pooled" | "welch";

/** Margins by quantity; the margin without a name is for all others. */
export type Margins = readonly Margin[];

/** One row of a table of properties, checked and in the unit of its property. */
export interface PropertyRow {
  mix: string | null;
  curing: string | null;
  curing_d: number | null;
  /** Age in whole minutes. */
  age_min: number | null;
  property: string;
  specimen: string;
  value: number;
  /** Unit of the property: that of its first row. */
  unit: string;
  /** 1-based line of the table. */
  line: number;
}
