import { describe, expect, test } from "vitest";
import { addShape, meanShape, shapeOf } from "../../src/curve/meanShape.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import type { Window } from "../../src/losses/types.ts";
import type { Corrections } from "../../src/phases/types.ts";
import { checkProtocol, ProtocolError } from "../../src/protocol/checkProtocol.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import { makeRun } from "../makeRun.ts";

const aft: Window = { name: "aft", from_C: 50, to_C: 150, rule: "step", amount: { phase: "ettringite", mol_lost: 26 } };
const afm: Window = {
  name: "afm",
  from_C: 150,
  to_C: 220,
  rule: "step",
  amount: { phase: "monosulfate", mol_lost: 6 },
};
const ah3: Window = { name: "ah3", from_C: 220, to_C: 350, rule: "step", amount: { phase: "ah3", mol_lost: 3 } };
const ch: Window = { name: "ch", from_C: 400, to_C: 500, rule: "step", amount: { phase: "portlandite", mol_lost: 1 } };
const co2: Window = { name: "co2", from_C: 600, to_C: 850, rule: "step", amount: { phase: "calcite", mol_lost: 1 } };
const all = [aft, afm, ah3, ch, co2];
const without = ({ amount: _, ...window }: Window): Window => window;
const judge = (windows: Window[], corrections?: Corrections) => () =>
  checkProtocol({ ...protocols.csa, windows, ...(corrections ? { corrections } : {}) }, { name: "p.json" });

/** A window whose edges settling may move by so much. */
const placed = (window: Window, tolerance_C: number): Window => ({
  ...window,
  placement: { edges: "shared", tolerance_C },
});

describe("windows with amounts that settling would push over one another", () => {
  const what = "let them touch and give both the same placement, or lower tolerance_C, or leave placement out of both";

  test.for([
    ["only the upper", [aft, placed(afm, 10)], "aft may reach up to 150 °C and afm down to 140 °C"],
    ["only the lower", [placed(aft, 10), afm], "aft may reach up to 160 °C and afm down to 150 °C"],
    ["in any order", [afm, placed(aft, 10)], "aft may reach up to 160 °C and afm down to 150 °C"],
    ["tolerances differ", [placed(aft, 10), placed(afm, 20)], "aft may reach up to 160 °C and afm down to 130 °C"],
    [
      "across a gap",
      [placed({ ...aft, to_C: 140 }, 10), placed(afm, 10)],
      "aft may reach up to 150 °C and afm down to 140 °C",
    ],
  ] as [string, Window[], string][])("are refused before the work: %s", ([, windows, where]) => {
    const [first, second] = windows as [Window, Window];
    const twice = `so that one loss would be counted for ${first.amount!.phase} and for ${second.amount!.phase}`;
    const message = `p.json: windows[1] (${second.name}): by their placement ${where}, ${twice}: ${what}`;
    expect(judge(windows)).toThrow(new ProtocolError(message));
  });

  test("stand where the edge moves for both alike, the gap is wide enough, or one of them is an index only", () => {
    expect(judge([placed(aft, 10), placed(afm, 10)])).not.toThrow();
    expect(judge([placed({ ...aft, to_C: 130 }, 10), placed(afm, 10)])).not.toThrow();
    expect(judge([placed(aft, 10), without(afm)])).not.toThrow();
  });

  test("the hydroxyl water of a window that placement can push over its own is refused too", () => {
    const hydroxyl = { window: "ah3", aft: "aft", afm: "afm", k: 0.5 };
    expect(judge([aft, without(afm), placed(ah3, 10)], { hydroxyl })).toThrow(
      `corrections.hydroxyl: the windows must not overlap, and by their placement afm may reach up to 220 °C and ah3 down to 210 °C: ${what}`,
    );
  });

  test("an anchor that would not fit what placement can leave of the window is refused", () => {
    expect(judge([placed({ ...aft, anchor_C: 41 }, 30)])).toThrow(
      "p.json: windows[0] (aft): anchor_C must not be wider than the 40 °C that placement can leave, not 41",
    );
    expect(judge([placed({ ...aft, anchor_C: 40 }, 30)])).not.toThrow();
  });
});

describe("amounts of a protocol", () => {
  test("one phase per window is accepted", () => {
    expect(judge(all)).not.toThrow();
    expect(judge([{ ...aft, amount: { phase: "C6A$3H32", mol_lost: 24 } }])).not.toThrow();
  });

  test.for([
    [
      [{ ...ah3, rule: "area" }],
      "windows[0] (ah3): amount needs the rule step, not area: area takes part of the peak itself away (an isolated AH3 peak loses 13–17 %), so it compares runs but is no amount",
    ],
    [
      [{ ...ch, rule: "tangent", tangent: { before_C: [380, 400], after_C: [480, 520] } }],
      "windows[0] (ch): amount needs the rule step, not tangent: tangent takes part of the peak itself away (an isolated AH3 peak loses 13–17 %), so it compares runs but is no amount",
    ],
    [
      [{ ...aft, amount: { phase: "etringite", mol_lost: 26 } }],
      'windows[0] (aft): amount.phase: there is no phase "etringite": did you mean ettringite? Otherwise write it in cement shorthand (C6A$3H32)',
    ],
    [
      [{ ...aft, amount: { phase: "ettringite", mol_lost: 33 } }],
      "windows[0] (aft): amount: Give a number of moles above 0 and at most 32, the H2O of ettringite, not 33",
    ],
    [
      [{ ...aft, amount: { phase: "ettringite", mol_lost: 0 } }],
      "windows[0].amount.mol_lost must be at least 0.000001, not 0",
    ],
    [
      [aft, { ...afm, amount: { phase: "ettringite", mol_lost: 6 } }],
      "windows[1] (afm): ettringite is claimed by the window aft already: one window per phase",
    ],
    [
      [aft, { ...afm, amount: { phase: "metaettringite", mol_lost: 12 } }],
      "windows[1] (afm): metaettringite is claimed by the window aft already (as ettringite): one window per phase",
    ],
    [
      [aft, { ...afm, from_C: 140 }],
      "windows[1] (afm): the windows aft and afm overlap, so that one loss would be counted for ettringite and for monosulfate",
    ],
    [
      [
        {
          ...aft,
          to_C: 220,
          resolve: { between_C: [130, 180], into: ["a", "b"], amounts: [aft.amount!, aft.amount!] },
        },
      ],
      "windows[0] (aft): ettringite is claimed by the window aft already: one window per phase",
    ],
  ] as [Window[], string][])("%# is refused", ([windows, message]) => {
    expect(judge(windows)).toThrow(ProtocolError);
    expect(judge(windows)).toThrow(`p.json: ${message}`);
  });

  test("calcite and portlandite are two phases, gypsum and bassanite are one", () => {
    const gypsum = { ...aft, amount: { phase: "gypsum", mol_lost: 1.5 } };
    expect(judge([gypsum, { ...afm, amount: { phase: "bassanite", mol_lost: 0.5 } }])).toThrow("already (as gypsum)");
    expect(judge([ch, co2])).not.toThrow();
  });
});

describe("corrections of a protocol", () => {
  test.for([
    [{ hydroxyl: { window: "ah3", aft: "aft", afm: "afm" } }],
    [{ carbonation: { window: "ch", carbonate: "co2" } }],
    [{}],
  ] as [Corrections][])("%j is accepted", ([corrections]) => {
    expect(judge(all, corrections)).not.toThrow();
  });

  const apart =
    "corrections.hydroxyl: name AFt and AFm apart (aft and afm), or their common window with the share of AFm in its loss (aft_afm and afm_share): without one of them the correction cannot be told";
  test.for([
    [all, { hydroxyl: { window: "ah3" } }, apart],
    [all, { hydroxyl: { window: "ah3", aft: "aft" } }, apart],
    [all, { hydroxyl: { window: "ah3", aft_afm: "aft" } }, apart],
    [all, { hydroxyl: { window: "ah3", aft: "aft", afm: "afm", aft_afm: "aft", afm_share: 0.1 } }, apart],
    [
      all,
      { hydroxyl: { window: "ah4", aft: "aft", afm: "afm" } },
      "corrections.hydroxyl.window: there is no window ah4: did you mean ah3?",
    ],
    [
      all,
      { hydroxyl: { window: "co2", aft: "aft", afm: "afm" } },
      "corrections.hydroxyl.window: the window co2 needs an amount of ah3",
    ],
    [
      [aft, afm, { ...without(ah3), rule: "area" }],
      { hydroxyl: { window: "ah3", aft: "aft", afm: "afm" } },
      "corrections.hydroxyl.window: the window ah3 needs the rule step, not area",
    ],
    [
      [...all, { name: "wide", from_C: 50, to_C: 300, rule: "step" }],
      { hydroxyl: { window: "ah3", aft_afm: "wide", afm_share: 0.2 } },
      "corrections.hydroxyl: the windows ah3 and wide must not overlap",
    ],
    [
      all,
      { hydroxyl: { window: "ah3", aft: "aft", afm: "afm", k: 1.2 } },
      "corrections.hydroxyl.k must be at most 1, not 1.2",
    ],
    [
      all,
      { hydroxyl: { window: "ah3", aft: "aft", afm: "afm", kk: 1 } },
      "corrections.hydroxyl.kk is not a field of a protocol: did you mean k?",
    ],
    [
      all,
      { carbonation: { window: "ch", carbonate: "aft" } },
      "corrections.carbonation.carbonate: the window aft needs an amount of calcite",
    ],
  ] as [Window[], Corrections, string][])("%# is refused", ([windows, corrections, message]) => {
    expect(judge(windows, corrections)).toThrow(`p.json: ${message}`);
  });
});

describe("settling csa-amounts", () => {
  const meanOf = (...peaks: [loss_pct: number, peak_C: number, width_C: number][]) => {
    const sums = { regimes: new Map() };
    const model = {
      sample_mg: 40,
      reactions: peaks.map(([loss_pct, peak_C, width_C]) => placeReaction({ loss_pct, peak_C, width_C })),
      programme: { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] },
    };
    const { temperature_C, mass_mg, time_s } = simulateRun(model, { noise_ug: 1, seed: 5 });
    addShape(
      sums,
      "moist",
      shapeOf(toCurve(makeRun(temperature_C, mass_mg, { time: time_s }), protocols["csa-amounts"])),
    );
    return meanShape(sums);
  };

  test("with a minimum between AFt and AFm gives each its window and its amount", () => {
    const settled = settle(protocols["csa-amounts"], { mean: meanOf([9, 105, 25], [3, 185, 25], [3, 275, 35]) });
    const named = (name: string) => settled.windows.find((window) => window.name === name)!;
    expect(named("aft").amount).toEqual({ phase: "ettringite", mol_lost: 26 });
    expect(named("afm").amount).toEqual({ phase: "monosulfate", mol_lost: 6 });
    expect(named("aft").to_C).toBe(named("afm").from_C);
    expect(named("aft-afm").amount).toBeUndefined();
    // A settled protocol is written out and used again.
    expect(settle(JSON.parse(JSON.stringify(settled)))).toEqual(settled);
  });

  test("without one keeps the document valid: every run then says why there is no AH3", () => {
    const settled = settle(protocols["csa-amounts"], { mean: meanOf([9, 110, 40], [3, 275, 35]) });
    expect(settled.windows.map(({ name }) => name)).toEqual(protocols.csa.windows.map(({ name }) => name));
    expect(settled.settled.resolved).toEqual([{ window: "aft-afm", at_C: null, prominence: null }]);
    expect(checkProtocol(JSON.parse(JSON.stringify(settled)))).toEqual(settled);
  });
});
