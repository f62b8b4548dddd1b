import { reactionMasses } from "../chemistry/reactionMasses.ts";
import { yeelimiteHydrates } from "../chemistry/yeelimiteHydrates.ts";
import type { ExampleCuring, ExampleMix } from "./exampleDesign.ts";
import type { PhaseAmounts } from "./phaseReactions.ts";

/** How one specimen differs from its cell's mean; both are factors. */
export interface Scatter {
  /** Content of reactive binder. */
  content: number;
  /** Degree of reaction. */
  progress: number;
}

/** Demoulding: until then every specimen keeps its water, days. */
const demoulding_d = 0.25;

/**
 * Phases of an invented specimen at an age, g per 100 g of anhydrous binder: hydration of ye'elimite with its sulfate
 * (reactions R1–R4), a little belite to C-S-H and portlandite (R9), carbonation of ettringite in air (R12).
 *
 * @param scatter @default the mean of the cell
 */
export function exampleSpecimen(
  mix: ExampleMix,
  curing: ExampleCuring,
  options: { age_d: number; scatter?: Scatter },
): PhaseAmounts {
  const { age_d, scatter = { content: 1, progress: 1 } } = options;
  const moist_d = Math.min(age_d, Math.max(curing.curing_d ?? age_d, demoulding_d));
  // Hydration slows down with its own progress, and nearly stops where the specimen dries.
  const effective_d = moist_d + curing.afterwards * (age_d - moist_d);
  const pace = (0.93 * Math.sqrt(effective_d)) / (Math.sqrt(effective_d) + 0.55);
  const reacted = Math.min(1, curing.reach * pace * scatter.progress);

  const hydrates = yeelimiteHydrates(mix.yeelimite * scatter.content, {
    gypsum: mix.gypsum * scatter.content,
    anhydrite: mix.anhydrite * scatter.content,
    reacted,
  });

  const belite = mix.belite * scatter.content;
  const beliteReacted = (belite * 0.35 * effective_d) / (effective_d + 12);
  const silicate = reactionMasses("R9", "C2S").right;

  // Carbonation follows the square root of the days in air (common practice, no source).
  const carbonated = curing.open ? hydrates.ettringite * 0.012 * Math.sqrt(age_d - moist_d) : 0;
  const carbonation = reactionMasses("R12", "C6A$3H32").right;

  // What the scatter adds to the reactive part it takes from the inert one: the binder stays 100 g.
  const reactive = mix.yeelimite + mix.belite + mix.gypsum + mix.anhydrite;
  return {
    ettringite: hydrates.ettringite - carbonated,
    monosulfate: hydrates.monosulfate,
    ah3: hydrates.ah3 + carbonated * carbonation.AH3!,
    gypsum: hydrates.sulfates.gypsum + carbonated * carbonation.C$H2!,
    anhydrite: hydrates.sulfates.anhydrite,
    yeelimite: hydrates.yeelimite,
    belite: belite - beliteReacted,
    "c-s-h": beliteReacted * silicate["C1.7SH1.8"]!,
    portlandite: beliteReacted * silicate.CH!,
    calcite: mix.limestone + carbonated * carbonation.Cc!,
    inert: mix.inert - reactive * (scatter.content - 1),
  };
}
