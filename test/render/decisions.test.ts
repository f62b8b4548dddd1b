import { beforeAll, describe, expect, test } from "vitest";
import { ageWords } from "../../src/campaign/ageWords.ts";
import type { Decisions } from "../../src/campaign/decisions.ts";
import type { Campaign } from "../../src/campaign/types.ts";
import { compare } from "../../src/compare/compare.ts";
import { contrasts } from "../../src/compare/contrasts.ts";
import { parseMargin } from "../../src/compare/parseMargin.ts";
import { planReplicates } from "../../src/compare/planReplicates.ts";
import { CAUTION, sufficientCuring } from "../../src/compare/sufficientCuring.ts";
import { regimeWords } from "../../src/compare/words.ts";
import { indexFolder } from "../../src/files/indexFolder.ts";
import { readProperties } from "../../src/files/readProperties.ts";
import { contrastsCsv } from "../../src/render/contrastsCsv.ts";
import { decisionsText } from "../../src/render/decisionsText.ts";
import { planningCsv } from "../../src/render/planningCsv.ts";
import { sufficientCsv } from "../../src/render/sufficientCsv.ts";
import { textTable } from "../../src/render/textTable.ts";
import { constant, makeCell } from "../compare/makeCell.ts";
import { root } from "../house/root.ts";

const scatter = constant(1, 12);
const moist = { reference: { curing: "moist" } } as const;

describe("contrasts.csv", () => {
  test("has exactly these columns", () => {
    expect(contrastsCsv([]).trimEnd()).toBe(
      "quantity,unit,mix,curing,curing_d,age_d,reference,n,n_reference,value,value_reference,difference,lo95,hi95,lo90,hi90,df,p,p_adjusted,ratio_pct,ratio_lo95,ratio_hi95,margin,difference_verdict,equivalence_verdict,smallest_margin,robust,method",
    );
  });

  test("a row without a verdict keeps its values and leaves the rest empty", () => {
    const { rows } = contrasts(
      [makeCell([40, 42], { scatter }), makeCell([30], { curing: "air", curing_d: 0, scatter })],
      moist,
    );
    expect(contrastsCsv(rows).split("\n")[1]).toBe(
      "strength,MPa,M1,air,0,28,moist,1,2,30,41,-11,,,,,,,,73.1707317,,,,one-specimen,one-specimen,,,pooled",
    );
  });

  test("robust says what it is not robust against, and what could not be tried", () => {
    const [row] = contrasts(
      [makeCell([40, 42], { scatter }), makeCell([30, 31], { curing: "air", scatter })],
      moist,
    ).rows;
    const cellOf = (given: object) =>
      contrastsCsv([{ ...row!, ...given }])
        .split("\n")[1]!
        .split(",")
        .at(-2);
    expect(cellOf({ robust: "yes" })).toBe("yes");
    expect(cellOf({ robust: "yes", untested: ["from-5"] })).toBe("yes (without from-5)");
    expect(cellOf({ robust: "not tested", untested: ["from-5"] })).toBe("not tested");
    expect(cellOf({ robust: "no", sensitive_to: ["area (difference)", "to+5 (equivalence)"] })).toBe(
      "no: area (difference);to+5 (equivalence)",
    );
  });
});

test("sufficient.csv: the caution stands in every row, with margin and requirement as they were stated", () => {
  const cells = [7, 3, 1].map((curing_d, i) =>
    makeCell(
      [
        [41, 42],
        [40, 41],
        [30, 31],
      ][i]!,
      { curing: "cloth", curing_d, scatter },
    ),
  );
  const rows = sufficientCuring(cells, {
    test_age_min: 28 * 1440,
    margins: parseMargin("10%"),
    requirements: [{ quantity: "strength", at: "least", value: 24, unit: "MPa" }],
  });
  const lines = sufficientCsv(rows).trimEnd().split("\n");
  expect(lines[0]).toBe(
    "quantity,unit,mix,curing,age_d,longest_d,margin,requirement,curing_d,tested,n,value,share_pct,share_lower95,p,df,bound95,verdict,sufficient_d,caution",
  );
  expect(lines).toHaveLength(4);
  for (const line of lines.slice(1)) {
    expect(line.startsWith("strength,MPa,M1,cloth,28,7,10 %,>= 24 MPa,")).toBe(true);
    expect(line.endsWith(`,3,"${CAUTION}"`) || line.endsWith(`,3,${CAUTION}`)).toBe(true);
  }
});

test("planning.csv: a quantity without any difference to ask about has one row", () => {
  const rows = planReplicates([
    makeCell([-1, 1], { scatter: constant(1.4, 2) }),
    makeCell([0, 2], { curing: "air", scatter: constant(1.4, 2) }),
  ]);
  expect(planningCsv(rows).trimEnd().split("\n")[1]).toMatch(/^strength,MPa,0\.5,1\.4,2,2,2,1,[\d.]+,[\d.]+,,,,$/);
});

test("a table: columns as wide as their widest cell, empty ones left out, wide letters counted twice", () => {
  const columns = [{ heading: "a" }, { heading: "b", align: "right" }, { heading: "c" }] as const;
  expect(
    textTable(columns, [
      ["漢字", "1", ""],
      ["x", "100", ""],
    ]),
  ).toEqual(["a       b", "漢字    1", "x     100"]);
});

describe("the summary of the example", () => {
  let campaign: Campaign;
  let decisions: Decisions;
  let text: string;
  beforeAll(async () => {
    const folder = `${root}fixtures/example`;
    ({ campaign } = await indexFolder(folder, { jobs: 1 }));
    const { rows } = (await readProperties(undefined, { folder }))!;
    decisions = compare(campaign, { reference: "sealed", margins: parseMargin("10%"), properties: rows });
    text = decisionsText(decisions);
  });

  /** Items such as `strength at 3 d (90 %), 7 d*` behind a word, by regime. */
  function claims(word: string): Map<string, string[]> {
    const found = new Map<string, string[]>();
    let regime = "";
    for (const line of text.split("\n\n")[1]!.split("\n").slice(1)) {
      const [, name] = /^(\S.*)$/.exec(line) ?? [];
      if (name !== undefined) regime = name;
      else if (line.startsWith(`  ${word}: `)) {
        const items = line
          .slice(word.length + 4, -1)
          .split("; ")
          .flatMap((part) => {
            const [quantity, ages] = part.split(" at ") as [string, string];
            return ages.split(/, | and /).map((age) => `${quantity} ${/^\d+ \w+/.exec(age)![0]}`);
          });
        found.set(regime, items);
      }
    }
    return found;
  }

  test.for([
    ["lower", "difference_verdict", "lower"],
    ["higher", "difference_verdict", "higher"],
    ["within the margin", "equivalence_verdict", "within margin"],
  ] as const)("claims as %s exactly what has that verdict", ([word, column, verdict]) => {
    const told = [...claims(word)].flatMap(([regime, items]) => items.map((item) => `${regime}: ${item}`)).sort();
    const true_ = decisions.contrasts
      .filter((row) => row.against === "regime" && row[column] === verdict)
      .map((row) => `${row.mix}, ${regimeWords(row)}: ${row.quantity} ${ageWords(row.age_d)}`)
      .sort();
    expect(told).toEqual(true_);
    expect(told.length).toBeGreaterThan(5);
  });

  test("what is not shown is listed as open, never as the same", () => {
    const open = [...claims("neither a difference nor agreement shown")].flatMap(([regime, items]) =>
      items.map((item) => `${regime}: ${item}`),
    );
    const expected = decisions.contrasts
      .filter(
        (row) =>
          row.against === "regime" &&
          row.difference_verdict === "not shown" &&
          row.equivalence_verdict !== "within margin",
      )
      .map((row) => `${row.mix}, ${regimeWords(row)}: ${row.quantity} ${ageWords(row.age_d)}`);
    expect(open.sort()).toEqual(expected.sort());
    // Every "the same" of the summary: "same mix, same age", "does not mean that the values are the same", "that it is the same is not
    // shown either", "the same pieces were measured".
    for (const [sentence] of text.matchAll(/[^.:;(]*\bsame\b[^.;)]*/g)) {
      expect(sentence).toMatch(/same mix, same age|does not mean|not shown either|same pieces|same-specimens/);
    }
  });

  test("every term of statistics comes with what it means", () => {
    for (const gloss of [
      /the risk of even one false claim among .* is at most 5 % \(Holm's adjustment\)/,
      /not shown: these data cannot tell\. It does not mean that the values are the same\./,
      /within margin: shown to differ by less than the stated margin/,
      /n: specimens of the cell \/ of the reference/,
      /p: the risk of so large a difference by chance/,
      /could show: the smallest margin .* \(80 % power\)/,
      /robust: whether the verdicts stay what they are when an edge of the window moves by 5 °C/,
      /Theil–Sen: the middle of the slopes of all pairs of specimens/,
      /test of order on the specimens \(Jonckheere–Terpstra/,
      /whatever their values: that takes five ages or more \(Mann–Kendall\)/,
      /Correlation r: 1 they rise together, −1 one falls as the other rises/,
      /p: how often chance pairing gives such an r/,
      /A correlation is no cause/,
      /sd: scatter of single specimens/,
    ]) {
      expect(text).toMatch(gloss);
    }
  });

  test("ages thrown together are labelled as growth, below the ones that put the age aside", () => {
    const adjusted = text.indexOf("Differences from the mean of each age, since everything grows with age:");
    const pooled = text.indexOf("Ages thrown together. This shows growth, not that one makes the other:");
    expect(adjusted).toBeGreaterThan(0);
    expect(pooled).toBeGreaterThan(adjusted);
  });

  test("the caution stands wherever sufficient curing stands, judged or not", () => {
    expect(text.split("HOW SHORT A CURING IS ENOUGH?")[1]).toContain(CAUTION);
    const unjudged = decisionsText({
      ...decisions,
      sufficient: decisions.sufficient.map((row) => ({ ...row, margin: null, requirement: null })),
    });
    expect(unjudged.split("HOW SHORT A CURING IS ENOUGH?")[1]).toContain(CAUTION);
  });

  test("a long campaign sends the reader to the table", () => {
    const many = { ...decisions, contrasts: [...decisions.contrasts, ...decisions.contrasts, ...decisions.contrasts] };
    expect(decisionsText(many)).toMatch(/\d+ comparisons: they stand in contrasts\.csv \(--out\), one per row\./);
  });

  test("what could not be judged stands at the end, with the reason", () => {
    const remarks = ["2 of 2 comparisons have no verdict (one-specimen), since …"];
    expect(decisionsText({ ...decisions, remarks }).endsWith(`WHAT COULD NOT BE JUDGED\n${remarks[0]}\n`)).toBe(true);
  });
});
