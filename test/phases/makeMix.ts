import type { Mix } from "../../src/phases/types.ts";

/** A row of the mix table of which only this is known. */
export function makeMix(known: Partial<Mix> = {}): Mix {
  return {
    mix: "M",
    w_b: null,
    loi_binder_pct: null,
    sand_binder_ignited: null,
    u_w_b: null,
    u_loi_binder_pct: null,
    u_sand_binder_ignited: null,
    polymer_pct: null,
    retarder: null,
    contents: {},
    ...known,
  };
}
