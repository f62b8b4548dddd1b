import type { SettledProtocol } from "../../protocol/types.ts";

/** The budget of an index and the interval of a cell, in words for a paper. */
export function uncertaintyWords({ uncertainty, basis }: SettledProtocol): string {
  const { temperature_u_C, buoyancy_u_mg, blank_u_mg, assumed_mass_mg, residue_u_mg, baseline_choice } = uncertainty;
  const choice = baseline_choice
    ? "; the choice of the baseline is counted, as the difference of step and area divided by √12"
    : "; the choice between step and area is not counted";
  const binder =
    basis === "binder" ? " and those of the binder's loss on ignition and of the sand that the mix table states" : "";
  return [
    `The uncertainty of an index was evaluated by JCGM 100:2008 from these standard uncertainties: the noise of the balance, estimated from each run and carried through the actual weights of grid, smoothing, rule and ignited mass; ${temperature_u_C} °C of the temperature axis, as a shift of both edges; ${buoyancy_u_mg} mg of buoyancy without a blank run and ${blank_u_mg} mg with one; ${residue_u_mg} mg of a furnace residue${binder}${choice}.`,
    `Where a file gives masses in % only, an initial mass of ${assumed_mass_mg} mg was assumed for it.`,
    "Replicates of one specimen were averaged first. For the mean of a cell (mix, curing, days of curing, age) u² = s²/n + u²(shared), with n specimens, their scatter s pooled over all cells of the campaign, and the errors that runs share not divided by n; 95 % intervals are the mean ± t·u with degrees of freedom by Welch and Satterthwaite. Indices below the limit of detection stay in the mean as they are.",
  ].join(" ");
}
