import { molarMass } from "../chemistry/molarMass.ts";
import type { PhaseName } from "../chemistry/phases.ts";
import { theoreticalLosses } from "../chemistry/theoreticalLosses.ts";
import { placeReaction } from "./placeReaction.ts";
import type { Reaction } from "./types.ts";

/** Phases of a dried specimen, g each in any common unit; `inert` loses nothing, `adsorbed-water` everything. */
export type PhaseAmounts = Partial<Record<PhaseName | "inert" | "adsorbed-water", number>>;

/** A step in which a phase loses mol of water or carbon dioxide. */
interface Stage {
  water?: number;
  co2?: number;
  peak_C: number;
  /** Full width at half height, °C. */
  width_C: number;
}

/**
 * Where each phase loses its mass at 10 K/min. Mole counts of ettringite: 24 in a sharp and 6 in a broad later stage, after 2
 * that a dried specimen has given up or loses first (Ramachandran et al. 2002, p. 107; Zhang and Glasser 2000); the four
 * peaks of monosulfate (ibid., p. 107). Positions and widths are invented within the ranges that are reported.
 */
const stages: Partial<Record<PhaseName | "adsorbed-water", readonly Stage[]>> = {
  "adsorbed-water": [{ water: 1, peak_C: 72, width_C: 45 }],
  ettringite: [
    { water: 2, peak_C: 88, width_C: 40 },
    { water: 24, peak_C: 113, width_C: 40 },
    { water: 6, peak_C: 215, width_C: 120 },
  ],
  monosulfate: [
    { water: 2, peak_C: 125, width_C: 40 },
    { water: 4, peak_C: 188, width_C: 44 },
    { water: 3, peak_C: 225, width_C: 60 },
    { water: 3, peak_C: 290, width_C: 60 },
  ],
  ah3: [
    { water: 2.75, peak_C: 268, width_C: 42 },
    { water: 0.25, peak_C: 510, width_C: 80 },
  ],
  gypsum: [
    { water: 1.5, peak_C: 138, width_C: 26 },
    { water: 0.5, peak_C: 160, width_C: 32 },
  ],
  "c-s-h": [
    { water: 1.2, peak_C: 140, width_C: 150 },
    { water: 0.6, peak_C: 330, width_C: 260 },
  ],
  portlandite: [{ water: 1, peak_C: 445, width_C: 36 }],
  calcite: [{ co2: 1, peak_C: 715, width_C: 72 }],
};

/**
 * Reactions of a specimen made of known phases, for the forward model: losses in % of the whole.
 *
 * @param amounts Phases by mass. A phase that loses nothing below 1000 °C counts as part of the whole.
 * @throws {RangeError} Nothing at all, or a hydrate whose stages are not known.
 */
export function phaseReactions(amounts: PhaseAmounts): Reaction[] {
  const present = Object.entries(amounts) as [keyof PhaseAmounts, number][];
  const whole = present.reduce((sum, [, mass]) => sum + mass, 0);
  if (!(whole > 0)) throw new RangeError("A specimen needs at least one phase");
  const reactions: Reaction[] = [];
  for (const [phase, mass] of present) {
    if (mass === 0 || phase === "inert") continue;
    const losses = phase === "adsorbed-water" ? null : theoreticalLosses(phase);
    if (losses !== null && losses.totalPct === 0) continue;
    const known = stages[phase];
    if (known === undefined) throw new RangeError(`The stages of ${phase} are not known`);
    for (const { water = 0, co2 = 0, peak_C, width_C } of known) {
      const share = losses === null ? water : (water * molarMass("H2O") + co2 * molarMass("CO2")) / losses.molarMass;
      const loss_pct = (100 * mass * share) / whole;
      const gas = co2 > 0 ? `${co2} CO2` : `${water} H2O`;
      reactions.push({ ...kinetics(peak_C, width_C), name: `${phase}, ${gas}`, loss_pct });
    }
  }
  return reactions;
}

/** Kinetics of the stages, worked out once: they do not depend on the amount. */
const placed = new Map<string, Reaction>();

function kinetics(peak_C: number, width_C: number): Reaction {
  const key = `${peak_C} ${width_C}`;
  const known = placed.get(key) ?? placeReaction({ loss_pct: 0, peak_C, width_C });
  placed.set(key, known);
  return known;
}
