/** Moles of every element in one mole of a substance: `{ Ca: 1, O: 2, H: 2 }`. */
export type Composition = Record<string, number>;

/** A solid phase of hydrated or anhydrous cement. */
export interface Phase {
  /** Name for a reader. */
  label: string;
  /** Composition in cement shorthand: `C6A$3H32`. Its H and c leave on ignition, everything else stays. */
  shorthand: string;
  /** What is particular about this composition, with its source. */
  note?: string;
}
