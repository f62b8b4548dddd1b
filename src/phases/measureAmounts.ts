import { molarMass } from "../chemistry/molarMass.ts";
import { type Flag, flag } from "../flags.ts";
import type { Amount, Loss } from "../losses/types.ts";
import type { Measured, Term } from "../measured.ts";
import { addTerms } from "./addTerms.ts";
import { belowDetection } from "./belowDetection.ts";
import { combineIndices, type IndexPart } from "./combineIndices.ts";
import { combineTerms } from "./combineTerms.ts";
import { hydroxylParts } from "./hydroxylParts.ts";
import { limeSource } from "./limeSource.ts";
import { type BudgetContext, measureIndex } from "./measureIndex.ts";
import { phasePerGas } from "./phasePerGas.ts";
import type { Reference } from "./referenceMass.ts";
import type { Corrections, Mix } from "./types.ts";

/** A phase by the loss of its window. */
export interface WindowAmount {
  phase: string;
  window: string;
  mol_lost: number;
  /** g per 100 g of the reference. */
  amount: Measured;
  flags: Flag[];
}

/** What {@link measureAmounts} needs beside the budget. */
export interface AmountInput {
  losses: readonly Loss[];
  reference: Reference | { missing: string };
  corrections: Corrections;
  mix: Mix | null;
  /** Index of a loss by its step on this reference, where it is known already. */
  stepIndex?: (loss: Loss) => Measured;
}

/**
 * Losses → amounts of the phases that the windows declare, by stoichiometry with the declared mole counts and the corrections of the
 * protocol. Portlandite needs a lime source in the mix table: without one the loss in its window is not portlandite.
 *
 * @returns In the order of the windows, g per 100 g of the reference; negative ones are kept and flagged.
 */
export function measureAmounts(context: BudgetContext, input: AmountInput): WindowAmount[] {
  const { reference } = input;
  return input.losses.flatMap((loss) => {
    const { amount, name: window } = loss.window;
    if (amount === undefined) return [];
    const { phase, mol_lost } = amount;
    const measured =
      "missing" in reference
        ? { amount: reference, flags: [] }
        : measure(context, { ...input, reference, loss, claim: amount });
    return [{ phase, window, mol_lost, ...measured }];
  });
}

interface Claim extends AmountInput {
  reference: Reference;
  loss: Loss;
  claim: Amount;
}

/** What a correction adds to the loss of the window. */
interface Correction {
  parts: IndexPart[];
  /** Uncertainty of assumed factors. */
  terms: Term[];
  flags: Flag[];
  missing?: string;
}

function measure(context: BudgetContext, input: Claim): { amount: Measured; flags: Flag[] } {
  const { loss, claim, reference } = input;
  const { name: window } = loss.window;
  const { factor } = phasePerGas(claim);
  const index = indexer(context, input);
  const correction = isAh3(claim)
    ? withoutHydroxyl(input, { factor, index })
    : isPortlandite(claim)
      ? withCarbonate(input, index)
      : nothing;
  const { flags, missing } = correction;
  if (missing !== undefined) return { amount: { missing }, flags };
  const parts = [{ factor, index: index(loss), loss: loss.step }, ...correction.parts];
  const amount = withTerms(combineIndices(context, parts, reference), correction.terms);
  return { amount, flags: [...flags, ...belowDetection(amount, { what: claim.phase, window })] };
}

const nothing: Correction = { parts: [], terms: [], flags: [] };
const isAh3 = ({ phase }: Amount): boolean => phase === "ah3" || phase === "AH3";
const isPortlandite = ({ phase }: Amount): boolean => phase === "portlandite" || phase === "CH";

function indexer(context: BudgetContext, { reference, stepIndex }: Claim): (loss: Loss) => Measured {
  return (loss) =>
    stepIndex?.(loss) ??
    measureIndex(context, { window: loss.window, rule: "step", loss: loss.step, peak: null, reference, bracket: null });
}

function withoutHydroxyl(
  { losses, loss, corrections }: Claim,
  { factor, index }: { factor: number; index: (loss: Loss) => Measured },
): Correction {
  const { name: window } = loss.window;
  const { hydroxyl } = corrections;
  if (hydroxyl?.window !== window) {
    const sentence = `All of the loss in ${window} was taken for AH3; hydroxyl water of AFt and AFm leaves there too and can double it.`;
    return { ...nothing, flags: [flag("hydroxyl-uncorrected", sentence, window)] };
  }
  const { parts, flags } = hydroxylParts(losses, hydroxyl);
  if (parts === null) return { ...nothing, flags, missing: "hydroxyl-refused" };
  const measured = parts.map((part) => ({ ...part, index: index(part.loss) }));
  return {
    parts: measured.map((part) => ({ factor: -factor * part.factor, index: part.index, loss: part.loss.step })),
    terms: measured.flatMap(({ index, u }) => {
      if ("missing" in index) return [];
      const terms = u.map(({ cause, effect, key }) => ({ cause, effect: -factor * effect * index.value, key }));
      return terms.filter(({ effect }) => effect !== 0);
    }),
    flags,
  };
}

function withCarbonate({ losses, loss, corrections, mix }: Claim, index: (loss: Loss) => Measured): Correction {
  const { name: window } = loss.window;
  if (limeSource(mix) === null) {
    const who = mix === null ? "The run names no mix" : `The mix ${mix.mix} names no lime source`;
    const flags = [flag("no-lime-source", `${who}: the loss in ${window} is not taken for portlandite.`, window)];
    return { ...nothing, flags, missing: "no-lime-source" };
  }
  const { carbonation } = corrections;
  const carbonate = losses.find((other) => other.window.name === carbonation?.carbonate);
  if (carbonation?.window !== window || !carbonate) return nothing;
  // One mole of carbon dioxide was one mole of portlandite.
  const factor = molarMass("Ca(OH)2") / molarMass("CO2");
  const sentence = `All carbon dioxide of ${carbonate.window.name} was counted as carbonated portlandite, that of the binder too; the net amount leaves the binder's out.`;
  return {
    parts: [{ factor, index: index(carbonate), loss: carbonate.step }],
    terms: [],
    flags: [flag("carbonation-counted", sentence, window)],
  };
}

function withTerms(amount: Measured, more: readonly Term[]): Measured {
  if ("missing" in amount || more.length === 0) return amount;
  const terms = addTerms([
    { terms: amount.terms, factor: 1 },
    { terms: more, factor: 1 },
  ]);
  return { value: amount.value, u: combineTerms(terms), terms };
}
