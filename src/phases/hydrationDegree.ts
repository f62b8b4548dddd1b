import { molarMass } from "../chemistry/molarMass.ts";

/** Losses in g per 100 g of one reference mass. */
export interface HydrationLosses {
  /** Dehydration, about 105–430 °C. */
  dehydration: number;
  /** Dehydroxylation of portlandite, about 430–530 °C. */
  dehydroxylation: number;
  /** Decarbonation, about 530–1000 °C. */
  decarbonation: number;
}

/** Options of {@link hydrationDegree}. */
export interface HydrationOptions {
  /** Bound water at full hydration, g per g. @default 0.24, of Portland cement */
  ultimate?: number;
  /** g of water per g of carbon dioxide of carbonated portlandite. @default M(H2O)/M(CO2) = 0.40935; 0.41 is in use */
  waterPerCo2?: number;
  /** Decarbonation of the anhydrous binder, same reference. @default 0 */
  binderDecarbonation?: number;
}

/**
 * Chemically bound water and degree of hydration by the sum of three losses, the water of carbonated portlandite counted back
 * from its carbon dioxide (form as in Bhatty, Thermochim Acta 106:93–103, 1986). For Portland cement: the ultimate water of
 * calcium sulfoaluminate cement is 0.53–0.78 and follows from its sulfate (`binderMaxima`).
 *
 * @param losses g per 100 g of one reference mass.
 * @returns Bound water, g per 100 g of it, and the degree as a share (0…1, above 1 where the ultimate water is too small).
 * @throws {RangeError} An ultimate water that is not above zero.
 *
 * @example
 * ```ts
 * import { hydrationDegree } from "tg-hydrates";
 * const { degree } = hydrationDegree({ dehydration: 8, dehydroxylation: 3.5, decarbonation: 2 });
 * if (Math.abs(degree - 0.5133) > 1e-4) throw new Error("12.319 g of 24 g");
 * ```
 */
export function hydrationDegree(
  losses: HydrationLosses,
  options: HydrationOptions = {},
): { boundWater: number; degree: number } {
  const { dehydration, dehydroxylation, decarbonation } = losses;
  const { ultimate = 0.24, waterPerCo2 = molarMass("H2O") / molarMass("CO2"), binderDecarbonation = 0 } = options;
  if (!(ultimate > 0)) throw new RangeError(`Give an ultimate bound water above 0 g per g, not ${ultimate}`);
  const boundWater = dehydration + dehydroxylation + waterPerCo2 * (decarbonation - binderDecarbonation);
  return { boundWater, degree: boundWater / (100 * ultimate) };
}
