import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { toCurve } from "../../src/curve/toCurve.ts";
import { losses } from "../../src/losses/losses.ts";
import type { Mix } from "../../src/phases/types.ts";
import { indexBytes } from "../../src/protocol/indexBytes.ts";
import { indexCurve } from "../../src/protocol/indexCurve.ts";
import { indexRun } from "../../src/protocol/indexRun.ts";
import { newJob } from "../../src/protocol/newJob.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { Protocol, RunDone } from "../../src/protocol/types.ts";
import { makeRun, ramp } from "../makeRun.ts";

const sigmoid = (T: number, at: number, width: number) => 1 / (1 + Math.exp((at - T) / width));
/** 40 mg that lose 8 mg about 120 °C, 2 mg about 280 °C and 2 mg about 700 °C: 28 mg are left. */
const tg = (T: number) => 40 - 8 * sigmoid(T, 120, 4) - 2 * sigmoid(T, 280, 4) - 2 * sigmoid(T, 720, 8);
const csa = settle(protocols.csa);
const value = (m: { value: number } | { missing: string }) => ("value" in m ? m.value : m.missing);

function heated(
  options: { from?: number; to?: number; rate?: number; scale?: number; massUnit?: "mg" | "%"; time?: boolean } = {},
) {
  const { from = 25, to = 1000, rate = 10, scale = 1, massUnit = "mg", time: timed = true } = options;
  const { temperature, time } = ramp(from, to, { rows: Math.round((to - from) * 4), rate });
  return makeRun(
    temperature,
    temperature.map((T) => scale * tg(T)),
    { time: timed ? time : null, massUnit, name: "a.txt" },
  );
}

const indices = (run: RunDone) => Object.fromEntries(run.windows.map((w) => [w.window, value(w.index)]));

describe("the indices of a run", () => {
  const indexed = () => indexRun(heated(), csa);

  test("are g per 100 g of ignited mass", () => {
    const result = indexed();
    expect(value(result.ignited_mass_mg)).toBeCloseTo(28, 4);
    const found = indices(result);
    expect(found["aft-afm"]).toBeCloseTo(800 / 28, 2);
    expect(found.carbonate).toBeCloseTo(200 / 28, 2);
    expect(found["bound-water"]).toBeCloseTo(1000 / 28, 2);
    expect(value(result.residue_pct)).toBeCloseTo(70, 3);
    expect(value(result.loi_pct)).toBeCloseTo(30, 3);
    expect(result.status).toBe("done");
    expect(result.flags).toEqual([]);
  });

  test("are plain JSON data", () => {
    const result = indexed();
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });

  test("do not change with the scale of the mass, while the losses do (property)", () => {
    const result = indexed();
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 20, noNaN: true }), (scale) => {
        const scaled = indexRun(heated({ scale }), csa);
        result.windows.forEach((w, i) => {
          expect(value(scaled.windows[i]!.index)).toBeCloseTo(value(w.index) as number, 8);
          expect((value(scaled.windows[i]!.loss_mg) as number) / scale).toBeCloseTo(value(w.loss_mg) as number, 8);
        });
      }),
      { seed: 20, numRuns: 15 },
    );
  });

  test("are the same from % of the initial mass; only the losses in mg are missing", () => {
    const result = indexed();
    const percent = indexRun(heated({ scale: 2.5, massUnit: "%" }), csa);
    expect(value(percent.windows[0]!.index)).toBeCloseTo(value(result.windows[0]!.index) as number, 8);
    expect(percent.windows[0]!.loss_mg).toEqual({ missing: "no-absolute-mass" });
    expect(value(percent.windows[0]!.loss_pct_initial)).toBeCloseTo(20, 3);
    expect(percent.initial_mass_mg).toBeNull();
    expect(percent.noise_ug).toBeNull();
    expect(percent.flags.map((f) => f.code)).toEqual(["no-absolute-mass"]);
    expect(percent.status).toBe("done");
  });

  test("name the rule they follow and carry both step and area", () => {
    const result = indexed();
    const ah3 = result.windows.find((w) => w.window === "ah3")!;
    expect(ah3.rule).toBe("area");
    expect(ah3.index).toEqual(ah3.index_area);
    expect(value(ah3.index_step)).toBeGreaterThanOrEqual(value(ah3.index_area) as number);
  });

  test("can be taken again from the curve under other windows", () => {
    const other = settle({ ...protocols.csa, basis: "initial" } satisfies Protocol);
    const curve = toCurve(heated(), csa);
    const again = indexCurve(curve, losses(curve, other), { protocol: other });
    expect(value(again.windows[0]!.index)).toBeCloseTo(20, 3);
    expect(again.windows[0]!.basis).toBe("initial");
  });
});

describe("what the run sheet adds", () => {
  test("age, mix and specimen go into the result; ages in days", () => {
    const job = newJob("a.txt", {
      mix: "M",
      curing: "sealed",
      curing_d: 3,
      age_min: 90,
      specimen: "S1",
      replicate: "2",
    });
    const result = indexRun(heated(), csa, { job });
    expect(result).toMatchObject({
      file: "a.txt",
      mix: "M",
      curing: "sealed",
      curing_d: 3,
      age_d: 0.0625,
      specimen: "S1",
      replicate: "2",
    });
  });

  test("a furnace residue stands in for a run that stops before ignition", () => {
    const stopped = heated({ to: 860 });
    expect(indexRun(stopped, csa).windows[0]!.index).toEqual({ missing: "ends-before-ignition" });
    const result = indexRun(stopped, csa, { job: { residue_mg: 28 } });
    expect(value(result.windows[0]!.index)).toBeCloseTo(800 / 28, 2);
    expect(result.status).toBe("done");
    expect(result.flags).toEqual([]);
  });

  test("the basis binder needs the loss of the binder, and says so", () => {
    const binder = settle({ ...protocols.csa, basis: "binder" });
    const without = indexRun(heated(), binder, { mix: null });
    expect(without.windows[0]!.index).toEqual({ missing: "no-binder-loss" });
    expect(without.status).toBe("incomplete");
    expect(without.flags.map((f) => f.code)).toEqual(["no-binder-loss"]);
    const mix: Mix = {
      mix: "M",
      w_b: null,
      loi_binder_pct: 5,
      sand_binder_ignited: null,
      u_w_b: null,
      u_loi_binder_pct: null,
      u_sand_binder_ignited: null,
      polymer_pct: null,
      retarder: null,
      contents: {},
    };
    expect(value(indexRun(heated(), binder, { mix }).windows[0]!.index)).toBeCloseTo((800 / 28) * 0.95, 2);
  });
});

describe("flags of the protocol's limits", () => {
  test.for([
    [{ rate: 2 }, "heating-rate-outside", "The heating rate is 2.0 K/min; the windows hold for 5–20 K/min."],
    [{ rate: 40 }, "heating-rate-outside", "The heating rate is 40.0 K/min; the windows hold for 5–20 K/min."],
    [{ from: 48 }, "starts-warm", "The run starts at 48 °C, above 45 °C."],
  ] as const)("%j raises %s", ([options, code, sentence]) => {
    const { flags } = indexRun(heated(options), csa);
    expect(flags.map((f) => [f.code, f.sentence])).toEqual([[code, sentence]]);
  });

  test("a specimen that loses mass before the first window was not dry", () => {
    const { temperature, time } = ramp(25, 1000, { rows: 4000, rate: 10 });
    const wet = makeRun(
      temperature,
      temperature.map((T) => tg(T) - 0.6 * sigmoid(T, 40, 1)),
      { time },
    );
    expect(indexRun(wet, csa).flags.map((f) => f.sentence)).toEqual([
      "1.50 % of the initial mass is gone before the first window (50 °C).",
    ]);
  });
});

describe("bytes of a file", () => {
  const text = (rows: string[]) => new TextEncoder().encode(rows.join("\n"));
  const { temperature, time } = ramp(25, 1000, { rows: 4000, rate: 10 });

  test("become a result with provenance", () => {
    const bytes = text([
      "t/s\tT/°C\tm/mg",
      ...temperature.map((T, i) => `${time[i]!.toFixed(2)}\t${T.toFixed(3)}\t${tg(T).toFixed(5)}`),
    ]);
    const result = indexBytes(bytes, newJob("b.txt", { mix: "M" }), { protocol: csa, sha256: "ab" });
    expect(result).toMatchObject({ status: "done", file: "b.txt", mix: "M", sha256: "ab", rows_read: 4000 });
    expect(value((result as RunDone).windows[0]!.index)).toBeCloseTo(800 / 28, 2);
  });

  test("that are no table become a failure with its reason, not an exception", () => {
    const result = indexBytes(text(["nothing", "to see"]), newJob("c.txt", { mix: "M" }), { protocol: csa });
    expect(result.status).toBe("failed");
    expect(result).toMatchObject({ file: "c.txt", mix: "M", error: { message: expect.stringContaining("c.txt") } });
  });

  test("with a mass of nothing before heating become a failure that says what to do", () => {
    const bytes = text([
      "t/s\tT/°C\tm/mg",
      ...temperature.map((T, i) => `${i}\t${T.toFixed(3)}\t${(-0.1 - T / 1e5).toFixed(5)}`),
    ]);
    expect(indexBytes(bytes, newJob("e.txt"), { protocol: csa })).toMatchObject({
      status: "failed",
      error: { code: "no-initial-mass", message: expect.stringContaining("e.txt: the first mass is -0.1") },
    });
    expect(indexBytes(bytes, newJob("e.txt", { role: "blank" }), { protocol: csa })).toMatchObject({
      status: "done",
      windows: [],
    });
  });

  test("that never heat up become a failure", () => {
    const bytes = text(["t/s\tT/°C\tm/mg", ...Array.from({ length: 50 }, (_, i) => `${i}\t25.0\t10.000`)]);
    expect(indexBytes(bytes, newJob("d.txt"), { protocol: csa })).toMatchObject({
      status: "failed",
      error: {
        code: "no-heating",
        message: "d.txt: the temperature never rises by more than 5 °C: this is not a heating run",
      },
    });
  });
});
