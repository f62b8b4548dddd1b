import { addTo, type Functional, functional } from "../curve/functional.ts";
import type { Weighed } from "../losses/types.ts";
import type { Basis, Mix } from "./types.ts";

/** A relative uncertainty of the reference mass: d ln R. */
export interface RelativeTerm {
  cause: string;
  relative: number;
  key: string;
}

/** The mass an index refers to. */
export interface Reference {
  /** Unit of the run's mass. */
  value: number;
  /** Weights on the curve; null where it was weighed elsewhere. */
  weights: Functional | null;
  /** What the mix and the furnace add. */
  terms: RelativeTerm[];
}

/**
 * The mass that an index refers to, 100 g of it.
 *
 * `binder`: ignited/(1 − LOI), of a mortar only the binder's share 1/(1 + s) with s the ignited sand per ignited
 * binder. It is what a gram of anhydrous binder became, so regimes and mixes with different sulfate sources compare.
 * A relative error of s enters by s/(1 + s), not 1 : 1.
 *
 * @param masses Ignited and initial mass in one unit; `ignitedTerms`: relative uncertainties of the ignited mass.
 * @returns In the same unit; the code of what is missing where the basis needs what is not known.
 */
export function referenceMass(
  basis: Basis,
  masses: { ignited: Weighed | Reference; initial: Weighed; mix: Mix | null },
): Reference | { missing: string } {
  const { ignited, initial, mix } = masses;
  const from = basis === "initial" ? initial : ignited;
  if ("missing" in from) return from;
  const { value, weights } = from;
  const terms = "terms" in from ? from.terms : [];
  if (basis !== "binder") return { value, weights, terms };
  if (mix?.loi_binder_pct === null || mix?.loi_binder_pct === undefined) return { missing: "no-binder-loss" };
  const sand = mix.sand_binder_ignited ?? 0;
  const kept = 1 - mix.loi_binder_pct / 100;
  const factor = 1 / (1 + sand) / kept;
  return {
    value: value * factor,
    weights: weights && addTo(functional(), weights, factor),
    terms: [
      ...terms,
      {
        cause: "loss on ignition of the binder",
        relative: (mix.u_loi_binder_pct ?? 0) / 100 / kept,
        key: `mix:${mix.mix}:loi`,
      },
      { cause: "sand", relative: -(mix.u_sand_binder_ignited ?? 0) / (1 + sand), key: `mix:${mix.mix}:sand` },
    ].filter((term) => term.relative !== 0),
  };
}
