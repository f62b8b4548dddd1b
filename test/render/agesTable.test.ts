import { describe, expect, test } from "vitest";
import { summarise } from "../../src/campaign/summarise.ts";
import type { RunResult } from "../../src/protocol/types.ts";
import { agesTable } from "../../src/render/agesTable.ts";
import { terminalSafe } from "../../src/render/terminalSafe.ts";
import { textWidth } from "../../src/render/textWidth.ts";
import { makeFailure, makeResult, twoWindows } from "../campaign/makeResult.ts";

const tableOf = (...runs: RunResult[]) => agesTable(summarise(runs, { protocol: twoWindows }));

describe("the per-age table", () => {
  test("has a block per mix and curing, a line per age, decimal points below one another, and says what the numbers are", () => {
    // Half intervals from the pooled proportional scatter. aft-afm: one cell of two, s = √2·0.5 = 0.7071 of 18.7, ν = 1,
    // t = 12.706 (NIST/SEMATECH e-Handbook 1.3.6.7.2): 12.706·0.7071/√2 = 6.35; one specimen of 108.5 has s = 4.103: 52.13.
    // ah3: two cells, (0² + (0.07071/4.1)²)/2 = 0.01219², ν = 2, t = 4.303: 4.303·0.01219·4.1/√2 = 0.15, of −0.25: 0.01, of
    // one specimen of 14: 0.73.
    const table = tableOf(
      makeResult("a", [18.2, 4.05], { age_d: 1 / 6 }),
      makeResult("b", [19.2, 4.15], { age_d: 1 / 6 }),
      makeResult("c", [108.5, 14], { age_d: 28 }),
      makeFailure("d", { age_d: 28 }),
      makeResult("e", ["x", -0.25], { mix: "M0", curing: null, curing_d: null }),
      makeResult("f", ["x", -0.25], { mix: "M0", curing: null, curing_d: null }),
    );
    expect(table.split("\n")).toEqual([
      "       aft-afm               ah3",
      " age   step                  area",
      "M0",
      " 7 d        —         (0)*   -0.25 ± 0.01 (2)",
      "M1, moist for 7 d",
      " 4 h    18.70  ± 6.35 (2)     4.10 ± 0.15 (2)",
      "28 d   108.50 ± 52.13 (1)*   14.00 ± 0.73 (1)*",
      "",
      "Mass lost per window in g per 100 g of ignited mass: mean ± half of the 95 % interval (number of specimens).",
      "—: missing, for the reason in the column flags of ages.csv. *: flagged, see the column flags of ages.csv.",
      "Flags (number of values): runs-missing (3), x (1), one-specimen (2).",
      // One of the two cells does not scatter at all: the other has the whole of the variance, C = 1.
      "The specimens of M1, moist for 7 d at 4 h scatter more than the pooled scatter explains (Cochran's C 1.00, limit 1.00).",
      "",
    ]);
  });

  test("explains only the signs that stand in it", () => {
    const clean = [makeResult("a", [18.2, 4.05]), makeResult("b", [19.2, 4.15])];
    expect(tableOf(...clean)).not.toMatch(/Without|missing|flagged/);
    const alone = tableOf(makeResult("a", [18.2, 4.05]));
    expect(alone).toContain("\nWithout ±: no cell has two specimens");
    expect(alone).not.toMatch(/missing|flagged, see/);
  });

  test("labels of strangers cannot command the terminal or shift the columns", () => {
    const table = tableOf(
      makeResult("a", [1, 2], { mix: "A\u001b[2J\u202e", curing: "x\r\ny", gas: "N2" }),
      makeResult("b\u0007", [1, 2], { gas: "\u001b]0;title\u0007" }),
    );
    expect(table).not.toMatch(/(?!\n)[\p{Cc}\p{Cf}]/u);
    expect(table).toContain("A\\u{1b}[2J\\u{202e}, x\\u{d}\\u{a}y for 7 d");
    expect(table).toContain("\\u{1b}]0;title\\u{7} (1 run)");
  });

  test("without specimens says so", () => {
    expect(tableOf(makeResult("a", [1, 2], { role: "blank" }))).toBe(
      "No run has the role specimen: there is no per-age table.\n",
    );
  });
});

describe("terminalSafe", () => {
  test.for([
    ["plain, äöü, 试, ✓, 👩‍🔬", "plain, äöü, 试, ✓, 👩‍🔬"],
    ["\u001b[31mred\u001b[0m", "\\u{1b}[31mred\\u{1b}[0m"],
    ["a\nb\tc\rd", "a\\u{a}b\\u{9}c\\u{d}d"],
    ["\u009b31m", "\\u{9b}31m"],
    ["\u202eabc\u2066", "\\u{202e}abc\\u{2066}"],
    ["a\u200bb\ufeff", "a\\u{200b}b\\u{feff}"],
    ["\u2028", "\\u{2028}"],
    ["\ud800x", "\\u{d800}x"],
    ["\u{e0041}", "\\u{e0041}"],
  ] as const)("%j is written %j", ([text, safe]) => {
    expect(terminalSafe(text)).toBe(safe);
  });
});

describe("textWidth", () => {
  test.for([
    ["abc", 3],
    ["é", 1],
    ["e\u0301", 1],
    ["试样", 4],
    ["👩‍🔬", 2],
    ["±—", 2],
    ["", 0],
  ] as const)("%j takes %i columns", ([text, width]) => {
    expect(textWidth(text)).toBe(width);
  });
});
