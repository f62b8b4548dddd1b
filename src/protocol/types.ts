import type { CurveOptions } from "../curve/types.ts";
import type { Ignition, LossOptions, Window } from "../losses/types.ts";
import type { Basis } from "../phases/types.ts";

/** Everything that turns a run into indices; one JSON document. */
export interface Protocol extends CurveOptions {
  $schema?: string;
  schema: "tg-hydrates/protocol/1";
  name: string;
  description?: string;
  windows: Window[];
  ignition: Ignition;
  basis: Basis;
  limits: {
    /** The windows hold for this range. */
    heating_rate_K_per_min: [number, number];
    /** A run that starts above it is flagged. */
    start_max_C: number;
  };
  /** Present once everything that depends on all runs is fixed. */
  settled?: LossOptions["settled"];
}

/** A protocol in which everything that depends on all runs is fixed; losses are taken under such a one only. */
export type SettledProtocol = Protocol & Required<Pick<Protocol, "settled">>;
