import { expect, test } from "vitest";
import type { Window } from "../../src/losses/types.ts";
import { steepEdges } from "../../src/protocol/steepEdges.ts";
import type { ShiftedIndices } from "../../src/protocol/types.ts";

const window: Window = { name: "w", from_C: 50, to_C: 220, rule: "step" };

function said(value: number, shifted: Partial<ShiftedIndices>, u = 0.1): string[] {
  const all = { from_down: null, from_up: null, to_down: null, to_up: null, ...shifted };
  return steepEdges(window, { value, u, terms: [] }, all).map(({ sentence }) => sentence);
}

test("an edge is steep where 5 °C of it change the index by more than a twentieth and twice its uncertainty", () => {
  expect(said(10, { from_up: 9.4, to_up: 10.49 })).toEqual([
    "5 °C of the edge at 50 °C of the window w are 0.60 g per 100 g, 6 % of the index.",
  ]);
  expect(said(10, { from_up: 9.4 }, 0.3)).toEqual([]);
  expect(steepEdges(window, { missing: "window-truncated" }, {} as ShiftedIndices)).toEqual([]);
});

test("next to an index of nothing a share says nothing", () => {
  expect(said(0.005, { to_down: 0.315 })).toEqual([
    "5 °C of the edge at 220 °C of the window w are 0.31 g per 100 g, more than the index itself.",
  ]);
});
