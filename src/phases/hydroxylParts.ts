import { type Flag, flag } from "../flags.ts";
import type { Amount, Loss } from "../losses/types.ts";
import type { HydroxylCorrection } from "./types.ts";

/** Water that is left as hydroxyl in a mole of AFt and of AFm: both hold 12 OH. */
const HYDROXYL = 6;
/** Molecular water in the windows of AFt (Ca6[Al(OH)6]2(SO4)3·26H2O) and of AFm (…·6H2O), where the window names no count. */
const MOLECULAR = { aft: 26, afm: 6 };
/**
 * Defaults. AFt's hydroxyl water leaves in a broad range to about 400 °C, so that half ± 0.3 of it may stand under AH3; AFm's leaves
 * in a stage of its own in the middle of AH3's window, so that all but a tenth does. Judgements, no source.
 */
export const HYDROXYL_SHARES: Required<Pick<HydroxylCorrection, "k" | "u_k" | "k_afm" | "u_k_afm">> = {
  k: 0.5,
  u_k: 0.3,
  k_afm: 1,
  u_k_afm: 0.1,
};

/** One loss that is taken off the loss of AH3's window. */
export interface HydroxylPart {
  loss: Loss;
  /** Times this. */
  factor: number;
  /** Standard uncertainties of the factor, signed, with the key of their cause: the same error in all runs. */
  u: { cause: string; effect: number; key: string }[];
}

/**
 * What the hydroxyl water of AFt and AFm takes off AH3's window: k·6/26 of AFt's loss (26 mol) and 6/6 of the loss in AFm's
 * lower window (6 mol), by the windows' own mole counts where they carry one. Needs AFt and AFm apart, or AFm's share stated.
 *
 * @returns The parts, and flags; null and a serious flag where it cannot be told.
 */
export function hydroxylParts(
  losses: readonly Loss[],
  correction: HydroxylCorrection,
): { parts: HydroxylPart[] | null; flags: Flag[] } {
  const { window, k, u_k, k_afm, u_k_afm } = { ...HYDROXYL_SHARES, ...correction };
  const find = (name: string | undefined) => losses.find((loss) => loss.window.name === name);
  const refused = (why: string) => ({
    parts: null,
    flags: [flag("hydroxyl-refused", `The hydroxyl water under ${window} cannot be taken off: ${why}.`, window)],
  });
  const ofAft = { cause: "hydroxyl water of AFt", key: "hydroxyl:k" };
  const ofAfm = { cause: "hydroxyl water of AFm", key: "hydroxyl:k-afm" };
  const done = flag(
    "hydroxyl-corrected",
    `Hydroxyl water of AFt (share ${k} ± ${u_k}) and of AFm (share ${k_afm} ± ${u_k_afm}) was taken off.`,
    window,
  );

  if (correction.aft_afm !== undefined) {
    const { aft_afm, afm_share: share = 0, u_afm_share = 0 } = correction;
    const both = find(aft_afm);
    if (!both) return refused(`there is no window ${aft_afm}`);
    const aft = (k * HYDROXYL) / MOLECULAR.aft;
    const afm = (k_afm * HYDROXYL) / MOLECULAR.afm;
    const u = [
      { ...ofAft, effect: ((1 - share) * u_k * HYDROXYL) / MOLECULAR.aft },
      { ...ofAfm, effect: (share * u_k_afm * HYDROXYL) / MOLECULAR.afm },
      { cause: "share of AFm", effect: (afm - aft) * u_afm_share, key: "hydroxyl:afm-share" },
    ];
    return { parts: [{ loss: both, factor: (1 - share) * aft + share * afm, u }], flags: [done] };
  }
  const aft = find(correction.aft);
  const afm = find(correction.afm);
  if (!aft || !afm) {
    return refused(`AFt and AFm are not parted into ${correction.aft} and ${correction.afm} in this campaign`);
  }
  const flags = [done];
  if (afm.peak === null && !("missing" in afm.step)) {
    const sentence = `The window ${afm.window.name} has no DTG maximum of its own: what is counted as AFm there may be a tail of AFt.`;
    flags.push(flag("afm-unproven", sentence, window));
  }
  const waters = { aft: molesOf(aft.window.amount, MOLECULAR.aft), afm: molesOf(afm.window.amount, MOLECULAR.afm) };
  return {
    parts: [
      {
        loss: aft,
        factor: (k * HYDROXYL) / waters.aft,
        u: [{ ...ofAft, effect: (u_k * HYDROXYL) / waters.aft }],
      },
      {
        loss: afm,
        factor: (k_afm * HYDROXYL) / waters.afm,
        u: [{ ...ofAfm, effect: (u_k_afm * HYDROXYL) / waters.afm }],
      },
    ],
    flags,
  };
}

function molesOf(amount: Amount | undefined, otherwise: number): number {
  return amount?.mol_lost ?? otherwise;
}
