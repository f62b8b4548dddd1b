import { molarMass } from "./molarMass.ts";
import { shorthandComposition } from "./shorthandComposition.ts";

/** What ye'elimite and calcium sulfate give, g in the unit of the inputs (for instance per 100 g of binder). */
export interface YeelimiteHydrates {
  ettringite: number;
  monosulfate: number;
  ah3: number;
  /** Ye'elimite that has not reacted. */
  yeelimite: number;
  /** Water taken up beside that of the sulfate. */
  water: number;
  /** Calcium sulfate left over, by its shorthand as it was put in. */
  sulfates: { gypsum: number; bassanite: number; anhydrite: number };
}

/** Sulfate sources and progress for {@link yeelimiteHydrates}. */
export interface YeelimiteOptions {
  /** g, @default 0 each */
  gypsum?: number;
  bassanite?: number;
  anhydrite?: number;
  /** Share of the ye'elimite that has reacted, 0…1. @default 1 */
  reacted?: number;
}

/**
 * Hydrates of ye'elimite at a given degree of reaction: with x mol of calcium sulfate per mol that has reacted, x/2 mol of
 * ettringite and 1 − x/2 mol of monosulfate (0 ≤ x ≤ 2, reactions R1–R4), always 2 mol of AH3. Sulfate goes into
 * ettringite first, so that monosulfate forms once the sulfate is used up; what is left over beyond x = 2 stays, and every
 * source is used in proportion.
 *
 * @param yeelimite Mass of ye'elimite before hydration, g.
 * @throws {RangeError} A negative mass or a share outside 0…1.
 *
 * @example
 * ```ts
 * import { yeelimiteHydrates } from "tg-hydrates";
 * const { ettringite, ah3 } = yeelimiteHydrates(56, { gypsum: 20 });
 * if (ettringite.toFixed(3) !== "72.900" || ah3.toFixed(3) !== "28.632") throw new Error("all sulfate is in ettringite");
 * ```
 */
export function yeelimiteHydrates(yeelimite: number, options: YeelimiteOptions = {}): YeelimiteHydrates {
  const { gypsum = 0, bassanite = 0, anhydrite = 0, reacted = 1 } = options;
  for (const [name, mass] of Object.entries({ yeelimite, gypsum, bassanite, anhydrite })) {
    if (!(mass >= 0 && Number.isFinite(mass)))
      throw new RangeError(`Give a mass of zero or more for ${name}, not ${mass}`);
  }
  if (!(reacted >= 0 && reacted <= 1)) throw new RangeError(`Give a share between 0 and 1 at reacted, not ${reacted}`);

  const moles = (mass: number, shorthand: string) => mass / molarMass(shorthandComposition(shorthand));
  const grams = (amount: number, shorthand: string) => amount * molarMass(shorthandComposition(shorthand));
  const yeelimiteMoles = moles(yeelimite, "C4A3$") * reacted;
  const supplied = {
    gypsum: moles(gypsum, "C$H2"),
    bassanite: moles(bassanite, "C$H0.5"),
    anhydrite: moles(anhydrite, "C$"),
  };
  const sulfate = supplied.gypsum + supplied.bassanite + supplied.anhydrite;
  const used = Math.min(sulfate, 2 * yeelimiteMoles);
  const share = sulfate === 0 ? 0 : used / sulfate;

  const ettringite = used / 2;
  const monosulfate = yeelimiteMoles - ettringite;
  const ah3 = 2 * yeelimiteMoles;
  const bound = 32 * ettringite + 12 * monosulfate + 3 * ah3;
  const brought = share * (2 * supplied.gypsum + 0.5 * supplied.bassanite);
  return {
    ettringite: grams(ettringite, "C6A$3H32"),
    monosulfate: grams(monosulfate, "C4A$H12"),
    ah3: grams(ah3, "AH3"),
    yeelimite: yeelimite * (1 - reacted),
    water: grams(bound - brought, "H"),
    sulfates: {
      gypsum: gypsum * (1 - share),
      bassanite: bassanite * (1 - share),
      anhydrite: anhydrite * (1 - share),
    },
  };
}
