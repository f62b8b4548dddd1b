/** `note`: good to know; `caution`: read the number with care; `serious`: the number is missing or should not be used. */
export type Severity = "note" | "caution" | "serious";

/** Every code. Codes are stable: scripts depend on them. */
export type FlagCode =
  | "window-truncated"
  | "anchor-truncated"
  | "no-tangent"
  | "unresolved"
  | "steep-edge"
  | "isothermal-in-window"
  | "ends-before-ignition"
  | "not-ignited"
  | "starts-warm"
  | "starts-undried"
  | "heating-rate-outside"
  | "no-time"
  | "no-absolute-mass"
  | "several-heatings"
  | "no-heating"
  | "blank-differs"
  | "hole-in-run"
  | "initial-mass-differs"
  | "one-specimen"
  | "runs-missing"
  | "outlying-specimen"
  | "scatter-differs"
  | "conditions-differ"
  | "no-binder-loss"
  | "no-reference-mass"
  | "rows-dropped"
  | "columns-guessed"
  | "tables-joined"
  | "temperature-wobbles"
  | "time-repeats"
  | "time-restarts"
  | "time-unusable"
  | "spikes"
  | "balance-stuck";

/** A coded finding about the data. */
export interface Flag {
  code: FlagCode;
  severity: Severity;
  /** What was found, in one sentence, with the figures. */
  sentence: string;
  /** What to do about it. */
  advice: string;
  /** The window it belongs to; absent where it belongs to the whole run. */
  window?: string;
}

/** What is the same for every flag of one code. */
export interface Kind {
  severity: Severity;
  advice: string;
}

/** Every flag there is, with its severity and what to do. */
export const flagKinds: Record<FlagCode, Kind> = {
  "window-truncated": {
    severity: "serious",
    advice: "Repeat the run over the whole window, or choose a window that the run covers.",
  },
  "anchor-truncated": {
    severity: "caution",
    advice: "The straight baseline has no full anchor band here: use the step, or start the run earlier.",
  },
  "no-tangent": {
    severity: "serious",
    advice: "Use the rule step or area for this window, or fitting ranges that the run covers.",
  },
  unresolved: {
    severity: "caution",
    advice: "Report the window as one number: any split of it would be made up.",
  },
  "steep-edge": {
    severity: "note",
    advice:
      "The index depends on where this edge is put: compare runs under one protocol only, or place the edge in a valley.",
  },
  "isothermal-in-window": {
    severity: "caution",
    advice: "The loss during the isothermal is counted in this window: move the window or the isothermal.",
  },
  "ends-before-ignition": {
    severity: "serious",
    advice:
      "Run to the ignition temperature, give the furnace residue in the run sheet (residue_mg), or lower the ignition temperature of the protocol for the whole campaign.",
  },
  "not-ignited": {
    severity: "caution",
    advice: "Mass is still being lost at the ignition temperature: ignite hotter or longer.",
  },
  "starts-warm": {
    severity: "caution",
    advice:
      "Start the run near room temperature after drying at 40 °C or less: water of ettringite may have left before the first reading.",
  },
  "starts-undried": {
    severity: "caution",
    advice: "The specimen loses mass from the first reading on: finish the drying or solvent exchange before the run.",
  },
  "heating-rate-outside": {
    severity: "caution",
    advice:
      "The windows of this protocol hold for its stated range of heating rates: move them, or heat within the range.",
  },
  "no-time": {
    severity: "note",
    advice: "Without a time column isothermals are found by counting readings only, and the heating rate is unknown.",
  },
  "no-absolute-mass": { severity: "note", advice: "Give initial_mass_mg in the run sheet to get losses in mg." },
  "no-heating": {
    severity: "serious",
    advice: "Nothing can be indexed: export the heating part of the run too.",
  },
  "blank-differs": {
    severity: "caution",
    advice: "Measure the blank in the same crucible, gas and programme as the run.",
  },
  "hole-in-run": {
    severity: "caution",
    advice: "Readings are missing: do not use windows that touch the hole, or repeat the run.",
  },
  "several-heatings": {
    severity: "caution",
    advice: "Only the heating that covers most was analysed: split the file if another one is meant.",
  },
  "initial-mass-differs": {
    severity: "caution",
    advice: "The stated initial mass and the first reading differ: check which one belongs to this run.",
  },
  "one-specimen": {
    severity: "note",
    advice: "One specimen gives no interval: measure at least two, better three, specimens.",
  },
  "runs-missing": {
    severity: "caution",
    advice: "The mean rests on the other runs: repeat the missing ones, or take them out of the run sheet.",
  },
  "outlying-specimen": {
    severity: "caution",
    advice: "Look for a reason in preparation and run before anything else; it stays in the mean.",
  },
  "scatter-differs": {
    severity: "caution",
    advice:
      "The pooled scatter is too small for some cells and too large for others: look at the cells that scatter most.",
  },
  "conditions-differ": {
    severity: "caution",
    advice:
      "Heating rate, sample mass, gas or crucible differ inside the campaign: compare only what was measured alike.",
  },
  "no-binder-loss": { severity: "serious", advice: "Give loi_binder_pct for the mix in the mix table." },
  "no-reference-mass": { severity: "serious", advice: "The basis needs a mass that this run does not have." },
  "rows-dropped": { severity: "caution", advice: "Look at the named lines of the file." },
  "columns-guessed": {
    severity: "caution",
    advice: "Name the columns (--columns, or the column `columns` of the run sheet) if the guess is wrong.",
  },
  "tables-joined": {
    severity: "note",
    advice: "The tables were taken as one run in the order of the file: split the file if they are several runs.",
  },
  "temperature-wobbles": {
    severity: "note",
    advice: "Readings at falling temperature are averaged into the heating: look at the furnace control if it is much.",
  },
  "time-repeats": {
    severity: "note",
    advice: "Export the time with more digits if isothermals or the heating rate matter.",
  },
  "time-restarts": {
    severity: "note",
    advice: "The time was counted on from the reading before: check that nothing is missing between the segments.",
  },
  "time-unusable": {
    severity: "caution",
    advice: "The run is treated as one without time: export it again with a time that grows from row to row.",
  },
  spikes: {
    severity: "caution",
    advice:
      "Single readings stand far off their neighbours; they were not removed: look at the lines named, repeat the run if they stand in a window.",
  },
  "balance-stuck": {
    severity: "caution",
    advice:
      "The balance repeats one value where it should scatter: check its range and whether the sample touched something.",
  },
};

/** Makes a flag of a known kind; the sentence carries the figures of this case. */
export function flag(code: FlagCode, sentence: string, window?: string): Flag {
  const { severity, advice } = flagKinds[code];
  return window === undefined ? { code, severity, sentence, advice } : { code, severity, sentence, advice, window };
}
