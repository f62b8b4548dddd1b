import type { Protocol } from "./types.ts";

/** Whether a protocol must see all runs before losses can be taken. */
export function needsCurves({ windows, settled }: Protocol): boolean {
  return (
    settled === undefined && windows.some(({ placement, resolve }) => placement !== undefined || resolve !== undefined)
  );
}
