/** An invented mix, g per 100 g of anhydrous binder. */
export interface ExampleMix {
  mix: string;
  w_b: number;
  yeelimite: number;
  belite: number;
  gypsum: number;
  anhydrite: number;
  limestone: number;
  /** Ferrite, periclase and the like: neither reacts nor loses mass here. */
  inert: number;
  /** Cured until tested, MPa. */
  strength_28d_MPa: number;
  /** Whether its properties are written in psi and % instead of MPa and microstrain. */
  other_units: boolean;
}

/** An invented curing regime. */
export interface ExampleCuring {
  curing: string;
  /** Days of curing; 0 for none, null where it lasts until the specimen is tested. */
  curing_d: number | null;
  /** Ages at which it is tested in the full example, days; none before curing has ended. */
  ages_d: readonly number[];
  /** Share of its pace at which hydration goes on after curing has ended. */
  afterwards: number;
  /** Factor on what hydration can reach: sealed paste dries itself out a little. */
  reach: number;
  /** Whether air reaches the specimen after curing, so that ettringite carbonates. */
  open: boolean;
  /** Share of the strength that is lost at 28 d, since it dried. */
  strength_loss: number;
}

/** A balance with its own way of writing and its own errors. */
export interface ExampleBalance {
  balance: string;
  layout: "tabs" | "semicolons" | "commas";
  ending: string;
  noise_ug: number;
  noise_correlation: number;
  drift_ug_per_h: number;
  buoyancy_ug: number;
  temperature_offset_C: number;
}

export const exampleMixes: readonly ExampleMix[] = [
  {
    ...{ mix: "M1", w_b: 0.55, yeelimite: 50, belite: 12, gypsum: 20, anhydrite: 0, limestone: 0, inert: 18 },
    ...{ strength_28d_MPa: 42, other_units: false },
  },
  {
    ...{ mix: "M2", w_b: 0.5, yeelimite: 48, belite: 14, gypsum: 0, anhydrite: 14, limestone: 8, inert: 16 },
    ...{ strength_28d_MPa: 38, other_units: true },
  },
];

/**
 * Ponding carries hydration further than anything else and gives no more strength: its difference from sealed curing is truly zero.
 * One day under wet cloth loses strength clearly, seven days so little that three specimens cannot show it.
 */
export const exampleCurings: readonly ExampleCuring[] = [
  {
    ...{ curing: "sealed", curing_d: null, ages_d: [0.25, 1, 3, 7, 28] },
    ...{ afterwards: 1, reach: 0.98, open: false, strength_loss: 0 },
  },
  {
    ...{ curing: "ponded", curing_d: null, ages_d: [0.25, 1, 3, 7, 28] },
    ...{ afterwards: 0.06, reach: 1.12, open: true, strength_loss: 0 },
  },
  {
    ...{ curing: "cloth", curing_d: 1, ages_d: [1, 3, 7, 28] },
    ...{ afterwards: 0.06, reach: 1, open: true, strength_loss: 0.22 },
  },
  {
    ...{ curing: "cloth", curing_d: 3, ages_d: [3, 7, 28] },
    ...{ afterwards: 0.06, reach: 1, open: true, strength_loss: 0.06 },
  },
  {
    ...{ curing: "cloth", curing_d: 7, ages_d: [7, 28] },
    ...{ afterwards: 0.06, reach: 1, open: true, strength_loss: 0.02 },
  },
  {
    ...{ curing: "air", curing_d: 0, ages_d: [0.25, 1, 3, 7, 28] },
    ...{ afterwards: 0.06, reach: 1, open: true, strength_loss: 0.32 },
  },
];

export const exampleBalances: readonly ExampleBalance[] = [
  {
    balance: "B1",
    layout: "tabs",
    ending: "txt",
    noise_ug: 1,
    noise_correlation: 0.2,
    drift_ug_per_h: 2,
    buoyancy_ug: 12,
    temperature_offset_C: 0.4,
  },
  {
    balance: "B2",
    layout: "semicolons",
    ending: "csv",
    noise_ug: 1.5,
    noise_correlation: 0.3,
    drift_ug_per_h: -3,
    buoyancy_ug: 18,
    temperature_offset_C: -0.7,
  },
  {
    balance: "B3",
    layout: "commas",
    ending: "dat",
    noise_ug: 2,
    noise_correlation: 0.2,
    drift_ug_per_h: 1,
    buoyancy_ug: 10,
    temperature_offset_C: 0.2,
  },
];
