import { describe, expect, test } from "vitest";
import { checkLossOptions } from "../../src/losses/checkLossOptions.ts";
import { checkPeakSpec } from "../../src/losses/checkPeakSpec.ts";
import type { PeakFitSpec } from "../../src/losses/fitTypes.ts";
import type { LossOptions, Window } from "../../src/losses/types.ts";

describe("windows and ignition", () => {
  const options = (
    more: { window?: Partial<Window>; temperature_C?: number; settled?: unknown } = {},
  ): LossOptions => ({
    windows: [{ name: "w", from_C: 50, to_C: 220, rule: "step", ...more.window }],
    ignition: {
      ...{ temperature_C: more.temperature_C ?? 950, half_width_C: 5, hold_min: 5, max_loss: 0.1, check_C: 50 },
    },
    settled: ("settled" in more ? more.settled : { by: "fixed edges" }) as LossOptions["settled"],
  });

  test.for([
    {},
    { window: { anchor_C: 170 } },
    { window: { anchor_C: 0.1 } },
    { temperature_C: 800 },
    { temperature_C: 1000 },
  ])("%j can work", (more) => {
    expect(() => checkLossOptions(options(more))).not.toThrow();
  });

  test.for([
    [{ window: { to_C: 50 } }, "Window w: from_C must lie below to_C, not 50 and 50"],
    [{ window: { from_C: Number.NaN } }, "Window w: from_C must lie below to_C, not NaN and 220"],
    [{ window: { anchor_C: 0 } }, "Window w: anchor_C must be above 0 and no wider than the window, not 0"],
    [{ window: { anchor_C: -5 } }, "Window w: anchor_C must be above 0 and no wider than the window, not -5"],
    [{ window: { anchor_C: 170.5 } }, "Window w: anchor_C must be above 0 and no wider than the window, not 170.5"],
    [{ window: { anchor_C: Number.NaN } }, "Window w: anchor_C must be above 0 and no wider than the window, not NaN"],
    [{ temperature_C: 799 }, "ignition.temperature_C must lie between 800 and 1000 °C, not 799"],
    [{ temperature_C: 1001 }, "ignition.temperature_C must lie between 800 and 1000 °C, not 1001"],
    [{ temperature_C: Number.NaN }, "ignition.temperature_C must lie between 800 and 1000 °C, not NaN"],
  ] as [Parameters<typeof options>[0], string][])("%j cannot", ([more, message]) => {
    expect(() => checkLossOptions(options(more))).toThrow(new RangeError(message));
  });

  test.for([undefined, null])("settled must be there, not %s", (settled) => {
    expect(() => checkLossOptions(options({ settled }))).toThrow(
      new TypeError(
        "Settle the protocol first: losses are taken under a settled protocol only (field `settled` is missing)",
      ),
    );
  });
});

describe("peaks", () => {
  const peak = { name: "a", position_C: [100, 140] as [number, number], width_C: 30 };
  const spec: PeakFitSpec = { peaks: [peak], from_C: 50, to_C: 300, baseline: "linear" };
  const refusing = (change: Partial<PeakFitSpec>, message: string) =>
    expect(() => checkPeakSpec({ ...spec, ...change })).toThrow(new RangeError(message));

  test.for([
    {},
    { width_u_pct: 0, asymmetry_u: 0 },
    { limits: { area_u_pct: 0, misfit_pct: 0, merged_pct: 0, merged_times: 0 } },
    { peaks: [{ ...peak, asymmetry: 2 }] },
    { peaks: [{ ...peak, asymmetry: -2 }] },
    { peaks: [{ ...peak, width_C: 249.9 }] },
    { peaks: [{ ...peak, position_C: [50.1, 299.9] }] },
    { peaks: [peak, { ...peak, name: "b" }] },
  ] as Partial<PeakFitSpec>[])("%j can work", (change) => {
    expect(() => checkPeakSpec({ ...spec, ...change })).not.toThrow();
  });

  test.for([
    [120, 120],
    [50, 140],
    [100, 300],
    [45, 140],
    [100, 310],
    [Number.NaN, 140],
    [100, Number.NaN],
  ] as [number, number][])("a position from %d to %d °C cannot", ([low, high]) => {
    const message = `Peak a: position_C must rise and lie inside 50–300 °C, not ${low} and ${high}`;
    refusing({ peaks: [{ ...peak, position_C: [low, high] }] }, message);
  });

  test.for([0, -1, 250, 251, Number.NaN])("a width of %d °C cannot", (width_C) => {
    const message = `Peak a: width_C must be above 0 and below the range of the fit, not ${width_C}`;
    refusing({ peaks: [{ ...peak, width_C }] }, message);
  });

  test.for([2.01, -2.01, Number.NaN])("an asymmetry of %d cannot", (asymmetry) => {
    refusing({ peaks: [{ ...peak, asymmetry }] }, `Peak a: asymmetry must lie between -2 and 2, not ${asymmetry}`);
  });

  test.for([
    [{ to_C: 50 }, "Peak fit: from_C must lie below to_C, not 50 and 50"],
    [{ width_u_pct: -0.1 }, "Peak fit: width_u_pct must be zero or more, not -0.1"],
    [{ width_u_pct: Number.POSITIVE_INFINITY }, "Peak fit: width_u_pct must be zero or more, not Infinity"],
    [{ asymmetry_u: -1 }, "Peak fit: asymmetry_u must be zero or more, not -1"],
    [{ limits: { misfit_pct: -1 } }, "Peak fit: misfit_pct must be zero or more, not -1"],
    [{ limits: { merged_pct: Number.NaN } }, "Peak fit: merged_pct must be zero or more, not NaN"],
    [{ limits: { merged_times: -3 } }, "Peak fit: merged_times must be zero or more, not -3"],
  ] as [Partial<PeakFitSpec>, string][])("%j cannot", ([change, message]) => {
    refusing(change, message);
  });
});
