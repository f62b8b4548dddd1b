import { describe, expect, test } from "vitest";
import { draftSheet } from "../../src/campaign/draftSheet.ts";
import { parseMixes } from "../../src/campaign/parseMixes.ts";

const d = 1440;
const timesOf = (...files: string[]) => draftSheet(files).rows.map(({ curing_d, age_min }) => [curing_d, age_min]);

describe("of two durations of a name", () => {
  test.for([
    // A word says which is which, even where the other order would do too.
    [["x_moist_7d_7d.txt"], [[7, 7 * d]]],
    [["x_7d_moist_7d.txt"], [[7, 7 * d]]],
    [["x_moist7d_28d.txt"], [[7, 28 * d]]],
    [["x_28d_moist7d.txt"], [[7, 28 * d]]],
    [["x_7d_age7d.txt"], [[7, 7 * d]]],
    [["x_age7d_7d.txt"], [[7, 7 * d]]],
    [["x_moist_3d_age7d.txt"], [[3, 7 * d]]],
    [["x_age28d_wet_7d.txt"], [[7, 28 * d]]],
    // Without a word the one that is never longer.
    [
      ["x_7d_28d.txt", "x_28d_28d.txt"],
      [
        [28, 28 * d],
        [7, 28 * d],
      ],
    ],
    [
      ["x_28d_7d.txt", "x_7d_7d.txt"],
      [
        [7, 28 * d],
        [7, 7 * d],
      ],
    ],
    // A word of curing against the clock is no word, and an age is never a curing.
    [["x_moist_28d_7d.txt"], [[7, 28 * d]]],
    [["x_age7d_28d.txt"], [[null, null]]],
    [["x_7d_7d.txt"], [[null, null]]],
    [["x_moist7d.txt"], [[null, null]]],
    [["x_moist_7d.txt"], [[null, 7 * d]]],
  ] as [string[], (number | null)[][]][])("%j are curing and age %j", ([files, times]) => {
    expect(timesOf(...files)).toEqual(times);
  });

  test("the order is told by the first pair of names", () => {
    expect(draftSheet(["x_7d_28d.txt", "x_28d_28d.txt"]).remarks).toContain(
      "Of two durations in a name one is the length of curing, the other the age: of 28d and 28d, 28d is curing.",
    );
    expect(draftSheet(["x_moist_7d_28d.txt"]).remarks).toContain(
      "Of two durations in a name one is the length of curing, the other the age: of 7d and 28d, 7d is curing.",
    );
    expect(draftSheet(["x_7d.txt"]).remarks.join(" ")).not.toContain("durations");
  });
});

describe("a mix table", () => {
  const problems = (column: string, cell: string) =>
    parseMixes(`mix,${column}\nM,${cell}\n`, { name: "m.csv" }).problems.map(({ message }) => message);

  test.for([
    ["w_b", ["0.01", "5"], ["0", "-1", "5.1"], "above 0 and at most 5"],
    ["loi_binder_pct", ["0", "99.9"], ["-0.1", "100"], "at least 0 and below 100"],
    ["sand_binder_ignited", ["0", "50"], ["-1", "50.1"], "at least 0 and at most 50"],
    ["u_w_b", ["0", "5"], ["-0.1", "5.1"], "at least 0 and at most 5"],
    ["u_loi_binder_pct", ["0", "100"], ["-0.1", "100.1"], "at least 0 and at most 100"],
    ["u_sand_binder_ignited", ["0", "50"], ["-0.1", "50.1"], "at least 0 and at most 50"],
    ["polymer_pct", ["0", "100"], ["-0.1", "100.1"], "at least 0 and at most 100"],
    ["belite_pct", ["0", "100"], ["-0.1", "100.1"], "at least 0 and at most 100"],
    ["Belite_PCT", ["0", "100"], ["-0.1"], "at least 0 and at most 100"],
  ] as const)("takes %s of %j, and not of %j", ([column, inside, outside, allowed]) => {
    for (const cell of inside) expect(problems(column, cell), cell).toEqual([]);
    for (const cell of outside)
      expect(problems(column, cell), cell).toEqual([`the number must be ${allowed}, not "${cell}"`]);
  });

  test.for(["w/b", "W-B", "wb", "w/c", "wb ratio", "LOI", "loi_pct", "loi binder", "u_loi", "sand_binder", "polymer"])(
    "a column %s was meant to be one that the table knows",
    (column) => {
      expect(problems(column, "1")[0]).toMatch(
        / is not a column that the mix table knows: did you mean \w+\? Otherwise rename it$/,
      );
    },
  );

  test("further columns are numbers where every cell is one, else text", () => {
    const contents = (...cells: string[]) =>
      parseMixes(`mix;kind\n${cells.map((cell, i) => `M${i};${cell}`).join("\n")}\n`, { name: "m.csv" }).rows.map(
        ({ contents: { kind } }) => kind,
      );
    expect(contents("1", "12.75", "+.5", "-3e2", "1.5E-12", "2.")).toEqual([1, 12.75, 0.5, -300, 1.5e-12, 2]);
    expect(contents("1,25", ",5", "")).toEqual([1.25, 0.5, undefined]);
    for (const text of ["1a", "a1", "1.2.3", "1e", "e5", "--1", "1e+", ".", "x", "12,5 g", "1ex"]) {
      expect(contents("7", text), text).toEqual(["7", text]);
    }
  });

  test("a short decimal comma is read in any column of numbers, and refused where a point stands", () => {
    const read = (text: string) => parseMixes(text, { name: "m.csv" });
    expect(read("mix;w_b;kind\nM;0,45;1,5\n").rows[0]).toMatchObject({ w_b: 0.45, contents: { kind: 1.5 } });
    expect(read("mix;w_b;kind\nM;0,45;1.5\n").problems.length).toBeGreaterThan(0);
    // A point in a name is no decimal.
    expect(read("mix;w_b;retarder\nM1.5;0,45;no.5\n").rows[0]).toMatchObject({ mix: "M1.5", w_b: 0.45 });
    expect(read("mix;retarder;w_b\n1.5;2.5;0,45\n").rows[0]).toMatchObject({ mix: "1.5", w_b: 0.45 });
  });
});
