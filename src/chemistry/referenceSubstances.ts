/** A step in which a reference substance loses mass. */
export interface ReferenceStep {
  name: string;
  /** What leaves, mol per mol of substance, by chemical formula. */
  leaves: Record<string, number>;
  /** Published position in °C, where there is one; it depends on rate, mass, holder and gas. */
  published_C?: number;
}

/** A substance whose mass losses are known from its formula. */
export interface ReferenceSubstance {
  label: string;
  /** Chemical formula. */
  formula: string;
  /** In the order in which they happen. */
  steps: ReferenceStep[];
  /** Source of the steps and their positions. */
  source: string;
}

/** Name of a substance in {@link referenceSubstances}. */
export type ReferenceSubstanceName =
  | "calcium-oxalate-monohydrate"
  | "copper-sulfate-pentahydrate"
  | "sodium-bicarbonate"
  | "calcium-carbonate"
  | "gypsum";

/** Substances by whose steps a balance is checked. Masses of calcium oxalate are the best check; copper sulfate and gypsum are poor ones for temperature, because the gas shifts them. */
export const referenceSubstances: Readonly<Record<ReferenceSubstanceName, ReferenceSubstance>> = {
  "calcium-oxalate-monohydrate": {
    label: "calcium oxalate monohydrate",
    formula: "CaC2O4·H2O",
    steps: [
      { name: "water", leaves: { H2O: 1 }, published_C: 162 },
      { name: "carbon monoxide", leaves: { CO: 1 }, published_C: 479 },
      { name: "carbon dioxide", leaves: { CO2: 1 }, published_C: 684 },
    ],
    source: "Frost and Weier, Thermochim Acta 409:79–85 (2004): natural whewellite, high-resolution TG",
  },
  "copper-sulfate-pentahydrate": {
    label: "copper sulfate pentahydrate",
    formula: "CuSO4·5H2O",
    steps: [
      { name: "first two water", leaves: { H2O: 2 }, published_C: 65 },
      { name: "second two water", leaves: { H2O: 2 }, published_C: 90 },
      { name: "last water", leaves: { H2O: 1 }, published_C: 220 },
      { name: "sulfur trioxide", leaves: { SO3: 1 } },
      { name: "oxygen", leaves: { O: 0.5 } },
    ],
    source: "El-Houte, El-Sayed Ali and Sørensen, Thermochim Acta 138:107–114 (1989), dynamic",
  },
  "sodium-bicarbonate": {
    label: "sodium bicarbonate",
    formula: "NaHCO3",
    steps: [{ name: "water and carbon dioxide", leaves: { H2O: 0.5, CO2: 0.5 } }],
    source: "Wu and Shih, Thermochim Acta 223:177–186 (1993), doi 10.1016/0040-6031(93)80132-t: 360–450 K",
  },
  "calcium-carbonate": {
    label: "calcium carbonate",
    formula: "CaCO3",
    steps: [{ name: "carbon dioxide", leaves: { CO2: 1 } }],
    source: "Villagrán-Zaccardi et al., calcite by quantitative TG (conference): window 600–800 °C",
  },
  gypsum: {
    label: "gypsum",
    formula: "CaSO4·2H2O",
    steps: [
      { name: "water to hemihydrate", leaves: { H2O: 1.5 } },
      { name: "water to anhydrite", leaves: { H2O: 0.5 } },
    ],
    source:
      "Ramachandran et al., Handbook of Thermal Analysis of Construction Materials (2002), pp. 454 and 461; Thermochim Acta 269–270:631–638 (1995): complete at about 180 °C at 5 K/min, the two steps are hard to separate",
  },
};
