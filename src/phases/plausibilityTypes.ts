import type { Flag } from "../flags.ts";
import type { BinderPart } from "./binderContents.ts";

/** Hydrates and their water, g per 100 g of anhydrous binder. */
export interface HydrateMasses {
  ettringite: number;
  monosulfate: number;
  ah3: number;
  straetlingite: number;
  /** All water in them, that of the sulfate source included. */
  bound_water: number;
  /** The same less the water of the sulfate source: taken from the mixing water. */
  added_water: number;
}

/** The most of each that may ever stand there, g per 100 g of anhydrous binder; null where the composition sets no bound. */
export type HydrateBounds = { [K in Exclude<keyof HydrateMasses, "added_water">]: number | null };

/** What the chemistry of a binder allows. */
export interface BinderMaxima {
  /** `oxides`: ye'elimite from the analysis, all alumina that iron leaves over: an upper bound. */
  by: "phases" | "oxides";
  /** % of the anhydrous binder. */
  yeelimite_pct: number;
  belite_pct: number;
  /** mol of calcium sulfate per mol of ye'elimite. */
  sulfate_per_yeelimite: number;
  /** Ignited mass of 100 g of anhydrous binder, g. */
  ignited_g: number;
  /** All ye'elimite hydrated, sulfate into ettringite first (R1–R4). */
  complete: HydrateMasses;
  /** Then all belite too, with AH3 to strätlingite as far as AH3 goes (R7). */
  with_belite: HydrateMasses;
  /** Bounds that no mixture of the reactions passes. */
  at_most: HydrateBounds;
  /** What stands beside ye'elimite, sulfate and belite and widens the bounds. */
  beside: BinderPart[];
  water: {
    /** Water-to-binder ratio that complete hydration of the ye'elimite takes up. */
    needed: number;
    w_b: number | null;
    /** Share of the ye'elimite that the mixing water can hydrate, 0…1; null without w_b. */
    reacted_at_most: number | null;
  };
}

/** A measured amount: g per 100 g with its standard uncertainty, null where that is not known. */
export interface AmountGiven {
  value: number;
  u: number | null;
}

/** What was found, by quantity; only what is known. */
export type AmountsGiven = Partial<Record<keyof HydrateBounds, AmountGiven>>;

/** Reference of the amounts held against theory. */
export type PlausibilityBasis = "ignited" | "binder" | "paste";

/** An amount above what the binder can give. */
export interface Exceeded {
  quantity: keyof HydrateBounds;
  value: number;
  u: number | null;
  maximum: number;
}

/** What a set of amounts says about a binder, and whether it can be true. All masses in g per 100 g of `basis`. */
export interface Plausibility {
  mix: string;
  basis: PlausibilityBasis;
  by: BinderMaxima["by"];
  sulfate_per_yeelimite: number;
  /** The most that may stand there; null where the composition sets no bound. */
  maxima: HydrateBounds;
  /** At complete hydration of the ye'elimite (R1–R4). */
  complete: Record<keyof HydrateBounds, number>;
  exceeded: Exceeded[];
  /** Reacted share of the ye'elimite from AH3, 0…1; null without AH3. The range holds what is said against it. */
  yeelimite_reacted: { low: number; high: number; valid: boolean; reasons: string[] } | null;
  /** AH3 to ettringite by mass; theory from ettringite only (0.2486) to complete hydration, null where no sulfate is left for a bound. */
  ah3_per_ettringite: { measured: number; theory_low: number; theory_high: number | null } | null;
  /** Water-to-binder ratio, the one that complete hydration takes up, and the share of ye'elimite that the mixing water can hydrate. */
  water: BinderMaxima["water"];
  flags: Flag[];
}
