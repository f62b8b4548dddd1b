import { HYDROXYL_SHARES } from "../../phases/hydroxylParts.ts";
import type { SettledProtocol } from "../../protocol/types.ts";

/** From losses to amounts: mole counts and corrections, in words for a paper; empty where the protocol has no amount. */
export function correctionWords({ windows, corrections = {} }: SettledProtocol): string {
  const { hydroxyl, carbonation } = corrections;
  if (!windows.some(({ amount }) => amount) && !hydroxyl && !carbonation) return "";
  const sentences = [
    "Amounts of phases follow from the losses by stoichiometry, with the mole counts stated for the windows.",
  ];
  if (hydroxyl) {
    const {
      window,
      aft,
      afm,
      aft_afm,
      afm_share = 0,
      u_afm_share = 0,
      k,
      u_k,
      k_afm,
      u_k_afm,
    } = {
      ...HYDROXYL_SHARES,
      ...hydroxyl,
    };
    const from =
      aft_afm === undefined
        ? `by the losses of ${aft ?? "AFt"} and ${afm ?? "AFm"}`
        : `by the loss of ${aft_afm}, of which a share of ${afm_share} ± ${u_afm_share} was taken for AFm`;
    sentences.push(
      `Hydroxyl water of AFt and AFm was taken off the loss of ${window}, ${from}; shares of their six hydroxyl waters per mol that leave there: ${k} ± ${u_k} for AFt, ${k_afm} ± ${u_k_afm} for AFm (standard uncertainties; judgements, not measured).`,
    );
  } else {
    sentences.push("No hydroxyl water of AFt and AFm was taken off.");
  }
  sentences.push(
    carbonation
      ? `Carbon dioxide of ${carbonation.carbonate} was counted as carbonated lime and added to ${carbonation.window}.`
      : "Carbon dioxide was not converted to portlandite.",
  );
  return sentences.join(" ");
}
