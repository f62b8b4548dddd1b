import type { Protocol } from "./types.ts";

/** Whether a protocol must see all runs before losses can be taken. */
export function needsCurves({ windows, smoothing, settled }: Protocol): boolean {
  if (settled !== undefined) return false;
  return (
    smoothing.choose !== undefined ||
    windows.some(({ placement, resolve }) => placement !== undefined || resolve !== undefined)
  );
}
