import { describe, expect, test } from "vitest";
import { draftJobs } from "../../src/campaign/draftJobs.ts";
import { draftSheet } from "../../src/campaign/draftSheet.ts";
import { parseSheet } from "../../src/campaign/parseSheet.ts";
import { planRuns } from "../../src/campaign/planRuns.ts";

const rowsOf = (...files: string[]) =>
  draftSheet(files).rows.map(({ file, ...row }) => ({
    file,
    ...Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null && value !== "specimen")),
  }));
const d = 1440;

describe("a name by itself tells", () => {
  test.for([
    ["7d.txt", { age_min: 7 * d }],
    ["7D.TXT", { age_min: 7 * d }],
    ["7_days.csv", { age_min: 7 * d }],
    ["28-d.txt", { age_min: 28 * d }],
    ["28 days.txt", { age_min: 28 * d }],
    ["day 7.txt", { age_min: 7 * d }],
    ["day07.txt", { age_min: 7 * d }],
    ["age28d.txt", { age_min: 28 * d }],
    ["4h.txt", { age_min: 240 }],
    ["4 hours.txt", { age_min: 240 }],
    ["90min.txt", { age_min: 90 }],
    ["4w.txt", { age_min: 28 * d }],
    ["1.5d.txt", { age_min: 1.5 * d }],
    ["0,5d.txt", { age_min: 0.5 * d }],
    ["r3.txt", { replicate: "3" }],
    ["rep 2.txt", { replicate: "2" }],
    ["rep2.txt", { replicate: "2" }],
    ["Rep-02.txt", { replicate: "2" }],
    ["replicate_4.txt", { replicate: "4" }],
    ["28d_03.txt", { age_min: 28 * d, replicate: "3" }],
    ["A2_r3.txt", { replicate: "3" }],
    ["moist.txt", { curing: "moist" }],
    ["Sealed_7d.txt", { curing: "sealed", age_min: 7 * d }],
    ["moist_7d.txt", { curing: "moist", age_min: 7 * d }],
    ["7d/water/x_r1.txt", { curing: "water", age_min: 7 * d, replicate: "1" }],
    ["RH 95_1d.txt", { curing: "rh95", age_min: d }],
    ["50%rh_1d.txt", { curing: "rh50", age_min: d }],
    ["mixA_1d.txt", { mix: "mixA", age_min: d }],
    ["mix-B_1d.txt", { mix: "B", age_min: d }],
    ["prism2_1d.txt", { specimen: "2", age_min: d }],
    ["specimen 04_1d.txt", { specimen: "4", age_min: d }],
    ["curingB_1d.txt", { curing: "curingB", age_min: d }],
    ["moist7d_28d.txt", { curing: "moist", curing_d: 7, age_min: 28 * d }],
    ["28d_moist_7d.txt", { curing: "moist", curing_d: 7, age_min: 28 * d }],
    ["age28d_7d_wet.txt", { curing: "wet", curing_d: 7, age_min: 28 * d }],
    ["blank_2.txt", { role: "blank" }],
    ["anhydrous.txt", { role: "binder" }],
    ["aggregate.txt", { role: "aggregate" }],
  ] as const)("%s", ([file, known]) => {
    const [{ label: _label, ...row }] = rowsOf(file) as unknown as [Record<string, unknown>];
    expect(row).toEqual({ file, ...known });
  });

  test.for([
    ["moisture_d.txt"],
    ["2024-03-12.txt"],
    ["12.03.2024.txt"],
    ["20240312.txt"],
    ["mixture.txt"],
    ["99999d.txt"],
    ["A2_day7b.txt"],
    ["7m.txt"],
    ["report.txt"],
    ["__proto__.txt"],
  ] as const)("nothing from %s", ([file]) => {
    const [{ label: _label, ...row }] = rowsOf(file) as unknown as [Record<string, unknown>];
    expect(row).toEqual({ file });
  });
});

describe("the comparison of names", () => {
  test("a word that every name has says nothing, and is told", () => {
    const { rows, remarks } = draftSheet(["tg_moist_1d.txt", "tg_sealed_1d.txt"]);
    expect(rows.map(({ label }) => label)).toEqual([null, null]);
    expect(remarks).toContain("Every name has tg: if that is a mix or a curing regime, fill it in.");
  });

  test("a word of several cells is the mix where every name has a curing", () => {
    const { rows, remarks } = draftSheet(["K_moist_7d_r1.txt", "K_moist_28d_r1.txt", "L_moist_7d_r1.txt"]);
    expect(rows.map(({ mix, label }) => [mix, label])).toEqual([
      ["K", null],
      ["K", null],
      ["L", null],
    ]);
    expect(remarks[0]).toBe(
      "Taken for the mix, since the names leave no other place for it: K, L. Correct it if it is something else.",
    );
  });

  test("a word of several cells is the curing where every name has a mix", () => {
    expect(
      rowsOf("mixA_K_1d.txt", "mixA_K_7d.txt", "mixA_Q_7d.txt").map((row) => "curing" in row && row.curing),
    ).toEqual(["K", "K", "Q"]);
  });

  test("a word of one cell is the specimen where mix, curing and age are known", () => {
    const rows = draftSheet(["mixA_wet_7d_P1_r1.txt", "mixA_wet_7d_P1_r2.txt", "mixA_wet_7d_P2_r1.txt"]).rows;
    expect(rows.map(({ specimen, replicate }) => [specimen, replicate])).toEqual([
      ["P1", "1"],
      ["P1", "2"],
      ["P2", "1"],
    ]);
  });

  test("mix and curing are never guessed where neither is known", () => {
    const { rows, text, remarks } = draftSheet(["K_7d.txt", "K_28d.txt", "L_7d.txt"]);
    expect(rows.map(({ mix, curing, label }) => [mix, curing, label])).toEqual([
      [null, null, "K"],
      [null, null, "K"],
      [null, null, "L"],
    ]);
    expect(text.split("\n")[1]).toBe("K_28d.txt,,,,28d,,,specimen,,,label K");
    expect(remarks).toEqual([
      "The names do not tell the meaning of K, L (mix, curing, specimen …): left under note, fill in the columns.",
      "No mix in 3 of 3 names (K_28d.txt, K_7d.txt, L_7d.txt).",
      "No curing in 3 of 3 names (K_28d.txt, K_7d.txt, L_7d.txt).",
    ]);
  });

  test("a final number is a replicate where it starts anew in another group", () => {
    expect(rowsOf("A1d_01.txt", "A1d_02.txt", "B1d_01.txt").map((row) => "replicate" in row && row.replicate)).toEqual([
      "1",
      "2",
      "1",
    ]);
  });

  test.for([
    [["wet_1d_1.txt", "wet_1d_2.txt", "dry_1d_3.txt", "dry_1d_4.txt"], "runs through all names"],
    [["export_001.txt", "export_002.txt"], "has no age beside it"],
    [["wet_1d_7.txt", "wet_1d_28.txt", "dry_1d_7.txt"], "may be an age"],
  ] as const)("%j: a final number that %s is no replicate", ([files]) => {
    const { rows, remarks } = draftSheet(files);
    expect(rows.map(({ replicate }) => replicate)).toEqual(files.map(() => null));
    expect(remarks).toContain(
      `The final numbers of ${files.length} names could be running numbers, ages or replicates: they are left out of the columns.`,
    );
  });

  test("of two durations the one that never outlasts the other is that of curing", () => {
    const rows = draftSheet(["A_1d_28d.txt", "A_7d_28d.txt", "A_28d_28d.txt"]).rows;
    expect(rows.map(({ curing_d, age_min }) => [curing_d, age_min])).toEqual([
      [1, 28 * d],
      [28, 28 * d],
      [7, 28 * d],
    ]);
  });

  test.for([
    [["A_1d_28d.txt", "A_28d_7d.txt"]],
    [["A_7d_7d.txt"]],
    [["moist7d.txt", "moist28d.txt"]],
    [["moist_1d_dry_6d_x_28d.txt"]],
  ] as const)("%j: durations that could be either stay blank, and are told", ([files]) => {
    const { rows, remarks } = draftSheet(files);
    for (const { age_min, curing_d, label } of rows) {
      expect([age_min, curing_d]).toEqual([null, null]);
      expect(label).toMatch(/\d+d/);
    }
    expect(remarks[0]).toBe(
      `Durations in ${files.length} of ${files.length} names could be an age or the length of curing: both columns are blank.`,
    );
  });

  test("blank runs, dates, unnamed specimens are remarked", () => {
    expect(draftSheet(["blank_2024-03-12.txt", "mixA_wet_1d_r1_2024-03-12.txt"]).remarks).toEqual([
      "Replicates are numbered but specimens are not named: each row counts as a specimen of its own unless aliquots of one specimen get its name.",
      "Blank runs: blank_2024-03-12.txt. Name them under blank in the rows they belong to.",
      "Dates in the names were left out: if they are days of measurement, put them under session.",
    ]);
  });
});

describe("a drafted sheet", () => {
  const files = [
    "=cmd|' _7d.txt",
    "'-x_1d.txt",
    'quote"d, 4h.txt',
    "7d/moist/K_1.txt",
    "7d/moist/K_2.txt",
    "28d/moist/K_1.txt",
    "1.5d ünïcode 试.txt",
    "__proto___90min.txt",
  ];

  test("is read back without a problem, formula-like names included", () => {
    const { text, rows } = draftSheet(files);
    const plan = planRuns({ sheet: { name: "sheet.csv", text }, files });
    expect(plan.problems).toEqual([]);
    expect(plan.unlisted).toEqual([]);
    expect(plan.jobs.map(({ file, age_min, curing, replicate }) => ({ file, age_min, curing, replicate }))).toEqual(
      rows.map(({ file, age_min, curing, replicate }) => ({ file, age_min, curing, replicate })),
    );
    expect(text).not.toMatch(/(?:^|,|")[=+\-@]/m);
  });

  test("is the same for any order of the files, which stay as they are", () => {
    const reversed = Object.freeze([...files].reverse());
    expect(draftSheet(reversed)).toEqual(draftSheet(files));
  });

  test("has no rows for no files", () => {
    const { rows, text, remarks } = draftSheet([]);
    expect({ rows, remarks }).toEqual({ rows: [], remarks: [] });
    expect(parseSheet(text, { name: "s" }).rows).toEqual([]);
  });

  test("used unfinished, it keeps runs with unknown labels apart", () => {
    const jobs = draftJobs(draftSheet(["K_7d.txt", "L_7d.txt"]).rows);
    expect(jobs.map(({ mix, curing }) => [mix, curing])).toEqual([
      ["K", null],
      ["L", null],
    ]);
    const withMix = draftJobs(draftSheet(["mixA_K.txt", "mixA_L.txt"]).rows);
    expect(withMix.map(({ mix, curing }) => [mix, curing])).toEqual([
      ["mixA", "K"],
      ["mixA", "L"],
    ]);
  });
});
