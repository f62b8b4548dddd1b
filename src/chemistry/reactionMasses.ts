import { molarMass } from "./molarMass.ts";
import { type ReactionName, reactions } from "./reactions.ts";
import { shorthandComposition } from "./shorthandComposition.ts";

/** Masses of the participants of a reaction, by their shorthand. */
export interface ReactionMasses {
  left: Record<string, number>;
  right: Record<string, number>;
}

/**
 * Masses of all participants of a reaction in g per g of one of them: what a gram of ye'elimite can give at most.
 *
 * @param name Number of the reaction in {@link reactions}.
 * @param per Participant that the masses are referred to, in shorthand.
 * @throws {RangeError} A participant that the reaction does not have.
 *
 * @example
 * ```ts
 * import { reactionMasses } from "tg-hydrates";
 * const { right } = reactionMasses("R2", "C4A3$");
 * if (right.C6A$3H32!.toFixed(4) !== "2.0567" || right.AH3!.toFixed(4) !== "0.5113") throw new Error("g per g of ye'elimite");
 * ```
 */
export function reactionMasses(name: ReactionName, per: string): ReactionMasses {
  const { left, right } = reactions[name];
  const grams = (side: Record<string, number>) =>
    Object.fromEntries(
      Object.entries(side).map(([shorthand, moles]) => [shorthand, moles * molarMass(shorthandComposition(shorthand))]),
    );
  const masses = { left: grams(left), right: grams(right) };
  const unit = masses.left[per] ?? masses.right[per];
  if (unit === undefined) {
    throw new RangeError(`${name} has no ${per}: name one of ${Object.keys({ ...left, ...right }).join(", ")}`);
  }
  const divided = (side: Record<string, number>) =>
    Object.fromEntries(Object.entries(side).map(([shorthand, mass]) => [shorthand, mass / unit]));
  return { left: divided(masses.left), right: divided(masses.right) };
}
