import type { Phase } from "./types.ts";

/** Name of a phase in {@link phases}. */
export type PhaseName =
  | "ettringite"
  | "ettringite-h30"
  | "metaettringite"
  | "monosulfate"
  | "monosulfate-h14"
  | "monosulfate-h10"
  | "hemicarboaluminate"
  | "monocarboaluminate"
  | "hydroxy-afm"
  | "straetlingite"
  | "straetlingite-h7.25"
  | "ah3"
  | "boehmite"
  | "cah10"
  | "c2ah8"
  | "c2ah7.5"
  | "c3ah6"
  | "gypsum"
  | "bassanite"
  | "anhydrite"
  | "c-s-h"
  | "c-s-h-wet"
  | "portlandite"
  | "brucite"
  | "calcite"
  | "dolomite"
  | "magnesite"
  | "thaumasite"
  | "syngenite"
  | "hydrotalcite"
  | "kaolinite"
  | "yeelimite"
  | "belite"
  | "ferrite"
  | "mayenite"
  | "calcium-aluminate"
  | "tricalcium-aluminate"
  | "ternesite"
  | "lime";

/**
 * Phases of calcium sulfoaluminate cement and what may stand beside them. Nominal compositions: a hydrate's water depends
 * on how it was dried, so a mole count is always chosen, never implied.
 */
export const phases: Readonly<Record<PhaseName, Phase>> = {
  ettringite: {
    label: "ettringite (AFt)",
    shorthand: "C6A$3H32",
    note: "Loses 24 mol water in a sharp first stage and 6 mol in a broad second one (Ramachandran et al., Handbook of Thermal Analysis of Construction Materials, 2002, p. 107).",
  },
  "ettringite-h30": {
    label: "ettringite, D-dried",
    shorthand: "C6A$3H30",
    note: "Zhang and Glasser, Adv Cem Res 12(2):79–88 (2000).",
  },
  metaettringite: {
    label: "metaettringite, nominal",
    shorthand: "C6A$3H12",
    note: "Keeps 10–13 mol water (Zhou and Glasser, Cem Concr Res 31:1333–1339, 2001).",
  },
  monosulfate: { label: "monosulfate (AFm)", shorthand: "C4A$H12" },
  "monosulfate-h14": { label: "monosulfate, moist", shorthand: "C4A$H14" },
  "monosulfate-h10": {
    label: "monosulfate, D-dried",
    shorthand: "C4A$H10",
    note: "Zhang and Glasser, Adv Cem Res 12(2):79–88 (2000).",
  },
  hemicarboaluminate: { label: "hemicarboaluminate", shorthand: "C4Ac0.5H12" },
  monocarboaluminate: { label: "monocarboaluminate", shorthand: "C4AcH11" },
  "hydroxy-afm": { label: "hydroxy-AFm", shorthand: "C4AH13" },
  straetlingite: { label: "strätlingite", shorthand: "C2ASH8" },
  "straetlingite-h7.25": {
    label: "strätlingite, 7.25 mol water",
    shorthand: "C2ASH7.25",
    note: "Ca2Al2SiO2(OH)10·2.25H2O (Shevchenko et al., Dalton Trans 2025, d5dt01202c).",
  },
  ah3: { label: "aluminium hydroxide (AH3)", shorthand: "AH3", note: "One mole of AH3 is two of Al(OH)3." },
  boehmite: { label: "boehmite", shorthand: "AH", note: "One mole of AH is two of AlOOH." },
  cah10: { label: "CAH10", shorthand: "CAH10" },
  c2ah8: { label: "C2AH8", shorthand: "C2AH8" },
  "c2ah7.5": { label: "C2AH7.5", shorthand: "C2AH7.5" },
  c3ah6: { label: "hydrogarnet (C3AH6)", shorthand: "C3AH6" },
  gypsum: { label: "gypsum", shorthand: "C$H2" },
  bassanite: { label: "bassanite", shorthand: "C$H0.5" },
  anhydrite: { label: "anhydrite", shorthand: "C$" },
  "c-s-h": { label: "C-S-H, nominal, dried", shorthand: "C1.7SH1.8" },
  "c-s-h-wet": { label: "C-S-H, nominal, moist", shorthand: "C1.7SH4" },
  portlandite: { label: "portlandite", shorthand: "CH" },
  brucite: { label: "brucite", shorthand: "MH" },
  calcite: { label: "calcite", shorthand: "Cc" },
  dolomite: { label: "dolomite", shorthand: "CMc2" },
  magnesite: { label: "magnesite", shorthand: "Mc" },
  thaumasite: { label: "thaumasite", shorthand: "C3S$cH15" },
  syngenite: { label: "syngenite", shorthand: "KC$2H" },
  hydrotalcite: { label: "hydrotalcite-like phase", shorthand: "M4AH10" },
  kaolinite: { label: "kaolinite", shorthand: "AS2H2" },
  yeelimite: { label: "ye'elimite", shorthand: "C4A3$" },
  belite: { label: "belite", shorthand: "C2S" },
  ferrite: { label: "ferrite", shorthand: "C4AF" },
  mayenite: { label: "mayenite", shorthand: "C12A7" },
  "calcium-aluminate": { label: "monocalcium aluminate", shorthand: "CA" },
  "tricalcium-aluminate": { label: "tricalcium aluminate", shorthand: "C3A" },
  ternesite: { label: "ternesite", shorthand: "C5S2$" },
  lime: { label: "free lime", shorthand: "C" },
};
