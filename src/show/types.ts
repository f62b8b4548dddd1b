import type { Window } from "../losses/types.ts";
import type { Json } from "../render/figures/types.ts";
import type { TextColumn } from "../render/textTable.ts";

/** Options of `show`. */
export interface ShowOptions {
  /** Heading of a table, line under a figure. @default what is known of the value */
  caption?: string;
  /** How many rows of a table at most; `Infinity` for all. @default 50 */
  rows?: number;
  /** Columns of a table and their order. @default all */
  columns?: readonly string[];
  /** Windows to mark on a curve, such as `protocols.csa.windows`. @default none */
  windows?: readonly Pick<Window, "name" | "from_C" | "to_C">[];
}

/** One output in several forms, each under its media type; a notebook takes the best that it can draw. */
export interface MimeBundle {
  readonly "text/plain": string;
  readonly [mime: string]: Json;
}

/** A table before it is set as text or HTML. */
export interface Grid {
  caption: string;
  columns: readonly TextColumn[];
  /** As many cells as columns. */
  rows: readonly (readonly string[])[];
  /** How many columns at the start name the row. @default 0 */
  heads?: number;
}

/** Sentences, with a heading where they need one. */
export interface Lines {
  heading?: string;
  lines: readonly string[];
  /** Letters of one width: the text aligns its columns by blanks. @default false */
  aligned?: boolean;
}

/** What is shown of a value, before it is set as text or HTML. */
export type View = readonly (Grid | Lines)[];
