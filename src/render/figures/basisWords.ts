import type { Basis } from "../../phases/types.ts";

/** Unit of an index with what the 100 g are of, for an axis. */
export function basisUnit(basis: Basis): string {
  return basis === "ignited"
    ? "(g per 100 g ignited)"
    : basis === "initial"
      ? "(g per 100 g initial)"
      : "(g per 100 g binder)";
}
