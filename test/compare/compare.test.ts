import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { campaignFromJson } from "../../src/campaign/campaignFromJson.ts";
import type { ContrastRow, Decisions } from "../../src/campaign/decisions.ts";
import { summarise } from "../../src/campaign/summarise.ts";
import type { Campaign } from "../../src/campaign/types.ts";
import { type CompareOptions, compare } from "../../src/compare/compare.ts";
import { CompareError } from "../../src/compare/compareError.ts";
import { parseMargin } from "../../src/compare/parseMargin.ts";
import { parseProperties } from "../../src/compare/parseProperties.ts";
import { parseRequirement } from "../../src/compare/parseRequirement.ts";
import type { PropertyRow } from "../../src/compare/types.ts";
import { writtenForm } from "../../src/compare/writtenForm.ts";
import { indexFolder } from "../../src/files/indexFolder.ts";
import { campaignJson } from "../../src/render/campaignJson.ts";
import { makeResult, twoWindows } from "../campaign/makeResult.ts";
import { csv } from "../cli/csv.ts";
import { root } from "../house/root.ts";

const folder = `${root}fixtures/example`;
const { rows: properties } = parseProperties(readFileSync(`${folder}/properties.csv`, "utf8"), {
  name: "properties.csv",
});
const truth = csv(`${folder}/truth.csv`);

/** What is true of a cell of the example: its own truth.csv. */
function trueValue(quantity: string, cell: Pick<ContrastRow, "mix" | "curing" | "curing_d" | "age_d">): number {
  const row = truth.find(
    (one) =>
      one.name === quantity &&
      one.kind !== "phase" &&
      one.mix === cell.mix &&
      one.curing === cell.curing &&
      one.curing_d === `${cell.curing_d ?? ""}` &&
      Number(one.age_d) === cell.age_d,
  )!;
  return Number(row.kind === "window" ? row.index : row.value);
}

let campaign: Campaign;
let decisions: Decisions;
const asked: CompareOptions = {
  reference: "sealed",
  margins: parseMargin("10%"),
  requirements: [parseRequirement("strength>=4300 psi")],
  properties,
};
beforeAll(async () => {
  ({ campaign } = await indexFolder(folder, { jobs: 1 }));
  decisions = compare(campaign, asked);
});

const find = (quantity: string, regime: string, age_d: number) =>
  decisions.contrasts.find(
    (row) =>
      row.against === "regime" &&
      row.quantity === quantity &&
      `${row.curing}${row.curing_d ?? ""}` === regime &&
      row.age_d === age_d,
  )!;

describe("the planted truths of the example", () => {
  test("more hydrate, no more strength: found, and said as it is", () => {
    const ah3 = find("ah3", "ponded", 28);
    expect(trueValue("ah3", ah3)).toBeGreaterThan(1.15 * trueValue("ah3", { ...ah3, curing: "sealed" }));
    expect(ah3.difference_verdict).toBe("higher");
    expect(find("strength", "ponded", 28).difference_verdict).toBe("not shown");
    const sentences = decisions.parted.filter(({ curing, property }) => curing === "ponded" && property === "strength");
    expect(sentences.map(({ age_d, quantities }) => [age_d, quantities.includes("ah3")])).toEqual([
      [7, true],
      [28, true],
    ]);
    expect(sentences[1]!.sentence).toMatch(/more ah3 \(\d+ %\).*, but no higher strength \(\d+ %\) was shown/);
  });

  test("a truly zero difference is not called one, at any age, and is shown to be within 10 %", () => {
    for (const age of [1, 3, 7, 28]) {
      const row = find("strength", "ponded", age);
      expect(trueValue("strength", row)).toBe(trueValue("strength", { ...row, curing: "sealed" }));
      expect([row.difference_verdict, row.equivalence_verdict]).toEqual(["not shown", "within margin"]);
    }
    const early = find("strength", "cloth1", 1);
    expect(trueValue("strength", early)).toBe(trueValue("strength", { ...early, curing: "sealed", curing_d: null }));
    expect(early.difference_verdict).toBe("not shown");
  });

  test("a clear loss of strength is called one", () => {
    const row = find("strength", "cloth1", 28);
    expect(
      trueValue("strength", row) / trueValue("strength", { ...row, curing: "sealed", curing_d: null }),
    ).toBeCloseTo(0.78, 9);
    expect([row.difference_verdict, row.equivalence_verdict]).toEqual(["lower", "outside margin"]);
  });

  test("a loss that is too small to see is not called one, though it is there", () => {
    const row = find("strength", "cloth7", 28);
    expect(
      trueValue("strength", row) / trueValue("strength", { ...row, curing: "sealed", curing_d: null }),
    ).toBeCloseTo(0.98, 9);
    expect(row.difference_verdict).toBe("not shown");
  });

  test("no difference is claimed the wrong way round, and no agreement or disagreement that is not there", () => {
    let shown = 0;
    for (const row of decisions.contrasts) {
      if (row.p === null) continue;
      const reference = row.against === "age" ? { ...row, age_d: 28 } : { ...row, curing: "sealed", curing_d: null };
      const difference = trueValue(row.quantity, row) - trueValue(row.quantity, reference);
      const where = `${row.quantity} ${row.curing} ${row.curing_d} ${row.age_d} against ${row.reference}`;
      if (row.difference_verdict === "lower") expect(difference, where).toBeLessThan(0);
      if (row.difference_verdict === "higher") expect(difference, where).toBeGreaterThan(0);
      if (row.difference_verdict !== "not shown") shown++;
      const margin = 0.1 * Math.abs(trueValue(row.quantity, reference));
      if (row.equivalence_verdict === "within margin") expect(Math.abs(difference), where).toBeLessThan(margin);
      if (row.equivalence_verdict === "outside margin") expect(Math.abs(difference), where).toBeGreaterThan(margin);
    }
    expect(shown).toBeGreaterThan(40);
  });

  test("about 70 % of the 28-day strength after the first day", () => {
    const row = decisions.properties.find(
      ({ property, curing, age_d }) => property === "strength" && curing === "sealed" && age_d === 1,
    )!;
    expect(row.share_lo95!).toBeLessThan(70);
    expect(row.share_hi95!).toBeGreaterThan(70);
  });

  test("three days are enough for strength, one is not; both follow from what was put in", () => {
    const row = decisions.sufficient.find(({ quantity }) => quantity === "strength")!;
    expect(row).toMatchObject({ mix: "M1", curing: "cloth", age_d: 28, longest_d: 7, sufficient_d: 3 });
    expect(row.steps.map(({ curing_d, curing, verdict }) => [curing_d, curing, verdict])).toEqual([
      [7, "cloth", "longest"],
      [3, "cloth", "holds"],
      [1, "cloth", "not shown"],
      [0, "air", "not reached"],
    ]);
    // 4300 psi are 29.65 MPa (1 psi = 6894.757 Pa, NIST Special Publication 811).
    expect(row.requirement!.unit).toBe("MPa");
    expect(row.requirement!.value).toBeCloseTo(29.6475, 3);
  });

  test("retention against the reference regime and change of length since the end of curing", () => {
    const strength = decisions.properties.find(
      ({ property, curing, curing_d, age_d }) =>
        property === "strength" && curing === "cloth" && curing_d === 1 && age_d === 28,
    )!;
    expect(strength.retention_lo95!).toBeLessThan(78);
    expect(strength.retention_hi95!).toBeGreaterThan(78);
    const length = decisions.properties.find(
      ({ property, curing_d, age_d }) => property === "length_change" && curing_d === 1 && age_d === 28,
    )!;
    const cell = { mix: "M1", curing: "cloth", curing_d: 1 };
    const change =
      trueValue("length_change", { ...cell, age_d: 28 }) - trueValue("length_change", { ...cell, age_d: 1 });
    expect(length.since_curing_lo95!).toBeLessThan(change);
    expect(length.since_curing_hi95!).toBeGreaterThan(change);
    expect(
      decisions.properties.filter(({ property, since_curing }) => property === "strength" && since_curing !== null),
    ).toEqual([]);
  });

  test("psi and % of the second mix are in the units of the first", () => {
    const rows = decisions.properties.filter(({ mix }) => mix === "M2");
    expect(rows.map(({ property, unit }) => [property, unit])).toEqual([
      ["length_change", "microstrain"],
      ["strength", "MPa"],
    ]);
    for (const row of rows) {
      const value = trueValue(row.property, row);
      expect(row.lo95!).toBeLessThan(value);
      expect(row.hi95!).toBeGreaterThan(value);
    }
  });

  test("strength follows the water of the hydrates, given the age", () => {
    const row = decisions.together.find(
      ({ property, quantity, mix }) => property === "strength" && quantity === "bound-water" && mix === "M1",
    )!;
    expect(row).toMatchObject({ adjusted_for: "age", method: "pearson", verdict: "rise together", n_cells: 11 });
  });
});

describe("the same from everywhere", () => {
  test("from memory and from campaign.json", () => {
    expect(compare(campaignFromJson(campaignJson(campaign)), asked)).toEqual(decisions);
  });

  test("in any order of runs and properties; nothing is changed", () => {
    const before = structuredClone(campaign);
    const other = compare(
      { ...campaign, runs: campaign.runs.toReversed() },
      { ...asked, properties: [...properties].sort((a, b) => b.value - a.value) },
    );
    // Without a specimen's name the order of rows would name it; here all are named.
    expect(other.contrasts).toEqual(decisions.contrasts);
    expect(other.sufficient).toEqual(decisions.sufficient);
    expect(campaign).toEqual(before);
  });

  test("decisions come back from campaign.json as they were written", () => {
    const back = campaignFromJson(campaignJson({ ...campaign, decisions }));
    expect(back.decisions).toEqual(writtenForm(decisions));
    expect(campaignFromJson(campaignJson(campaign))).not.toHaveProperty("decisions");
  });
});

describe("what cannot be compared as asked", () => {
  test.for([
    [
      { reference: "lime" },
      'There is no curing regime "lime". There are: air:0, cloth:1, cloth:3, cloth:7, ponded, sealed.',
    ],
    [{ reference_age_d: 14 }, "No cell has the reference age 14d. There are: 1d, 3d, 7d, 28d."],
    [{ test_age_d: 90 }, "No cell has the age at test 90d. There are: 1d, 3d, 7d, 28d."],
    [
      { margins: parseMargin("strenght=10%") },
      'The margin names "strenght", which is no window and no property here. Did you mean strength? There are: aft-afm, ah3, ch-range, carbonate, bound-water, length_change, strength.',
    ],
    [{ margins: parseMargin("0%") }, "Give a margin above 0 and below 100 %, not 0 %."],
    [{ margins: parseMargin("120%") }, "Give a margin above 0 and below 100 %, not 120 %."],
    [
      { margins: parseMargin("aft-afm=2 MPa") },
      "The margin for aft-afm is in MPa, which does not convert into g/100 g: give it in g/100 g.",
    ],
    [
      { requirements: [parseRequirement("strength>=5 kN")] },
      "The requirement for strength is in kN, which does not convert into MPa: give it in MPa.",
    ],
    [
      { requirements: [parseRequirement("slump>=5 cm")] },
      'The requirement names "slump", which is no window and no property here. There are: aft-afm, ah3, ch-range, carbonate, bound-water, length_change, strength.',
    ],
    [
      { properties: [{ ...(properties[0] as PropertyRow), property: "ah3" }] },
      'The property "ah3" has the name of a window: give it another name.',
    ],
  ] as const)("%j", ([given, message]) => {
    expect(() =>
      compare(campaign, { ...asked, ...given, ...("properties" in given ? { margins: [], requirements: [] } : {}) }),
    ).toThrow(new CompareError(message));
  });

  test("a campaign without a specimen", () => {
    const empty = summarise([makeResult("a.txt", [1, 2], { role: "blank" })], { protocol: twoWindows });
    expect(() => compare(empty, { reference: "moist" })).toThrow(
      "No run has the role specimen: there is nothing to compare.",
    );
  });
});

describe("odd designs", () => {
  const run = (file: string, curing: string, age_d: number | null, index: number, specimen = file) =>
    makeResult(file, [index, index / 5], { curing, curing_d: null, age_d, specimen });

  test("one specimen everywhere, three aliquots of it: no verdict, and the reason in words", () => {
    const runs = ["moist", "air"].flatMap((curing) =>
      [1, 2, 3].map((i) => run(`${curing}${i}.txt`, curing, 28, curing === "moist" ? 20 + i : 10 + i, `${curing} A`)),
    );
    const { contrasts, remarks, planning } = compare(summarise(runs, { protocol: twoWindows }), { reference: "moist" });
    expect(contrasts.map(({ n, difference_verdict }) => [n, difference_verdict])).toEqual([
      [1, "one-specimen"],
      [1, "one-specimen"],
    ]);
    expect(planning).toEqual([]);
    expect(remarks).toEqual([
      "2 of 2 comparisons have no verdict (one-specimen), since one of the two cells has one specimen, whose scatter nobody knows: measure at least two, better three. They are: aft-afm of M1, air at 28 d against moist; ah3 of M1, air at 28 d against moist.",
      "No cell has two specimens: how far specimens scatter is not known, and no difference can be judged.",
    ]);
  });

  test("unequal ages: what has no partner says so; the reference age is the latest where nothing was tested at 28 d", () => {
    const runs = [
      ...[20, 21].map((index, i) => run(`m${i}.txt`, "moist", 7, index)),
      ...[15, 16].map((index, i) => run(`a${i}.txt`, "air", 3, index)),
      ...[17, 18].map((index, i) => run(`b${i}.txt`, "air", 7, index)),
    ];
    const { contrasts, asked: heard } = compare(summarise(runs, { protocol: twoWindows }), { reference: "moist" });
    expect(heard.reference_age_d).toBe(7);
    expect(
      contrasts
        .filter(({ quantity }) => quantity === "aft-afm")
        .map(({ curing, age_d, reference, difference_verdict }) => [curing, age_d, reference, difference_verdict]),
    ).toEqual([
      ["air", 3, "moist", "no-reference"],
      ["air", 7, "moist", expect.stringMatching(/lower|not shown/)],
      ["air", 3, "age 7d", expect.stringMatching(/lower|not shown/)],
    ]);
  });

  test("no ages at all: regimes are compared, growth and sufficient curing are not asked", () => {
    const runs = ["moist", "air"].flatMap((curing, k) =>
      [0, 1, 2].map((i) => run(`${curing}${i}.txt`, curing, null, 20 - 5 * k + i)),
    );
    const found = compare(summarise(runs, { protocol: twoWindows }), {
      reference: "moist",
      margins: parseMargin("10%"),
    });
    expect(found.asked).toMatchObject({ reference_age_d: null, test_age_d: null });
    expect(found.contrasts[0]).toMatchObject({ age_d: null, p: expect.any(Number) });
    expect([found.growth, found.sufficient]).toEqual([[], []]);
  });

  test("only the reference: nothing is held against it, and that is said", () => {
    const runs = [0, 1, 2].map((i) => run(`m${i}.txt`, "moist", 28, 20 + i));
    const { contrasts, remarks } = compare(summarise(runs, { protocol: twoWindows }), { reference: "moist" });
    expect(contrasts).toEqual([]);
    expect(remarks).toEqual(["There is no regime besides moist: nothing is held against it."]);
  });

  test("properties without any run of their cell are compared all the same", () => {
    const runs = [0, 1].map((i) => run(`m${i}.txt`, "moist", 28, 20 + i));
    const rows = parseProperties(
      "mix,curing,age_d,property,value,unit\nM1,moist,7,strength,30,MPa\nM1,moist,7,strength,31,MPa\nM1,air,7,strength,20,MPa\nM1,air,7,strength,21,MPa\n",
      { name: "p.csv" },
    ).rows;
    const found = compare(summarise(runs, { protocol: twoWindows }), { reference: "moist", properties: rows });
    expect(
      found.contrasts.find(({ quantity, against }) => quantity === "strength" && against === "regime"),
    ).toMatchObject({
      difference_verdict: "lower",
      robust: null,
    });
    expect(found.pairs).toEqual([]);
  });
});
