/** `note`: good to know; `caution`: read the number with care; `serious`: the number is missing or should not be used. */
export type Severity = "note" | "caution" | "serious";

/** Every code. Codes are stable: scripts depend on them. */
export type FlagCode =
  | "window-truncated"
  | "anchor-truncated"
  | "no-tangent"
  | "unresolved"
  | "peaks-refused"
  | "residue-differs"
  | "mass-gained"
  | "same-file"
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
  | "below-detection"
  | "above-maximum"
  | "hydroxyl-corrected"
  | "hydroxyl-uncorrected"
  | "hydroxyl-refused"
  | "afm-unproven"
  | "no-lime-source"
  | "carbonation-counted"
  | "no-water-ratio"
  | "no-sand-ratio"
  | "net-partial"
  | "binder-water"
  | "degree-invalid"
  | "ratio-unexpected"
  | "water-limited"
  | "organic-overlap"
  | "retarder-overlap"
  | "limestone-overlap"
  | "sulfate-overlap"
  | "carbonated"
  | "mortar-subsampling"
  | "steps-merged"
  | "step-incomplete"
  | "step-not-covered"
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
  "peaks-refused": {
    severity: "caution",
    advice: "Report the windows as they are, or state the shapes of the peaks from runs of pure phases.",
  },
  "residue-differs": {
    severity: "caution",
    advice:
      "The furnace residue and the run do not fit together: check which one belongs to this specimen, and its unit.",
  },
  "mass-gained": {
    severity: "caution",
    advice:
      "A specimen does not gain mass on ignition: check the tare, the buoyancy (blank run) and the gas (oxidation).",
  },
  "same-file": {
    severity: "caution",
    advice: "Two rows of the run sheet are one measurement: as two specimens they feign a scatter of nothing.",
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
  "below-detection": {
    severity: "note",
    advice: "Read it as nothing found; it stays in the mean, below zero too, since leaving it out would lift the mean.",
  },
  "above-maximum": {
    severity: "caution",
    advice:
      "Check the mix table, the window and the mole count: something else loses mass there, or the binder is not what the table says.",
  },
  "hydroxyl-corrected": { severity: "note", advice: "The shares stand in the protocol (corrections.hydroxyl)." },
  "hydroxyl-uncorrected": {
    severity: "caution",
    advice:
      "Take the hydroxyl water off (corrections.hydroxyl of the protocol), or use the amount as an upper bound of AH3 only.",
  },
  "hydroxyl-refused": {
    severity: "serious",
    advice: "Part AFt and AFm into windows of their own, or state the share of AFm (afm_share) with its uncertainty.",
  },
  "afm-unproven": {
    severity: "caution",
    advice: "State the share of AFm (afm_share, 0 where there is none) instead of counting a window as AFm.",
  },
  "no-lime-source": {
    severity: "serious",
    advice: "Name what brings lime in the column lime_source of the mix table, if there is a source.",
  },
  "carbonation-counted": {
    severity: "note",
    advice:
      "In CSA paste ettringite carbonates too, which leaves no lime behind: use it only where lime is the main source.",
  },
  "no-water-ratio": {
    severity: "note",
    advice: "Give w_b for the mix in the mix table to get amounts per 100 g of paste.",
  },
  "no-sand-ratio": {
    severity: "caution",
    advice: "Give sand_binder_ignited for the mix in the mix table, so that the aggregate's run can be taken off.",
  },
  "net-partial": {
    severity: "note",
    advice:
      "Measure the anhydrous binder and the aggregate of this mix, each as a run of its own (roles binder and aggregate).",
  },
  "binder-water": {
    severity: "caution",
    advice:
      "Water that the anhydrous binder loses here (gypsum, prehydration) may have reacted in the specimen: use the gross amount where it has.",
  },
  "degree-invalid": {
    severity: "caution",
    advice: "Use the range, or a method that sees ye'elimite itself (X-ray diffraction).",
  },
  "ratio-unexpected": {
    severity: "caution",
    advice: "Look at windows, mole counts, drying (ettringite loses water early), carbonation and strätlingite.",
  },
  "water-limited": {
    severity: "note",
    advice: "An index near its maximum needs water from curing, or is too high.",
  },
  "organic-overlap": {
    severity: "caution",
    advice:
      "Organics lose mass here too: compare with the same mix without them, or take the run of the dry binder off.",
  },
  "retarder-overlap": {
    severity: "note",
    advice: "A retarder may lose mass here too; at its usual dosage little: compare mixes of one dosage.",
  },
  "limestone-overlap": {
    severity: "note",
    advice: "The binder brings carbonate: use the amount net of the binder's own run to see what was formed.",
  },
  "sulfate-overlap": {
    severity: "caution",
    advice: "At early age gypsum or bassanite may be unreacted and lose its water here: check by X-ray diffraction.",
  },
  carbonated: {
    severity: "caution",
    advice:
      "Ettringite, monosulfate and lime may have carbonated in curing, storage or preparation: seal specimens, and read their loss with care.",
  },
  "mortar-subsampling": {
    severity: "caution",
    advice:
      "A few mg of mortar rarely hold its sand in proportion: give u_sand_binder_ignited with the scatter of subsampling, or measure the sieved paste.",
  },
  "steps-merged": {
    severity: "note",
    advice:
      "The steps run into one another at this heating rate and are judged together: heat more slowly to part them.",
  },
  "step-incomplete": {
    severity: "caution",
    advice: "Mass is still being lost at the end of the step: heat further, or hold longer.",
  },
  "step-not-covered": { severity: "note", advice: "The run does not reach this step: it is not judged." },
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
