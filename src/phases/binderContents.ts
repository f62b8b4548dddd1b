import type { Mix } from "./types.ts";

/** What the mix table says about a binder, % of the anhydrous binder by mass. */
export interface BinderContents {
  /** Phases and additions by our name. */
  phases: Partial<Record<BinderPart, number>>;
  /** Oxides by formula. */
  oxides: Partial<Record<Oxide, number>>;
  /** Organic additions (polymer, fibres, plasticiser …) by the name of their column. */
  organics: Record<string, number>;
}

/** Part of a binder that hydration or the balance notices. */
export type BinderPart =
  | "yeelimite"
  | "gypsum"
  | "bassanite"
  | "anhydrite"
  | "belite"
  | "ferrite"
  | "mayenite"
  | "calciumAluminate"
  | "tricalciumAluminate"
  | "lime"
  | "portlandite"
  | "alite"
  | "portlandCement"
  | "limestone";
/** Oxide of a binder analysis. */
export type Oxide = "CaO" | "Al2O3" | "SO3" | "SiO2" | "Fe2O3";

/** Columns of the mix table by part, without `_pct`, capitals, blanks and marks. */
const names: Record<BinderPart, readonly string[]> = {
  yeelimite: ["yeelimite", "yelimite", "c4a3s", "kleinscompound"],
  gypsum: ["gypsum", "dihydrate"],
  bassanite: ["bassanite", "hemihydrate"],
  anhydrite: ["anhydrite"],
  belite: ["belite", "c2s", "larnite"],
  ferrite: ["ferrite", "c4af", "brownmillerite"],
  mayenite: ["mayenite", "c12a7"],
  calciumAluminate: ["ca", "krotite", "calciumaluminate", "monocalciumaluminate"],
  tricalciumAluminate: ["c3a", "tricalciumaluminate"],
  lime: ["lime", "freelime", "quicklime", "burntlime"],
  portlandite: ["portlandite", "hydratedlime", "calciumhydroxide"],
  alite: ["alite", "c3s"],
  portlandCement: ["portlandcement", "opc", "portland"],
  limestone: ["limestone", "calcite", "calciumcarbonate", "dolomite"],
};

const oxides: Record<string, Oxide> = { cao: "CaO", al2o3: "Al2O3", so3: "SO3", sio2: "SiO2", fe2o3: "Fe2O3" };
const organic = /polymer|latex|fib(?:re|er)|plasticis|plasticiz|cellulose|starch|defoam|organic|shrinkagereduc/;

/**
 * Reads a row of the mix table: columns named after phases, additions and oxides, in `%` of the anhydrous binder, sulfate source
 * included. Capitals, hyphens, apostrophes and the ending `_pct` do not matter; other columns are left alone.
 */
export function binderContents({ contents, polymer_pct }: Mix): BinderContents {
  const found: BinderContents = { phases: {}, oxides: {}, organics: {} };
  if (polymer_pct !== null && polymer_pct > 0) found.organics.polymer = polymer_pct;
  for (const [column, value] of Object.entries(contents)) {
    if (typeof value !== "number" || !(value > 0)) continue;
    const bare = column
      .toLowerCase()
      .replace(/_pct$/, "")
      .replaceAll(/[^a-z0-9]/g, "");
    const part = parts.get(bare);
    if (part !== undefined) found.phases[part] = (found.phases[part] ?? 0) + value;
    else if (Object.hasOwn(oxides, bare)) found.oxides[oxides[bare]!] = value;
    else if (organic.test(bare)) found.organics[column.replace(/_pct$/i, "")] = value;
  }
  return found;
}

const parts: ReadonlyMap<string, BinderPart> = new Map(
  Object.entries(names).flatMap(([part, spellings]) => spellings.map((name) => [name, part as BinderPart] as const)),
);
