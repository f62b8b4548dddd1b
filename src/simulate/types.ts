/** One reaction of the forward model: dα/dt = A·exp(−E/RT)·(1 − α)ⁿ. */
export interface Reaction {
  /** What it stands for, in words. */
  name?: string;
  /** Mass it loses, % of the mass before heating. */
  loss_pct: number;
  /** Natural logarithm of the pre-exponential factor A in 1/min. */
  ln_A_per_min: number;
  /** Activation energy, kJ/mol. */
  E_kJ_mol: number;
  /** Reaction order n. @default 1 */
  order?: number;
}

/** One leg of the temperature programme: to a temperature at a rate, then optionally a hold. */
export interface Segment {
  to_C: number;
  /** Positive; the direction follows from `to_C`. */
  rate_K_per_min: number;
  /** Isothermal after arrival, min. @default 0 */
  hold_min?: number;
}

/** The temperature programme. */
export interface Programme {
  start_C: number;
  segments: Segment[];
}

/** Mass that leaves evenly with rising temperature, whatever the time. */
export interface Background {
  from_C: number;
  to_C: number;
  /** % of the mass before heating per °C. */
  loss_pct_per_C: number;
}

/** What is measured: a sample, its reactions and the temperature programme. */
export interface Model {
  /** Mass before heating, mg; 0 for an empty crucible. */
  sample_mg: number;
  reactions: Reaction[];
  background?: Background[];
  programme: Programme;
}

/** How often it is measured and what the balance adds; everything is absent by default. */
export interface MeasureOptions {
  /** Readings, spread evenly over the time of the programme. @default 5000 */
  rows?: number;
  /** Seed of every random number. @default 1 */
  seed?: number | string;
  /** Standard deviation of one mass reading, µg. @default 0 */
  noise_ug?: number;
  /** Correlation of a reading's noise with the one before, −1…1. @default 0 */
  noise_correlation?: number;
  /** Drift of the balance, µg/h. @default 0 */
  drift_ug_per_h?: number;
  /** Apparent gain by buoyancy, µg: this times 1 − T₀/T, T in kelvin and T₀ that of the start. @default 0 */
  buoyancy_ug?: number;
  /** Masses are rounded to multiples of this, µg; 0 leaves them as they are. @default 0 */
  resolution_ug?: number;
  /** The thermometer shows the sample's temperature plus this, °C. @default 0 */
  temperature_offset_C?: number;
  /** Standard deviation of one temperature reading, °C. @default 0 */
  temperature_noise_C?: number;
}

/** A simulated run; all arrays have one value per reading. */
export interface SimulatedRun {
  model: Model;
  /** s since the start. */
  time_s: Float64Array;
  /** As the thermometer shows it, °C. */
  temperature_C: Float64Array;
  /** As the balance shows it, mg. */
  mass_mg: Float64Array;
  /** The sample's own temperature, °C. */
  true_temperature_C: Float64Array;
  /** The sample's own mass, mg. */
  true_mass_mg: Float64Array;
}
