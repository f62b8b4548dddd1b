import type { Measured } from "../measured.ts";
import type { Basis, Mix } from "./types.ts";

/**
 * The mass that an index refers to, 100 g of it.
 *
 * `binder`: ignited/(1 − LOI), of a mortar only the binder's share 1/(1 + s) with s the ignited sand per ignited
 * binder. It is what a gram of anhydrous binder became, so regimes and mixes with different sulfate sources compare.
 *
 * @param masses Ignited and initial mass in one unit.
 * @returns In the same unit; missing where the basis needs what is not known.
 */
export function referenceMass(basis: Basis, masses: { ignited: Measured; initial: number; mix: Mix | null }): Measured {
  const { ignited, initial, mix } = masses;
  if (basis === "initial") return { value: initial, u: null, terms: [] };
  if (basis === "ignited" || "missing" in ignited) return ignited;
  if (mix?.loi_binder_pct === null || mix?.loi_binder_pct === undefined) return { missing: "no-binder-loss" };
  const sand = mix.sand_binder_ignited ?? 0;
  return { value: ignited.value / (1 + sand) / (1 - mix.loi_binder_pct / 100), u: null, terms: [] };
}
