import { ANCHOR_C } from "../../losses/areaOf.ts";
import type { PeakFitSpec } from "../../losses/fitTypes.ts";
import type { Amount, Rule, Window } from "../../losses/types.ts";
import type { SettledProtocol } from "../../protocol/types.ts";

const rules: Record<Rule, string> = {
  step: "Step: the difference of the smoothed masses at the two edges.",
  area: "Area: the step less what a straight DTG baseline through the slopes at the two edges takes off, that is the area of the DTG above it; it compares runs and is no amount.",
  tangent:
    "Tangent: the vertical distance, at the DTG maximum, of straight lines fitted to the curve before and after the step; it compares runs and is no amount.",
};

/** Windows, rules and how edges were placed, in words for a paper. */
export function windowWords({ windows, settled, peaks }: SettledProtocol): string {
  const used = (Object.keys(rules) as Rule[]).filter((rule) => windows.some((window) => window.rule === rule));
  const placed = (settled.edges ?? []).map(({ window, edge, fixed_C, placed_C, prominence }) =>
    placed_C === null
      ? `the ${edge === "from" ? "lower" : "upper"} edge of ${window} stayed at ${fixed_C} °C, since no minimum was prominent there`
      : `the ${edge === "from" ? "lower" : "upper"} edge of ${window} moved from ${fixed_C} to ${placed_C} °C${stands(prominence)}`,
  );
  const parted = (settled.resolved ?? []).map(({ window, at_C, prominence }) =>
    at_C === null
      ? `${window} stayed one window, since no minimum was prominent in it`
      : `${window} was parted at ${at_C} °C${stands(prominence)}`,
  );
  const placing = [...placed, ...parted];
  return [
    `Losses were taken in these windows: ${windows.map(windowText).join("; ")}.`,
    ...used.map((rule) => rules[rule]),
    ...(placing.length > 0
      ? [`Edges were settled once for all runs, by minima of the campaign's mean DTG: ${placing.join("; ")}.`]
      : []),
    ...(peaks === undefined
      ? []
      : [`Peaks of fixed shape were fitted to the DTG beside the windows: ${peaksText(peaks)}.`]),
  ].join(" ");
}

/** `, 12 standard deviations deep`. */
function stands(prominence: number | null): string {
  return prominence === null ? "" : `, a minimum ${prominence} standard deviations deep`;
}

function windowText({ name, from_C, to_C, rule, anchor_C, tangent, amount, placement, resolve }: Window): string {
  const lines = tangent ? `, lines fitted over ${tangent.before_C.join("–")} and ${tangent.after_C.join("–")} °C` : "";
  const slopes =
    rule === "area" || anchor_C !== undefined ? `, slopes fitted over ${anchor_C ?? ANCHOR_C} °C about each edge` : "";
  const shared = placement ? `, edges free to move by ${placement.tolerance_C} °C` : "";
  const parts = resolve
    ? `, to be parted between ${resolve.between_C.join(" and ")} °C into ${resolve.into.join(" and ")}${(resolve.amounts ?? []).map(amountText).join("")}`
    : "";
  return `${name} ${from_C}–${to_C} °C by ${rule}${lines}${slopes}${amount ? amountText(amount) : ""}${shared}${parts}`;
}

/** `, taken as 1 mol of gas per mol of calcite`. */
function amountText({ phase, mol_lost, gas }: Amount): string {
  return `, taken as the loss of ${mol_lost} mol of ${gas ?? "gas"} per mol of ${phase}`;
}

function peaksText({ peaks, from_C, to_C, baseline, width_u_pct, asymmetry_u, limits = {} }: PeakFitSpec): string {
  const each = peaks.map(
    ({ name, position_C, width_C, asymmetry = 0 }) =>
      `${name} with its maximum between ${position_C.join(" and ")} °C, ${width_C} °C wide at half height, asymmetry ${asymmetry}`,
  );
  const known = [
    ...(width_u_pct === undefined ? [] : [`widths known to ${width_u_pct} %`]),
    ...(asymmetry_u === undefined ? [] : [`asymmetries known to ${asymmetry_u}`]),
  ];
  const refused = [
    ...(limits.area_u_pct === undefined ? [] : [`its area is known no better than ${limits.area_u_pct} %`]),
    ...(limits.misfit_pct === undefined ? [] : [`it misses the DTG by more than ${limits.misfit_pct} %`]),
    ...(limits.merged_pct === undefined ? [] : [`one peak in place of two leaves less than ${limits.merged_pct} %`]),
    ...(limits.merged_times === undefined ? [] : [`or less than ${limits.merged_times} residual deviations`]),
  ];
  const on = baseline === "linear" ? "on a straight baseline" : "without a baseline";
  const sure = known.length === 0 ? "" : `, with ${known.join(" and ")}`;
  const fails = refused.length === 0 ? "" : `. A fit was refused where ${refused.join(", where ")}`;
  return `${each.join("; ")}; fitted from ${from_C} to ${to_C} °C ${on}${sure}${fails}`;
}
