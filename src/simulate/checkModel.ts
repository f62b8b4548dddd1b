import type { Model } from "./types.ts";

/**
 * Refuses a model that has no physical meaning, naming the field and its value.
 *
 * @throws {RangeError} A field outside its range, or losses that add up to more than the sample.
 */
export function checkModel(model: Model): void {
  const { sample_mg, reactions, background = [] } = model;
  if (!(sample_mg >= 0 && Number.isFinite(sample_mg))) {
    throw new RangeError(`Give a mass of zero or more at sample_mg, not ${sample_mg}`);
  }
  let total = 0;
  reactions.forEach((reaction, i) => {
    const { loss_pct, ln_A_per_min, E_kJ_mol, order = 1 } = reaction;
    const field = (name: string) => `reactions[${i}]${reaction.name ? ` (${reaction.name})` : ""}.${name}`;
    if (!Number.isFinite(loss_pct)) throw new RangeError(`Give a finite loss at ${field("loss_pct")}, not ${loss_pct}`);
    if (!Number.isFinite(ln_A_per_min)) {
      throw new RangeError(`Give a finite logarithm at ${field("ln_A_per_min")}, not ${ln_A_per_min}`);
    }
    if (!(E_kJ_mol > 0 && Number.isFinite(E_kJ_mol))) {
      throw new RangeError(`Give a positive activation energy at ${field("E_kJ_mol")}, not ${E_kJ_mol}`);
    }
    if (!(order >= 0 && Number.isFinite(order))) {
      throw new RangeError(`Give a reaction order of zero or more at ${field("order")}, not ${order}`);
    }
    total += loss_pct;
  });
  background.forEach(({ from_C, to_C, loss_pct_per_C }, i) => {
    if (!(to_C > from_C)) {
      throw new RangeError(`background[${i}] must rise: from_C ${from_C} is not below to_C ${to_C}`);
    }
    if (!Number.isFinite(loss_pct_per_C)) {
      throw new RangeError(`Give a finite loss at background[${i}].loss_pct_per_C, not ${loss_pct_per_C}`);
    }
    total += loss_pct_per_C * (to_C - from_C);
  });
  if (total > 100) throw new RangeError(`The losses add up to ${total} % of the sample: at most 100 % can leave`);
}
