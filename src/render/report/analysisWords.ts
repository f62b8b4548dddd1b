import type { SettledProtocol } from "../../protocol/types.ts";

const bases: Record<SettledProtocol["basis"], string> = {
  ignited: "per 100 g of the ignited mass of the same run",
  initial: "per 100 g of the mass before heating",
  binder: "per 100 g of anhydrous binder, which is the ignited mass divided by one less the binder's loss on ignition",
};

/** Grid, smoothing, ignition, basis and limits of a protocol, in words for a paper. */
export function analysisWords({ grid, smoothing, ignition, basis, limits, settled }: SettledProtocol): string {
  const { temperature_C: T, half_width_C: half, hold_min, max_loss, check_C } = ignition;
  const [slow, fast] = limits.heating_rate_K_per_min;
  const chosen = settled.smoothing
    ? ` The width was chosen from the runs and lowers their sharpest DTG peak by ${settled.smoothing.peak_bias_pct} %${
        settled.smoothing.width_C === smoothing.width_C ? "" : ` at ${settled.smoothing.width_C} °C`
      }.`
    : "";
  const asked = smoothing.choose
    ? ` It was to be chosen between ${smoothing.choose.least_C} and ${smoothing.choose.most_C} °C.`
    : "";
  return [
    "Only the heating was analysed; isothermals inside it were taken out as jumps of mass.",
    `The masses were averaged over an even temperature grid of ${grid.step_C} °C and smoothed by a Savitzky–Golay filter of degree ${smoothing.degree} over ${smoothing.width_C} °C (Savitzky and Golay 1964); the DTG is the falling slope of the smoothed curve, −dm/dT.${chosen}${asked}`,
    `The ignited mass is the mean from ${T - half} to ${T + half} °C (${T} ± ${half} °C), one-sided where a run ends there; the last minute of a final isothermal near that temperature where it lasted at least ${hold_min} min; or the furnace residue where the run sheet states one.`,
    `Runs that still lost more than ${max_loss} g per 100 g of ignited mass over the last ${check_C} °C before ignition, that started above ${limits.start_max_C} °C, that lost more than ${limits.start_loss_max_pct} % of their mass before the first window, or that were heated slower than ${slow} or faster than ${fast} K/min are flagged.`,
    `An index is the mass lost in a window, in g ${bases[basis]}.`,
  ].join(" ");
}
