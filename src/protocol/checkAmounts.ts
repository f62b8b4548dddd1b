import { parseShorthand } from "../chemistry/parseShorthand.ts";
import { type PhaseName, phases } from "../chemistry/phases.ts";
import type { Amount, Window } from "../losses/types.ts";
import { nearestName } from "../nearestName.ts";
import { phasePerGas } from "../phases/phasePerGas.ts";
import type { Protocol } from "./types.ts";

/** A window, or a part that settling will make of one, with its place in the document. */
interface Claimant extends Pick<Window, "name" | "rule" | "from_C" | "to_C"> {
  at: string;
  amount: Amount | undefined;
  /** How far settling may move each edge, °C. */
  from_by: number;
  to_by: number;
}

/**
 * What is wrong with the amounts and corrections of a protocol: an amount needs the rule `step`, one phase per window and one window
 * per phase, whatever its state of hydration; corrections must name windows that can carry them.
 *
 * @returns One sentence per problem.
 */
export function checkAmounts(protocol: Protocol): string[] {
  const claimants = claimantsOf(protocol);
  const claims = claimants.filter((one): one is Claimant & { amount: Amount } => one.amount !== undefined);
  return [...claims.flatMap(checkClaim), ...checkRivals(claims), ...checkCorrections(protocol, claimants)];
}

function claimantsOf({ windows }: Protocol): Claimant[] {
  return windows.flatMap((window, i): Claimant[] => {
    const at = `windows[${i}] (${window.name})`;
    const { resolve, ...rest } = window;
    const by = window.placement?.tolerance_C ?? 0;
    const whole = { ...rest, at, amount: window.amount, from_by: by, to_by: by };
    if (!resolve) return [whole];
    const [low, high] = resolve.between_C;
    const [lower, upper] = resolve.into;
    const of = (part: number) => ({ rule: "step" as const, at, amount: resolve.amounts?.[part] });
    return [
      whole,
      // Where they part is not known yet: somewhere between low and high.
      { ...of(0), name: lower, from_C: window.from_C, to_C: low, from_by: by, to_by: 0 },
      { ...of(1), name: upper, from_C: high, to_C: window.to_C, from_by: 0, to_by: by },
    ];
  });
}

function checkClaim({ at, name, rule, amount }: Claimant & { amount: Amount }): string[] {
  const field = at.endsWith(`(${name})`) ? `${at}: amount` : `${at}: amount of the part ${name}`;
  if (rule !== "step") {
    return [
      `${field} needs the rule step, not ${rule}: ${rule} takes part of the peak itself away (an isolated AH3 peak loses 13–17 %), so it compares runs but is no amount`,
    ];
  }
  if (!isPhase(amount.phase)) {
    const nearest = nearestName(amount.phase, Object.keys(phases));
    const help = nearest === null ? "" : `did you mean ${nearest}? Otherwise `;
    return [
      `${field}.phase: there is no phase ${JSON.stringify(amount.phase)}: ${help}write it in cement shorthand (C6A$3H32)`,
    ];
  }
  try {
    phasePerGas(amount);
    return [];
  } catch (error) {
    return [`${field}: ${(error as Error).message}`];
  }
}

function checkRivals(claims: readonly (Claimant & { amount: Amount })[]): string[] {
  return claims.flatMap((claim, i) =>
    claims.slice(0, i).flatMap((before) => {
      const same = isPhase(claim.amount.phase) && isPhase(before.amount.phase) && skeleton(claim) === skeleton(before);
      if (same) {
        return [
          `${claim.at}: ${claim.amount.phase} is claimed by the window ${before.name} already${claim.amount.phase === before.amount.phase ? "" : ` (as ${before.amount.phase})`}: one window per phase`,
        ];
      }
      const twice = `so that one loss would be counted for ${before.amount.phase} and for ${claim.amount.phase}`;
      if (overlap(before, claim)) {
        return [`${claim.at}: the windows ${before.name} and ${claim.name} overlap, ${twice}`];
      }
      return mayOverlap(before, claim) ? [`${claim.at}: ${mayOverlapText(before, claim)}, ${twice}: ${APART}`] : [];
    }),
  );
}

/** What is to be done about windows that only settling would push over one another. */
const APART = "let them touch and give both the same placement, or lower tolerance_C, or leave placement out of both";

type Range = Pick<Claimant, "name" | "from_C" | "to_C" | "from_by" | "to_by">;

function overlap(a: Range, b: Range): boolean {
  return a.from_C < b.to_C && b.from_C < a.to_C;
}

/** Whether shared placement can push two windows over one another. An edge that both have moves for both alike. */
function mayOverlap(a: Range, b: Range): boolean {
  const [low, high] = a.from_C < b.from_C ? [a, b] : [b, a];
  if (low.to_C === high.from_C && low.to_by === high.from_by) return false;
  return low.to_C + low.to_by > high.from_C - high.from_by;
}

function mayOverlapText(a: Range, b: Range): string {
  const [low, high] = a.from_C < b.from_C ? [a, b] : [b, a];
  return `by their placement ${low.name} may reach up to ${low.to_C + low.to_by} °C and ${high.name} down to ${high.from_C - high.from_by} °C`;
}

/** What a phase is without its water: ettringite and metaettringite are one, calcite and portlandite are not. */
function skeleton({ amount }: { amount: Amount }): string {
  const { H: _, ...rest } = parseShorthand(shorthandOf(amount.phase));
  return JSON.stringify(Object.entries(rest).sort(([a], [b]) => (a < b ? -1 : 1)));
}

function shorthandOf(phase: string): string {
  return Object.hasOwn(phases, phase) ? phases[phase as PhaseName].shorthand : phase;
}

function isPhase(phase: string): boolean {
  try {
    return Object.keys(parseShorthand(shorthandOf(phase))).length > 0;
  } catch {
    return false;
  }
}

function checkCorrections({ corrections, settled }: Protocol, claimants: readonly Claimant[]): string[] {
  if (corrections === undefined) return [];
  const problems: string[] = [];
  // Where settling found no minimum, the parts are not there: every run says so, and the document stands.
  const unresolved = settled?.resolved?.some(({ at_C }) => at_C === null) ?? false;
  const stepWindow = (field: string, name: string, options: { phase?: string; mayLack?: boolean } = {}) => {
    const found = claimants.find((one) => one.name === name);
    if (!found) {
      if (options.mayLack && unresolved) return;
      const nearest = nearestName(
        name,
        claimants.map((one) => one.name),
      );
      problems.push(`${field}: there is no window ${name}${nearest === null ? "" : `: did you mean ${nearest}?`}`);
    } else if (found.rule !== "step") {
      problems.push(`${field}: the window ${name} needs the rule step, not ${found.rule}`);
    } else if (
      options.phase !== undefined &&
      skeletonOf(found) !== skeletonOf({ amount: { phase: options.phase, mol_lost: 1 } })
    ) {
      problems.push(`${field}: the window ${name} needs an amount of ${options.phase}`);
    }
  };
  const { hydroxyl, carbonation } = corrections;
  if (hydroxyl) {
    const at = "corrections.hydroxyl";
    const { window, aft, afm, aft_afm, afm_share } = hydroxyl;
    stepWindow(`${at}.window`, window, { phase: "ah3" });
    const apart = aft !== undefined && afm !== undefined;
    const together = aft_afm !== undefined && afm_share !== undefined;
    const mixed = (aft ?? afm) !== undefined && (aft_afm ?? afm_share) !== undefined;
    if (mixed || apart === together) {
      problems.push(
        `${at}: name AFt and AFm apart (aft and afm), or their common window with the share of AFm in its loss (aft_afm and afm_share): without one of them the correction cannot be told`,
      );
    }
    if (aft !== undefined) stepWindow(`${at}.aft`, aft, { mayLack: true });
    if (afm !== undefined) stepWindow(`${at}.afm`, afm, { mayLack: true });
    if (aft_afm !== undefined) stepWindow(`${at}.aft_afm`, aft_afm);
    for (const name of [aft, afm, aft_afm]) {
      const other = claimants.find((one) => one.name === name);
      const own = claimants.find((one) => one.name === window);
      if (!other || !own) continue;
      if (other === own || overlap(other, own)) {
        problems.push(`${at}: the windows ${window} and ${name} must not overlap`);
      } else if (mayOverlap(other, own)) {
        problems.push(`${at}: the windows must not overlap, and ${mayOverlapText(other, own)}: ${APART}`);
      }
    }
  }
  if (carbonation) {
    const at = "corrections.carbonation";
    stepWindow(`${at}.window`, carbonation.window, { phase: "portlandite" });
    stepWindow(`${at}.carbonate`, carbonation.carbonate, { phase: "calcite" });
  }
  return problems;
}

function skeletonOf({ amount }: { amount: Amount | undefined }): string | null {
  return amount !== undefined && isPhase(amount.phase) ? skeleton({ amount }) : null;
}
