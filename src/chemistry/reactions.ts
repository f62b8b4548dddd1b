/** A reaction as moles of each participant, in cement shorthand; CO2 is `c`, water `H`. */
export interface HydrationReaction {
  /** What it is. */
  label: string;
  left: Record<string, number>;
  right: Record<string, number>;
}

/** Number of a reaction in {@link reactions}. */
export type ReactionName = "R1" | "R2" | "R3" | "R4" | "R5" | "R6" | "R7" | "R8" | "R9" | "R10" | "R11" | "R12";

/**
 * Hydration, conversion and carbonation of calcium sulfoaluminate cement (forms as in Winnefeld and Lothenbach, Cem
 * Concr Res 2010, doi 10.1016/j.cemconres.2009.08.014, and Glasser and Zhang 2001; R11 Ramachandran et al., Handbook of
 * Thermal Analysis of Construction Materials, 2002, p. 411). A test balances every element of every one.
 */
export const reactions: Readonly<Record<ReactionName, HydrationReaction>> = {
  R1: {
    label: "ye'elimite without sulfate",
    left: { C4A3$: 1, H: 18 },
    right: { C4A$H12: 1, AH3: 2 },
  },
  R2: {
    label: "ye'elimite with gypsum",
    left: { C4A3$: 1, C$H2: 2, H: 34 },
    right: { C6A$3H32: 1, AH3: 2 },
  },
  R3: {
    label: "ye'elimite with anhydrite",
    left: { C4A3$: 1, C$: 2, H: 38 },
    right: { C6A$3H32: 1, AH3: 2 },
  },
  R4: {
    label: "ye'elimite with bassanite",
    left: { C4A3$: 1, "C$H0.5": 2, H: 37 },
    right: { C6A$3H32: 1, AH3: 2 },
  },
  R5: {
    label: "ye'elimite with gypsum and lime: no AH3",
    left: { C4A3$: 1, C$H2: 8, CH: 6, H: 74 },
    right: { C6A$3H32: 3 },
  },
  R6: {
    label: "monosulfate with gypsum",
    left: { C4A$H12: 1, C$H2: 2, H: 16 },
    right: { C6A$3H32: 1 },
  },
  R7: {
    label: "belite with AH3: strätlingite",
    left: { C2S: 1, AH3: 1, H: 5 },
    right: { C2ASH8: 1 },
  },
  R8: {
    label: "ye'elimite with calcite",
    left: { C4A3$: 3, Cc: 2, H: 72 },
    right: { C6A$3H32: 1, C4AcH11: 2, AH3: 6 },
  },
  R9: {
    label: "belite alone, nominal C-S-H",
    left: { C2S: 1, H: 2.1 },
    right: { "C1.7SH1.8": 1, CH: 0.3 },
  },
  R10: {
    label: "ferrite with gypsum, aluminium end member",
    left: { C4AF: 1, C$H2: 3, H: 30 },
    right: { C6A$3H32: 1, CH: 1, FH3: 1 },
  },
  R11: {
    label: "conversion of CAH10",
    left: { CAH10: 3 },
    right: { C3AH6: 1, AH3: 2, H: 18 },
  },
  R12: {
    label: "carbonation of ettringite",
    left: { C6A$3H32: 1, c: 3 },
    right: { Cc: 3, C$H2: 3, AH3: 1, H: 23 },
  },
};
