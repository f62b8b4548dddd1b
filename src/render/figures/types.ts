/** A plain JSON value. */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** A Vega-Lite specification (version 5 of its schema): plain JSON with the data in it. */
export interface FigureSpec {
  readonly $schema: string;
  readonly [key: string]: Json;
}

/** What a figure shows. */
export type FigureKind = "run" | "stack" | "ages" | "contrasts" | "property" | "budget" | "sensitivity";

/** A figure, not drawn yet. */
export interface Figure {
  /** Name of its file without the ending; safe on every file system, unique within a campaign. */
  name: string;
  kind: FigureKind;
  /** What it shows, one line. */
  title: string;
  /** Text in place of the picture: what is to be seen and the finding. */
  alt: string;
  spec: FigureSpec;
}

/** A figure and what was drawn of it; without a drawing the reason. */
export type DrawnFigure = Figure & ({ svg: string } | { missing: string });
