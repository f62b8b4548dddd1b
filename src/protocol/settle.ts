import { findValley } from "../curve/findValley.ts";
import type { MeanShape } from "../curve/meanShape.ts";
import type { Settled, Window } from "../losses/types.ts";
import { checkProtocol } from "./checkProtocol.ts";
import { needsCurves } from "./needsCurves.ts";
import type { Protocol, SettledProtocol } from "./types.ts";

/**
 * Fixes what depends on all runs, so that losses can be taken: edges with shared placement move to the minima of the
 * campaign's mean DTG (interior, at least five standard deviations deep, within the tolerance; otherwise the fixed edge
 * stays), and a window with `resolve` is parted at the campaign's minimum where one is prominent, otherwise it stays one
 * and its flag is `unresolved`. Once for all runs: windows that move from run to run would compare nothing.
 *
 * @param options `mean`: mean DTG of the campaign; needed only by a protocol with shared placement or `resolve`.
 * `smoothing`: the record of `settleSmoothing`, where the width came from the runs.
 * @returns What became of every edge stands in `settled`. A protocol that is settled already stays as it is.
 * @throws ProtocolError for a protocol that cannot work; TypeError where the mean DTG is needed and not given.
 *
 * @example
 * ```ts
 * import { protocols, settle } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * if (protocol.settled.by !== "fixed edges") throw new Error("the edges of csa are fixed");
 * ```
 */
export function settle(
  protocol: Protocol,
  options: { mean?: MeanShape | null; smoothing?: Settled["smoothing"] } = {},
): SettledProtocol {
  const checked = checkProtocol(protocol);
  if (checked.settled) return { ...checked, settled: checked.settled };
  if (checked.smoothing.choose) {
    throw new TypeError("Choose the smoothing width first (settleSmoothing): the protocol takes it from the runs");
  }
  const { mean, smoothing } = options;
  const chosen = smoothing === undefined ? {} : { smoothing };
  if (!needsCurves(checked)) {
    const by = smoothing === undefined ? "fixed edges" : "fixed edges, smoothing chosen from the runs";
    return { ...checked, settled: { by, ...chosen } };
  }
  if (mean === undefined) {
    throw new TypeError("Give the mean DTG of the campaign: the protocol places edges or parts windows by it");
  }
  const step_C = checked.grid.step_C;
  const edges: NonNullable<Settled["edges"]> = [];
  const resolved: NonNullable<Settled["resolved"]> = [];
  const placed = (window: Window, edge: "from" | "to"): number => {
    const fixed_C = edge === "from" ? window.from_C : window.to_C;
    if (!window.placement) return fixed_C;
    const { tolerance_C } = window.placement;
    const from_C = fixed_C - tolerance_C;
    const to_C = fixed_C + tolerance_C;
    // The peaks on both sides stand no further away than the width of the range again.
    const range = {
      from_C,
      to_C,
      within_C: [from_C - 2 * tolerance_C, to_C + 2 * tolerance_C] as [number, number],
      step_C,
    };
    const valley = mean && findValley(mean, range);
    edges.push({
      window: window.name,
      edge,
      fixed_C,
      placed_C: valley?.temperature ?? null,
      prominence: valley ? round(valley.prominence) : null,
    });
    return valley?.temperature ?? fixed_C;
  };
  const windows = checked.windows.flatMap((window): Window[] => {
    const {
      placement: _,
      resolve,
      ...rest
    } = { ...window, from_C: placed(window, "from"), to_C: placed(window, "to") };
    if (!resolve) return [rest];
    const [from_C, to_C] = resolve.between_C;
    const range = { from_C, to_C, within_C: [rest.from_C, rest.to_C] as [number, number], step_C, summits: true };
    const valley = mean && findValley(mean, range);
    resolved.push({
      window: window.name,
      at_C: valley?.temperature ?? null,
      prominence: valley ? round(valley.prominence) : null,
    });
    if (!valley) return [rest];
    // The rule of a part is the step: a straight baseline through the valley would cut both peaks off.
    const part = (i: 0 | 1, range: Pick<Window, "from_C" | "to_C">): Window => ({
      name: resolve.into[i],
      ...range,
      rule: "step",
      note: `${i === 0 ? "Lower" : "Upper"} part of ${window.name}.`,
      ...(resolve.amounts ? { amount: resolve.amounts[i] } : {}),
    });
    return [
      rest,
      part(0, { from_C: rest.from_C, to_C: valley.temperature }),
      part(1, { from_C: valley.temperature, to_C: rest.to_C }),
    ];
  });
  const by = mean ? `${mean.runs} runs of ${mean.regimes} regimes` : "no common curve: fixed edges";
  return checkProtocol({ ...checked, windows, settled: { by, ...chosen, edges, resolved } }) as SettledProtocol;
}

function round(prominence: number): number {
  return Number(Math.min(prominence, 1e6).toPrecision(3));
}
