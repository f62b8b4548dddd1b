import type { Functional } from "../curve/functional.ts";
import type { CurveOptions } from "../curve/types.ts";
import type { Flag } from "../flags.ts";

import type { Peak } from "./findPeak.ts";

/** `step`: m(T₁) − m(T₂). `area`: the step less the water that leaves on a straight DTG baseline. `tangent`: the vertical distance of two tangents. */
export type Rule = "step" | "area" | "tangent";

/** Gas by which a phase loses mass. */
export type Gas = "H2O" | "CO2";

/** The one phase that the whole loss of a window is taken for, so that it can become an amount. */
export interface Amount {
  /** Name of a phase, or its composition in cement shorthand. */
  phase: string;
  /** mol of water or carbon dioxide that one mol of the phase loses in this window. Never implied: it decides the amount. */
  mol_lost: number;
  /** Needed only for a phase that has both. @default the gas that the phase has */
  gas?: Gas;
}

/** A named temperature range with the rule that says what is counted in it. */
export interface Window {
  name: string;
  from_C: number;
  to_C: number;
  rule: Rule;
  /** What it is for and where its edges come from. */
  note?: string;
  /** Width of the band about each edge in which the baseline's slope is fitted. @default 10 */
  anchor_C?: number;
  /** `shared`: at settling the edges move to the minima of the campaign's mean DTG, no further than the tolerance. @default fixed */
  placement?: { edges: "shared"; tolerance_C: number };
  /** At settling the window is parted at the campaign's minimum in this range, if one is prominent there. */
  resolve?: {
    between_C: [number, number];
    into: [string, string];
    /** What the two parts are taken for, once the window is parted. */
    amounts?: [Amount, Amount];
  };
  /** Ranges of the two straight lines of the rule `tangent`. */
  tangent?: { before_C: [number, number]; after_C: [number, number] };
  /** Only with the rule `step`; the others are comparative. @default the loss is an index only */
  amount?: Amount;
}

/** What counts as ignited. */
export interface Ignition {
  /** One value for the campaign, 800–1000 °C (sulfates may leave above). */
  temperature_C: number;
  /** The mass is the mean over ± this, one-sided where the run ends there. */
  half_width_C: number;
  /** A final isothermal at least this long gives the ignited mass by its last minute. */
  hold_min: number;
  /** Ignited if the last `check_C` before it lose no more than this, g per 100 g ignited mass. */
  max_loss: number;
  check_C: number;
}

/** How a protocol was settled. */
export interface Settled {
  /** What fixed it: `fixed edges`, or how many runs of how many regimes. */
  by: string;
  /** What became of every shared edge. */
  edges?: {
    window: string;
    edge: "from" | "to";
    fixed_C: number;
    placed_C: number | null;
    prominence: number | null;
  }[];
  /** The smoothing width that was chosen from the runs, and how much it lowers the sharpest DTG peak, %. */
  smoothing?: { width_C: number; peak_bias_pct: number };
  /** What became of every window that was to be parted. */
  resolved?: { window: string; at_C: number | null; prominence: number | null }[];
}

/** Options of the stage losses/; part of a protocol. Losses are taken under settled ones only. */
export interface LossOptions {
  windows: Window[];
  ignition: Ignition;
  /** Present once everything that depends on all runs is fixed. */
  settled: Settled;
}

/** What losses() needs of a protocol. */
export type LossProtocol = CurveOptions & LossOptions;

/** A loss as weights on the curve, or why there is none. */
export type Weighed = { weights: Functional /** Unit of the run's mass. */; value: number } | { missing: string };

/** The mass lost in one window of one run. */
export interface Loss {
  window: Window;
  /** Loss by each rule. */
  step: Weighed;
  area: Weighed;
  tangent: Weighed;
  /** The DTG maximum; null where no interior, prominent one is. */
  peak: Peak | null;
  flags: Flag[];
}

/** All losses of one run and the masses they are referred to; stays beside its curve. */
export interface RunLosses {
  losses: Loss[];
  ignited: Weighed;
  /** What the end of the heating still loses before the ignited mass is taken, unit of the run's mass. */
  late: number;
  /** Mass of the first reading. */
  initial: Weighed;
  flags: Flag[];
}
