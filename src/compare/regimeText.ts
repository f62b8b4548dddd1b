import type { CellKey } from "../protocol/types.ts";

/** A curing regime as `--reference` writes it: `sealed`, `cloth:7`; without a name `-`. */
export function regimeText({ curing, curing_d }: Pick<CellKey, "curing" | "curing_d">): string {
  const days = curing_d === null ? "" : `:${Number(curing_d.toPrecision(9))}`;
  return `${curing ?? "-"}${days}`;
}
