import type { LossOptions } from "./types.ts";

/**
 * Refuses windows and ignition conditions that cannot work. A document is checked field by field by `checkProtocol`;
 * this is the last guard for options made in code.
 *
 * @throws TypeError if the options are not settled, RangeError for a value; the message names the field.
 */
export function checkLossOptions({ windows, ignition, settled }: LossOptions): void {
  if (settled === undefined || settled === null) {
    throw new TypeError(
      "Settle the protocol first: losses are taken under a settled protocol only (field `settled` is missing)",
    );
  }
  for (const { name, from_C, to_C, anchor_C } of windows) {
    if (!(from_C < to_C)) {
      throw new RangeError(`Window ${name}: from_C must lie below to_C, not ${from_C} and ${to_C}`);
    }
    if (anchor_C !== undefined && !(anchor_C > 0 && anchor_C <= to_C - from_C)) {
      throw new RangeError(`Window ${name}: anchor_C must be above 0 and no wider than the window, not ${anchor_C}`);
    }
  }
  const { temperature_C } = ignition;
  if (!(temperature_C >= 800 && temperature_C <= 1000)) {
    throw new RangeError(`ignition.temperature_C must lie between 800 and 1000 °C, not ${temperature_C}`);
  }
}
