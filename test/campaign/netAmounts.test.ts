import { describe, expect, test } from "vitest";
import { netAmounts } from "../../src/campaign/netAmounts.ts";
import { summarise } from "../../src/campaign/summarise.ts";
import type { Measured, Term } from "../../src/measured.ts";
import { amountBases } from "../../src/phases/amountBases.ts";
import type { Mix, PhaseResult } from "../../src/phases/types.ts";
import type { RunDone, RunResult } from "../../src/protocol/types.ts";
import { makeMix } from "../phases/makeMix.ts";
import { makeFailure, makeResult, twoWindows } from "./makeResult.ts";

/** A run with an amount of one phase, g per 100 g of ignited mass. */
function run(
  file: string,
  value: number | string,
  head: Partial<RunDone> & { phase?: string; terms?: Term[] } = {},
): RunDone {
  const { phase = "calcite", terms = [], ...rest } = head;
  const amount: Measured = typeof value === "string" ? { missing: value } : { value, u: null, terms };
  const bases = rest.role === "aggregate" || rest.role === "binder" ? [] : amountBases(amount, null).slice(1);
  const rows = [{ basis: "ignited" as const, amount }, ...bases];
  const phases = rows.map((row): PhaseResult => ({ phase, window: "carbonate", mol_lost: 1, flags: [], ...row }));
  return makeResult(file, [1, 1], { mix: "M", phases, ...rest });
}
const net = (runs: readonly RunResult[], mix: Mix, file = "a", basis = "ignited-net"): PhaseResult | undefined => {
  const found = netAmounts(runs, [mix]).find((one) => one.file === file)!;
  return found.status === "failed" ? undefined : found.phases.find((row) => row.basis === basis);
};
const value = (row: PhaseResult | undefined) => row && ("value" in row.amount ? row.amount.value : row.amount.missing);
const codes = (row: PhaseResult | undefined) => row?.flags.map(({ code }) => code);

describe("amounts net of binder and aggregate", () => {
  test("of a paste: gross less the binder's own per 100 g of ignited mass", () => {
    const runs = [run("a", 9), run("b", 3, { role: "binder" })];
    expect(value(net(runs, makeMix()))).toBe(6);
    // The gross rows stay.
    const rows = (netAmounts(runs, [makeMix()])[0] as RunDone).phases;
    expect(rows.map(({ basis }) => basis)).toEqual([
      "ignited",
      "binder",
      "paste",
      "ignited-net",
      "binder-net",
      "paste-net",
    ]);
    expect(value(rows[0])).toBe(9);
  });

  test("of a mortar: each by its share of the ignited mass, 1/(1 + s) and s/(1 + s)", () => {
    const mix = makeMix({ sand_binder_ignited: 3, loi_binder_pct: 4, w_b: 0.5 });
    const runs = [run("a", 9), run("b", 4, { role: "binder" }), run("c", 2, { role: "aggregate" })];
    // 9 − 4/4 − 2·3/4: of 100 g ignited mortar 25 g are binder and 75 g sand.
    expect(value(net(runs, mix))).toBe(6.5);
    expect(value(net(runs, mix, "a", "ignited-binder-net"))).toBe(26);
    expect(value(net(runs, mix, "a", "binder-net"))).toBeCloseTo(26 * 0.96, 9);
    expect(value(net(runs, mix, "a", "paste-net"))).toBeCloseTo((26 * 0.96) / 1.5, 9);
  });

  test("an aggregate without a mix serves every mortar, and no paste", () => {
    const runs = [run("a", 9), run("c", 2, { role: "aggregate", mix: null })];
    const mortar = net(runs, makeMix({ sand_binder_ignited: 1 }));
    expect(value(mortar)).toBe(8);
    expect(codes(mortar)).toEqual(["net-partial"]);
    expect(net(runs, makeMix({ sand_binder_ignited: 0 }))).toBeUndefined();
  });

  test("several runs of the binder are averaged", () => {
    expect(value(net([run("a", 9), run("b", 3, { role: "binder" }), run("c", 4, { role: "binder" })], makeMix()))).toBe(
      5.5,
    );
  });

  test("what the runs share cancels, what they do not adds", () => {
    const shared = (effect: number): Term => ({ cause: "temperature", effect, key: "temperature:B1" });
    const noise = (file: string): Term => ({ cause: "noise", effect: 0.3, key: `noise:${file}` });
    const runs = [
      run("a", 9, { terms: [shared(0.5), noise("a")] }),
      run("b", 3, { role: "binder", terms: [shared(0.4), { ...noise("b"), effect: 0.4 }] }),
    ];
    const { amount } = net(runs, makeMix())!;
    if ("missing" in amount) throw new Error(amount.missing);
    expect(amount.terms.find(({ key }) => key === "temperature:B1")!.effect).toBeCloseTo(0.1, 12);
    expect(amount.u).toBeCloseTo(Math.hypot(0.1, 0.3, 0.4), 12);
  });

  test("the error of the sand ratio is one error, with the derivative of the whole chain", () => {
    const chain = (s: number) => (1 + s) * (9 - 4 / (1 + s) - (2 * s) / (1 + s)) * 0.96;
    const mix = makeMix({ sand_binder_ignited: 3, u_sand_binder_ignited: 0.1, loi_binder_pct: 4 });
    const runs = [run("a", 9), run("b", 4, { role: "binder" }), run("c", 2, { role: "aggregate" })];
    const { amount } = net(runs, mix, "a", "binder-net")!;
    if ("missing" in amount) throw new Error(amount.missing);
    expect(amount.value).toBeCloseTo(chain(3), 9);
    expect(amount.terms.find(({ key }) => key === "mix:M:sand")!.effect).toBeCloseTo(
      (0.1 * (chain(3.001) - chain(2.999))) / 0.002,
      6,
    );
  });

  test("water of the anhydrous binder may have reacted: said where it is above its detection limit", () => {
    const terms = [{ cause: "noise", effect: 0.1, key: "noise:b" }];
    const runs = (binder: number) => [
      run("a", 9, { phase: "ettringite" }),
      run("b", binder, { role: "binder", phase: "ettringite", terms }),
    ];
    expect(codes(net(runs(4), makeMix()))).toEqual(["binder-water"]);
    expect(codes(net(runs(0.2), makeMix()))).toEqual([]);
    expect(codes(net([run("a", 9), run("b", 4, { role: "binder", terms })], makeMix()))).toEqual([]);
  });

  test.for([
    [[run("a", 9), run("c", 2, { role: "aggregate" })], makeMix(), "no-sand-ratio"],
    [[run("a", "ends-before-ignition"), run("b", 2, { role: "binder" })], makeMix(), "ends-before-ignition"],
    [[run("a", 9), run("b", "ends-before-ignition", { role: "binder" })], makeMix(), "ends-before-ignition"],
  ] as const)("%# is missing with its reason", ([runs, mix, code]) => {
    expect(value(net(runs, mix))).toBe(code);
  });

  test("what the mix lacks is said with its name, where it is missing and nowhere else", () => {
    const said = (row: PhaseResult | undefined) => row!.flags.map(({ code, sentence }) => `${code}: ${sentence}`);
    const sand = [run("a", 9), run("c", 2, { role: "aggregate" })];
    expect(said(net(sand, makeMix()))).toContain(
      "no-sand-ratio: Taking off the aggregate needs the ignited sand-to-binder ratio of the mix M.",
    );
    const both = [run("a", 9), run("b", 4, { role: "binder" }), run("c", 2, { role: "aggregate" })];
    const mix = makeMix({ sand_binder_ignited: 3, loi_binder_pct: 4 });
    expect(said(net(both, mix, "a", "paste-net"))).toEqual([
      "no-water-ratio: An amount per 100 g of paste needs the water-to-binder ratio of the mix M.",
    ]);
    for (const basis of ["ignited-net", "ignited-binder-net", "binder-net"]) {
      expect(codes(net(both, mix, "a", basis))).toEqual([]);
    }
    expect(codes(net(both, { ...mix, w_b: 0.5 }, "a", "paste-net"))).toEqual([]);
  });

  test("without such runs nothing is added; failed ones and other mixes do not count; a second time changes nothing", () => {
    const others = [run("b", 3, { role: "binder", mix: "N" }), makeFailure("c", { role: "binder", mix: "M" })];
    expect(net([run("a", 9), ...others], makeMix())).toBeUndefined();
    const once = netAmounts([run("a", 9), run("b", 3, { role: "binder" })], [makeMix()]);
    expect(netAmounts(once, [makeMix()])).toEqual(once);
  });

  test("a negative net amount is kept", () => {
    const terms = [{ cause: "noise", effect: 0.1, key: "noise:a" }];
    const row = net([run("a", 2, { terms }), run("b", 3, { role: "binder" })], makeMix());
    expect([value(row), codes(row)]).toEqual([-1, ["below-detection"]]);
  });
});

describe("amounts of a cell", () => {
  const cell = (runs: RunResult[]) => summarise(runs, { protocol: twoWindows, mixes: [makeMix()] }).amounts;

  test("are means over specimens, replicates first, with the interval of the pooled scatter", () => {
    const runs = [run("a", 10, { specimen: "S1" }), run("b", 12, { specimen: "S1" }), run("c", 14, { specimen: "S2" })];
    const [ignited] = cell(runs);
    expect(ignited).toMatchObject({ phase: "calcite", basis: "ignited", n_specimens: 2, n_runs: 3 });
    // Specimens 11 and 14: s = 3/√2, t(0.975, 1) = 12.706 (table of Student's t).
    expect(ignited!.amount).toMatchObject({ value: 12.5 });
    expect(ignited!.amount_sd).toBeCloseTo(3 / Math.SQRT2, 9);
    expect((ignited!.amount_hi95! - ignited!.amount_lo95!) / 2).toBeCloseTo(12.706 * 1.5, 2);
    expect(cell(runs).map(({ basis }) => basis)).toEqual(["ignited", "binder", "paste"]);
  });

  test("say what is missing", () => {
    const [ignited] = cell([run("a", 10), run("b", "hydroxyl-refused")]);
    expect(ignited).toMatchObject({ n_specimens: 1, amount: { value: 10 }, amount_lo95: null });
    expect(ignited!.flags.map(({ sentence }) => sentence)).toEqual([
      "1 of 2 runs have no amount: b (hydroxyl-refused).",
    ]);
    // What all lack for one reason is no run to be repeated.
    for (const runs of [[run("a", "hydroxyl-refused")], [run("a", "hydroxyl-refused"), run("b", "hydroxyl-refused")]])
      expect(cell(runs)[0]).toMatchObject({ amount: { missing: "hydroxyl-refused" }, flags: [] });
    const [mixed] = cell([run("a", "hydroxyl-refused"), run("b", "no-reference-mass")]);
    expect([mixed!.amount, codes(mixed!)]).toEqual([{ missing: "runs-missing" }, ["runs-missing"]]);
  });
});
