import { molarMass } from "../chemistry/molarMass.ts";
import { reactionMasses } from "../chemistry/reactionMasses.ts";
import { shorthandComposition } from "../chemistry/shorthandComposition.ts";
import { type Flag, flag } from "../flags.ts";
import { binderMaxima } from "./binderMaxima.ts";
import { exceededSentence } from "./exceededSentence.ts";
import type {
  AmountsGiven,
  BinderMaxima,
  Exceeded,
  HydrateBounds,
  Plausibility,
  PlausibilityBasis,
} from "./plausibilityTypes.ts";
import type { Mix } from "./types.ts";

/** Two-sided 95 % of a normal distribution. */
const Z = 1.96;

/**
 * Holds measured amounts against what the binder can give: maxima by reactions R1–R7, the degree of reaction of ye'elimite from
 * AH3 (2 mol per mol whatever the sulfate, R1–R4), the ratio of AH3 to ettringite, and the mixing water.
 *
 * The degree is a range. It widens, and is called invalid as a measure, where AH3 does not tell: belite can take it up
 * (strätlingite, R7), lime lets ye'elimite react without it (R5), carbonation of ettringite makes more (R12), other
 * aluminates make their own.
 *
 * @param mix A row of the mix table with the binder's composition and w_b.
 * @param amounts g per 100 g of the basis.
 * @param options `basis` of the amounts, @default "ignited"; `carbonated`: carbonation was found, @default false
 * @returns null where the mix table does not tell the composition of the binder, or for the basis `paste` w_b.
 *
 * @example
 * ```ts
 * import { parseMixes, plausibility } from "tg-hydrates";
 * const { rows } = parseMixes("mix,w_b,yeelimite_pct,gypsum_pct\nM,0.5,56,20\n", { name: "mixes.csv" });
 * const found = plausibility(rows[0]!, { ettringite: { value: 80, u: 1 }, ah3: { value: 25, u: 1 } })!;
 * if (found.flags[0]!.code !== "above-maximum") throw new Error("76.084 g are the most that 20 % of gypsum allow");
 * ```
 */
export function plausibility(
  mix: Mix,
  amounts: AmountsGiven,
  options: { basis?: PlausibilityBasis; carbonated?: boolean } = {},
): Plausibility | null {
  const { basis = "ignited", carbonated = false } = options;
  const binder = binderMaxima(mix);
  if (binder === null) return null;
  if (basis === "paste" && mix.w_b === null) return null;
  const scale = { ignited: 100 / binder.ignited_g, binder: 1, paste: 1 / (1 + (mix.w_b ?? 0)) }[basis];
  const maxima = eachBound((quantity) => times(binder.at_most[quantity], scale));
  const complete = eachBound((quantity) => binder.complete[quantity] * scale);
  const exceeded = findExceeded(amounts, maxima);
  const yeelimite_reacted = reactedShare(amounts, { binder, scale, carbonated });
  const ah3_per_ettringite = ratioOf(amounts, binder);
  return {
    mix: mix.mix,
    basis,
    by: binder.by,
    sulfate_per_yeelimite: binder.sulfate_per_yeelimite,
    maxima,
    complete,
    exceeded,
    yeelimite_reacted,
    ah3_per_ettringite,
    water: binder.water,
    flags: [
      ...exceeded.map((one) => flag("above-maximum", exceededSentence(one, basis))),
      ...degreeFlags(yeelimite_reacted),
      ...ratioFlags(ah3_per_ettringite, amounts),
      ...waterFlags(mix, binder),
    ],
  };
}

function eachBound<T>(of: (quantity: keyof HydrateBounds) => T): Record<keyof HydrateBounds, T> {
  return {
    ettringite: of("ettringite"),
    monosulfate: of("monosulfate"),
    ah3: of("ah3"),
    straetlingite: of("straetlingite"),
    bound_water: of("bound_water"),
  };
}

function times(value: number | null, factor: number): number | null {
  return value === null ? null : value * factor;
}

function findExceeded(amounts: AmountsGiven, maxima: HydrateBounds): Exceeded[] {
  return (Object.keys(maxima) as (keyof HydrateBounds)[]).flatMap((quantity) => {
    const given = amounts[quantity];
    const maximum = maxima[quantity];
    if (given === undefined || maximum === null || given.value <= maximum) return [];
    return [{ quantity, value: given.value, u: given.u, maximum }];
  });
}

function reactedShare(
  amounts: AmountsGiven,
  { binder, scale, carbonated }: { binder: BinderMaxima; scale: number; carbonated: boolean },
): Plausibility["yeelimite_reacted"] {
  const { ah3, straetlingite } = amounts;
  if (ah3 === undefined || binder.yeelimite_pct === 0) return null;
  const whole = binder.complete.ah3 * scale;
  const spread = Z * (ah3.u ?? 0);
  let low = ah3.value - spread;
  let high = ah3.value + spread;
  const reasons: string[] = [];
  if (binder.belite_pct > 0 || (straetlingite?.value ?? 0) > 0) {
    const { left, right } = reactionMasses("R7", "C2S");
    // What all belite could take, or what the strätlingite found has taken, whichever is more.
    const found = Math.max(straetlingite?.value ?? 0, 0) * (left.AH3! / right.C2ASH8!);
    const most = Math.max(binder.belite_pct * left.AH3! * scale, found);
    high += most;
    reasons.push(
      `belite (${binder.belite_pct.toFixed(1)} %) may have taken up ${most.toFixed(1)} g of AH3 as strätlingite (R7)`,
    );
  }
  const limes = binder.beside.filter((part) => ["lime", "portlandite", "alite", "portlandCement"].includes(part));
  if (limes.length > 0) {
    high = whole;
    reasons.push(`with lime (${limes.join(", ")}) ye'elimite reacts without AH3 (R5)`);
  }
  const others = binder.beside.filter((part) => !limes.includes(part) && part !== "limestone");
  if (others.length > 0) {
    low -= (binder.at_most.ah3 === null ? whole : binder.at_most.ah3 * scale) - whole;
    reasons.push(`other aluminates (${others.join(", ")}) give hydrates and AH3 of their own`);
  }
  if (carbonated) {
    // R12 gives 1 AH3 per ettringite beside the 2 of its ye'elimite.
    low /= 1.5;
    reasons.push("carbonation of ettringite makes AH3 (R12)");
  }
  const share = (mass: number) => Math.min(Math.max(mass / whole, 0), 1);
  return { low: share(low), high: Math.max(share(high), share(low)), valid: reasons.length === 0, reasons };
}

function ratioOf({ ah3, ettringite }: AmountsGiven, binder: BinderMaxima): Plausibility["ah3_per_ettringite"] {
  if (ah3 === undefined || ettringite === undefined || !(ettringite.value > 0)) return null;
  const { complete } = binder;
  return {
    measured: ah3.value / ettringite.value,
    theory_low: (2 * molarMass(shorthandComposition("AH3"))) / molarMass(shorthandComposition("C6A$3H32")),
    theory_high: complete.ettringite === 0 ? null : complete.ah3 / complete.ettringite,
  };
}

function degreeFlags(reacted: Plausibility["yeelimite_reacted"]): Flag[] {
  if (reacted === null || reacted.valid) return [];
  const percent = (share: number) => (100 * share).toFixed(0);
  const sentence = `AH3 does not tell the degree of reaction of ye'elimite (between ${percent(reacted.low)} and ${percent(reacted.high)} %): ${reacted.reasons.join("; ")}.`;
  return [flag("degree-invalid", sentence)];
}

function ratioFlags(ratio: Plausibility["ah3_per_ettringite"], { ah3, ettringite }: AmountsGiven): Flag[] {
  if (ratio === null || !ah3 || !ettringite) return [];
  const { measured, theory_low, theory_high } = ratio;
  // As of independent amounts (JCGM 100:2008, 5.1.2); they share the ignited mass, so this is rather too much.
  const u = Math.hypot(ah3.u ?? 0, measured * (ettringite.u ?? 0)) / ettringite.value;
  const range = `${theory_low.toFixed(3)} to ${theory_high === null ? "any" : theory_high.toFixed(3)}`;
  const sentence = (word: string) =>
    `AH3 to ettringite is ${measured.toFixed(3)} by mass, ${word} theory (${range}) by more than its uncertainty.`;
  if (measured + Z * u < theory_low) return [flag("ratio-unexpected", sentence("below"))];
  if (theory_high !== null && measured - Z * u > theory_high) return [flag("ratio-unexpected", sentence("above"))];
  return [];
}

function waterFlags(mix: Mix, { water }: BinderMaxima): Flag[] {
  const { needed, w_b, reacted_at_most } = water;
  if (w_b === null || reacted_at_most === null || reacted_at_most >= 1) return [];
  const sentence = `The mix ${mix.mix} has w/b ${w_b}, and complete hydration of its ye'elimite takes up ${needed.toFixed(3)}: the mixing water alone hydrates at most ${(100 * reacted_at_most).toFixed(0)} %.`;
  return [flag("water-limited", sentence)];
}
