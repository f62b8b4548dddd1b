import { describe, expect, test } from "vitest";
import { amountRows } from "../../src/campaign/amountRows.ts";
import { flag } from "../../src/flags.ts";
import type { Measured } from "../../src/measured.ts";
import type { PhaseResult } from "../../src/phases/types.ts";
import { known, makeFailure, makeResult } from "./makeResult.ts";

const phase = (value: number | string, more: Partial<PhaseResult> = {}): PhaseResult => {
  const amount: Measured = typeof value === "string" ? { missing: value } : known(value);
  return { phase: "ah3", window: "ah3", mol_lost: 3, basis: "ignited", amount, flags: [], ...more };
};
const run = (file: string, phases: PhaseResult[], more: Parameters<typeof makeResult>[2] = {}) =>
  makeResult(file, [1, 1], { phases, ...more });
const none = { amount_sd: null, u_random: null, u_shared: null, df: null, amount_lo95: null, amount_hi95: null };

describe("amounts of a cell", () => {
  test("are kept apart by phase, window and basis, in the order in which they come", () => {
    const kinds = [
      phase(1),
      phase(2, { basis: "paste" }),
      phase(3, { window: "late" }),
      phase(4, { phase: "ettringite", mol_lost: 26 }),
    ];
    const rows = amountRows([[run("a", kinds), makeFailure("f")]]);
    expect(rows.map((row) => [row.phase, row.window, row.basis, row.mol_lost, row.amount])).toEqual([
      ["ah3", "ah3", "ignited", 3, known(1)],
      ["ah3", "ah3", "paste", 3, known(2)],
      ["ah3", "late", "ignited", 3, known(3)],
      ["ettringite", "ah3", "ignited", 26, known(4)],
    ]);
    for (const row of rows) {
      expect(row).toMatchObject({
        mix: "M1",
        curing: "moist",
        curing_d: 7,
        age_d: 7,
        ...none,
        n_specimens: 1,
        n_runs: 1,
      });
    }
  });

  test("are rows of the cells that have them only", () => {
    const rows = amountRows([[run("a", [phase(1)])], [run("b", [], { age_d: 28 })], [makeFailure("c", { age_d: 90 })]]);
    expect(rows.map(({ age_d }) => age_d)).toEqual([7]);
    expect(amountRows([])).toEqual([]);
  });

  test("have the scatter of their kind, pooled over the cells, and intervals by it", () => {
    const cell = (age_d: number, values: number[]) =>
      values.map((value, i) => run(`${age_d}-${i}`, [phase(value), phase(50 + value, { basis: "paste" })], { age_d }));
    const [ignited, paste, single] = amountRows([cell(1, [9, 11]), cell(2, [20])]);
    // s = √2 at 10, in proportion: 14.14 %; t(0.975; 1) = 12.706 (table of Student's t).
    expect(ignited).toMatchObject({ n_specimens: 2, n_runs: 2, u_shared: 0, df: 1 });
    expect(ignited!.amount_sd).toBeCloseTo(Math.SQRT2, 12);
    expect(ignited!.u_random).toBeCloseTo(1, 12);
    expect(ignited!.amount_lo95).toBeCloseTo(10 - 12.706, 3);
    expect(ignited!.amount_hi95).toBeCloseTo(10 + 12.706, 3);
    expect(ignited!.amount).toMatchObject({ value: 10, u: expect.closeTo(1, 12) });
    expect("terms" in ignited!.amount && ignited!.amount.terms).toEqual([
      { cause: "specimens", effect: expect.closeTo(1, 12), key: 'specimens:["M1","moist",7,1,"ah3","ah3"]' },
    ]);
    expect(paste!.u_random).toBeCloseTo(1, 12);
    expect(single).toMatchObject({ age_d: 2, n_specimens: 1, amount_sd: null });
    expect(single!.u_random).toBeCloseTo(0.2 * Math.SQRT2 * 10, 9);
  });

  test("say what is missing: one code by itself, several as runs-missing", () => {
    const rows = (...codes: string[]) => amountRows([codes.map((code, i) => run(`${i}`, [phase(code)]))]);
    // For one reason alike, the missing number says which.
    expect(rows("no-lime-source", "no-lime-source")[0]).toMatchObject({
      ...{ ...none, amount: { missing: "no-lime-source" }, n_specimens: 0, n_runs: 0, flags: [] },
    });
    const sentence = "2 of 2 runs have no amount: 0 (no-lime-source), 1 (no-water-ratio).";
    expect(rows("no-lime-source", "no-water-ratio")[0]!.flags).toMatchObject([
      { code: "runs-missing", sentence, window: "ah3" },
    ]);
    const [some] = amountRows([[run("a", [phase("no-lime-source")]), run("b", [phase(1)])]]);
    expect(some!.flags.map((one) => one.sentence)).toEqual(["1 of 2 runs have no amount: a (no-lime-source)."]);
    expect(rows("no-lime-source", "no-water-ratio")[0]!.amount).toEqual({ missing: "runs-missing" });
  });

  test("carry what is said of the runs behind them, note by note not, sorted by code", () => {
    const flagged = (file: string, value: number | string, ...codes: Parameters<typeof flag>[0][]) =>
      run(file, [phase(value, { flags: codes.map((code) => flag(code, "Said.", "ah3")) })]);
    const later = { ...flag("no-time", "Said.", "ah3"), code: "code-of-tomorrow", severity: "serious" };
    const odd = run("d", [phase(1, { flags: [later as ReturnType<typeof flag>] })]);
    const [row] = amountRows([
      [
        flagged("a", 1, "hydroxyl-uncorrected", "below-detection"),
        flagged("b", 2, "hydroxyl-uncorrected", "afm-unproven"),
        flagged("c", "no-lime-source", "hydroxyl-refused"),
        odd,
      ],
    ]);
    const notes = ["below-detection", "hydroxyl-uncorrected", "afm-unproven", "hydroxyl-refused"].filter(
      (code) => flag(code as Parameters<typeof flag>[0], "x").severity === "note",
    );
    expect(row!.flags.map(({ code, sentence, window }) => [code, sentence, window])).toEqual(
      [
        ["runs-missing", "1 of 4 runs have no amount: c (no-lime-source).", "ah3"],
        ["afm-unproven", "Flagged in 1 of 4 runs: b.", "ah3"],
        ["below-detection", "Flagged in 1 of 4 runs: a.", "ah3"],
        ["hydroxyl-refused", "Flagged in 1 of 4 runs: c.", "ah3"],
        ["hydroxyl-uncorrected", "Flagged in 2 of 4 runs: a, b.", "ah3"],
      ].filter(([code]) => !notes.includes(code!)),
    );
    // One of them is a note, or the filter would not be seen.
    expect(notes.length).toBeGreaterThan(0);
    expect(row!.flags.length).toBeGreaterThan(2);
  });
});
