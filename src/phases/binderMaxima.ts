import { molarMass } from "../chemistry/molarMass.ts";
import { reactionMasses } from "../chemistry/reactionMasses.ts";
import { shorthandComposition } from "../chemistry/shorthandComposition.ts";
import { theoreticalLosses } from "../chemistry/theoreticalLosses.ts";
import { type YeelimiteHydrates, yeelimiteHydrates } from "../chemistry/yeelimiteHydrates.ts";
import { type BinderContents, type BinderPart, binderContents } from "./binderContents.ts";
import type { BinderMaxima, HydrateBounds, HydrateMasses } from "./plausibilityTypes.ts";
import type { Mix } from "./types.ts";

const grams = (moles: number, shorthand: string): number => moles * molarMass(shorthandComposition(shorthand));
const molesOf = (mass: number | undefined, shorthand: string): number =>
  (mass ?? 0) / molarMass(shorthandComposition(shorthand));

/** Aluminates that give hydrates of their own, with the moles of alumina in a mole. */
const aluminates = {
  ferrite: ["C4AF", 1],
  mayenite: ["C12A7", 7],
  calciumAluminate: ["CA", 1],
  tricalciumAluminate: ["C3A", 1],
} as const;
/** With these the sulfate of ye'elimite itself can go into ettringite (R5; R8 for carbonate), and aluminate that gives no AH3. */
const limes = ["lime", "portlandite", "alite", "portlandCement"] as const;

/**
 * What a binder can give at most, by reactions R1–R7, from the mix table: the percentages of ye'elimite, gypsum, bassanite,
 * anhydrite and belite, or the oxides Al2O3 and SO3 (with Fe2O3) of its analysis.
 *
 * `complete` is the assemblage at complete hydration. Monosulfate may stand above its value there while sulfate is still
 * undissolved, so `at_most` bounds it by R1; ettringite is bounded by the sulfate source, or by all sulfate where lime,
 * carbonate or other aluminates stand beside.
 *
 * @returns null where the mix table gives neither ye'elimite nor Al2O3 and SO3.
 *
 * @example
 * ```ts
 * import { binderMaxima, parseMixes } from "tg-hydrates";
 * const { rows } = parseMixes("mix,w_b,yeelimite_pct,belite_pct,gypsum_pct\nM,0.5,56,12,20\n", { name: "mixes.csv" });
 * const { complete } = binderMaxima(rows[0]!)!;
 * if (Math.abs(complete.ettringite - 72.9) > 0.001) throw new Error("72.900 g of ettringite per 100 g of binder");
 * ```
 */
export function binderMaxima(mix: Mix): BinderMaxima | null {
  const contents = binderContents(mix);
  const known = phasesOf(contents);
  if (known === null) return null;
  const { by, parts } = known;
  const { yeelimite = 0, belite = 0, gypsum = 0, bassanite = 0, anhydrite = 0 } = parts;
  const sulfates = { gypsum, bassanite, anhydrite };
  const hydrates = yeelimiteHydrates(yeelimite, sulfates);
  const complete = massesOf(hydrates);
  const sulfate = molesOf(gypsum, "C$H2") + molesOf(bassanite, "C$H0.5") + molesOf(anhydrite, "C$");
  const moles = molesOf(yeelimite, "C4A3$");
  const loi = mix.loi_binder_pct ?? lossOf(parts);
  const ratio = moles === 0 ? 0 : sulfate / moles;
  const beside = [...(Object.keys(aluminates) as (keyof typeof aluminates)[]), ...limes, "limestone" as const].filter(
    (part) => parts[part] !== undefined,
  );
  return {
    by,
    yeelimite_pct: yeelimite,
    belite_pct: belite,
    sulfate_per_yeelimite: ratio,
    ignited_g: 100 - loi,
    complete,
    with_belite: withBelite(complete, belite),
    at_most: bounds({ complete, parts, moles, sulfate }),
    beside,
    water: {
      needed: complete.added_water / 100,
      w_b: mix.w_b,
      reacted_at_most: mix.w_b === null ? null : reactedBy(100 * mix.w_b, { yeelimite, sulfates, ratio }),
    },
  };
}

type Parts = BinderContents["phases"];

function phasesOf({ phases, oxides }: BinderContents): { by: BinderMaxima["by"]; parts: Parts } | null {
  if (phases.yeelimite !== undefined) return { by: "phases", parts: phases };
  const { Al2O3, SO3, Fe2O3 = 0 } = oxides;
  if (Al2O3 === undefined || SO3 === undefined) return null;
  // All iron in ferrite C4AF, all other alumina in ye'elimite as far as sulfate goes, the rest of the sulfate as a source.
  const alumina = Math.max(molesOf(Al2O3, "A") - molesOf(Fe2O3, "F"), 0);
  const sulfate = molesOf(SO3, "$");
  const moles = Math.min(alumina / 3, sulfate);
  const left = sulfate - moles;
  const named = molesOf(phases.gypsum, "C$H2") + molesOf(phases.bassanite, "C$H0.5") + molesOf(phases.anhydrite, "C$");
  const anhydrite = (phases.anhydrite ?? 0) + grams(Math.max(left - named, 0), "C$");
  return { by: "oxides", parts: { ...phases, yeelimite: grams(moles, "C4A3$"), anhydrite } };
}

function massesOf({ ettringite, monosulfate, ah3, water }: YeelimiteHydrates): HydrateMasses {
  const held = { ettringite, monosulfate, ah3, straetlingite: 0 };
  return { ...held, bound_water: waterIn(held), added_water: water };
}

function waterIn(masses: Pick<HydrateMasses, "ettringite" | "monosulfate" | "ah3" | "straetlingite">): number {
  return Object.entries(masses).reduce(
    (sum, [phase, mass]) => sum + (mass * theoreticalLosses(phase).waterPct) / 100,
    0,
  );
}

function withBelite(complete: HydrateMasses, belite: number): HydrateMasses {
  const { left, right } = reactionMasses("R7", "C2S");
  const reacting = Math.min(belite, complete.ah3 / left.AH3!);
  const water = reacting * left.H!;
  return {
    ...complete,
    ah3: complete.ah3 - reacting * left.AH3!,
    straetlingite: reacting * right.C2ASH8!,
    bound_water: complete.bound_water + water,
    added_water: complete.added_water + water,
  };
}

function bounds(of: { complete: HydrateMasses; parts: Parts; moles: number; sulfate: number }): HydrateBounds {
  const { complete, parts, moles, sulfate } = of;
  let alumina = 0;
  for (const [part, [shorthand, count]] of Object.entries(aluminates)) {
    alumina += count * molesOf(parts[part as keyof typeof aluminates], shorthand);
  }
  const lime = limes.some((part) => parts[part] !== undefined);
  // Portland cement brings aluminate and sulfate that nobody has counted.
  const uncounted = parts.portlandCement !== undefined || parts.alite !== undefined;
  const open = lime || alumina > 0 || parts.limestone !== undefined;
  const belite = withBelite(complete, parts.belite ?? 0);
  // An aluminate binds no more than the 32 mol of ettringite per mol of alumina, ye'elimite no more than the 38 of R3.
  const water = open ? grams(38 * moles + 32 * alumina, "H") : complete.bound_water;
  return {
    ettringite: uncounted
      ? null
      : open
        ? grams(Math.min((moles + sulfate) / 3, 3 * moles + alumina), "C6A$3H32")
        : complete.ettringite,
    monosulfate: uncounted ? null : grams(Math.min(moles + (open ? sulfate : 0), 3 * moles + alumina), "C4A$H12"),
    ah3: parts.portlandCement === undefined ? grams(2 * moles + alumina, "AH3") : null,
    straetlingite: belite.straetlingite > 0 || alumina > 0 ? grams(molesOf(parts.belite, "C2S"), "C2ASH8") : 0,
    // Lime binds water and lets more ettringite form: no useful bound.
    bound_water: lime ? null : water + (belite.bound_water - complete.bound_water),
  };
}

/** Loss on ignition of the binder by its named parts, %. */
function lossOf(parts: Parts): number {
  const lose: [BinderPart, string][] = [
    ["gypsum", "gypsum"],
    ["bassanite", "bassanite"],
    ["portlandite", "portlandite"],
    ["limestone", "calcite"],
  ];
  return lose.reduce((sum, [part, phase]) => sum + ((parts[part] ?? 0) * theoreticalLosses(phase).totalPct) / 100, 0);
}

/**
 * Share of the ye'elimite at which its hydration has used up the water. The need grows in two straight lines: until the sulfate is
 * used up (ettringite), and after (monosulfate).
 */
function reactedBy(water: number, of: { yeelimite: number; sulfates: Record<string, number>; ratio: number }): number {
  const { yeelimite, sulfates, ratio } = of;
  const need = (reacted: number) => yeelimiteHydrates(yeelimite, { ...sulfates, reacted }).water;
  const turn = Math.min(ratio / 2, 1);
  const atTurn = need(turn);
  if (water <= atTurn) return atTurn === 0 ? 1 : (turn * water) / atTurn;
  const all = need(1);
  return water >= all ? 1 : turn + ((1 - turn) * (water - atTurn)) / (all - atTurn);
}
