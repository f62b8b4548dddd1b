import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { campaignFromJson } from "../../src/campaign/campaignFromJson.ts";
import { CAUTION } from "../../src/compare/sufficientCuring.ts";
import { tempFolder } from "../files/tempFolder.ts";
import { cli } from "./cli.ts";
import { csv } from "./csv.ts";

/** 20 mg that lose so much at once about 130 °C; the rest is left. */
function stepRun(loss: number): string {
  const rows = ["T/°C\tm/mg"];
  for (let T = 30; T <= 960; T += 1) rows.push(`${T}\t${(20 - loss / (1 + Math.exp((130 - T) / 5))).toFixed(6)}`);
  return `${rows.join("\n")}\n`;
}

const off = [-0.05, 0, 0.05];
/** Moist (4 mg lost), 7 d under cloth (3.9 mg) and in air (3 mg), three specimens each, at 28 d. */
const runs = Object.fromEntries(
  (
    [
      ["moist", 4],
      ["cloth", 3.9],
      ["air", 3],
    ] as const
  ).flatMap(([curing, loss]) => off.map((d, i) => [`data/${curing}${i}.txt`, stepRun(loss + d)])),
);
const sheet = `file,mix,curing,curing_d,age\n${off
  .flatMap((_, i) => [`moist${i}.txt,M1,moist,,28d`, `cloth${i}.txt,M1,cloth,7,28d`, `air${i}.txt,M1,air,0,28d`])
  .join("\n")}\n`;
const properties = `mix,curing,curing_d,age,property,value,unit\n${[
  ["moist", "", 42],
  ["cloth", 7, 41],
  ["cloth", 3, 40],
  ["air", 0, 30],
]
  .flatMap(([curing, days, value]) =>
    [-1, 0, 1].map((d) => `M1,${curing},${days},28d,strength,${Number(value) + d},MPa`),
  )
  .join("\n")}\n`;
const folder = (more: Record<string, string> = {}) =>
  tempFolder({ ...runs, "data/sheet.csv": sheet, "data/properties.csv": properties, ...more });

const outputs = [
  "campaign.json",
  "contrasts.csv",
  "datapackage.json",
  "growth.csv",
  "pairs.csv",
  "planning.csv",
  "properties.csv",
  "report.html",
  "sufficient.csv",
  "together.csv",
];

describe("the job", () => {
  test("a folder: the summary on stdout, the tables in the output folder, exit code 0", async () => {
    const cwd = folder();
    const argv = [
      "compare",
      "data",
      "--reference",
      "moist",
      "--margin",
      "strength=20%",
      "--out",
      "out",
      "--no-figures",
      "--jobs",
      "1",
    ];
    const { code, out, err } = await cli(argv, { cwd });
    expect(err.split("\n").at(-2)).toBe(
      "Wrote contrasts.csv, growth.csv, properties.csv, together.csv, pairs.csv, sufficient.csv, planning.csv, report.html, datapackage.json, campaign.json to out",
    );
    expect(code).toBe(0);
    expect(readdirSync(join(cwd, "out")).sort()).toEqual(outputs);
    expect(out).toContain("M1, air 0 d\n  lower: aft-afm at 28 d (71 %)");
    expect(out).toContain(
      "strength of M1 at 28 d, cloth: 3 d is the shortest shown to lose no more than 20 % against 7 d",
    );
    expect(out).toContain(CAUTION);
    const contrasts = csv(join(cwd, "out/contrasts.csv"));
    const air = contrasts.find(({ quantity, curing }) => quantity === "aft-afm" && curing === "air")!;
    // 3/17 against 4/16 in g per 100 g, the mean of the specimens.
    const index = (loss: number) => off.reduce((sum, d) => sum + (100 * (loss + d)) / (20 - loss - d), 0) / 3;
    expect(Number(air.difference)).toBeCloseTo(index(3) - index(4), 2);
    expect([air.n, air.n_reference, air.difference_verdict, air.equivalence_verdict]).toEqual([
      "3",
      "3",
      "lower",
      "no margin given",
    ]);
    const { decisions } = campaignFromJson(readFileSync(join(cwd, "out/campaign.json"), "utf8"));
    expect(decisions!.contrasts).toHaveLength(contrasts.length);
  });

  test("the folder and its campaign.json give the same bytes", async () => {
    const cwd = folder();
    const asked = ["--reference", "moist", "--margin", "10%", "--require", "strength>=24 MPa"];
    await cli(["index", "data", "--out", "indexed"], { cwd });
    const direct = await cli(["compare", "data", ...asked, "--out", "a"], { cwd });
    const argv = ["compare", "indexed/campaign.json", "--properties", "data/properties.csv", ...asked, "--out", "b"];
    const later = await cli(argv, { cwd });
    expect(later.out).toBe(direct.out);
    // The report names what was asked for.
    for (const name of outputs.filter((output) => output !== "report.html")) {
      expect(readFileSync(join(cwd, "b", name)).equals(readFileSync(join(cwd, "a", name))), name).toBe(true);
    }
  });

  test("decisions that campaign.json has already are made anew", async () => {
    const cwd = folder();
    await cli(["compare", "data", "--reference", "moist", "--out", "a"], { cwd });
    const { code } = await cli(["compare", "a/campaign.json", "--reference", "air", "--out", "b"], { cwd });
    const { decisions } = campaignFromJson(readFileSync(join(cwd, "b/campaign.json"), "utf8"));
    expect([code, decisions!.asked.reference, decisions!.properties]).toEqual([0, "air", []]);
  });

  test("--json prints what campaign.json holds", async () => {
    const cwd = folder();
    const { out } = await cli(["compare", "data", "--reference", "moist", "--out", "out", "--json"], { cwd });
    expect(JSON.parse(out)).toEqual(JSON.parse(readFileSync(join(cwd, "out/campaign.json"), "utf8")));
  });

  test("without properties and margins: what was not asked is said, nothing is judged sufficient", async () => {
    const cwd = tempFolder({ ...runs, "data/sheet.csv": sheet });
    const { code, out } = await cli(["compare", "data", "--reference", "moist"], { cwd });
    expect(code).toBe(0);
    expect(out).not.toContain("GO TOGETHER");
    expect(out).not.toContain("within margin (");
  });

  test("Dunnett's test, one family in all, Welch and ages by option", async () => {
    const cwd = folder();
    const compare = async (...argv: string[]) => {
      const { out } = await cli(["compare", "data", "--reference", "moist", "--json", ...argv], { cwd });
      return campaignFromJson(out).decisions!;
    };
    expect((await compare("--adjust", "dunnett")).families[0]!.adjustment).toBe("dunnett");
    expect((await compare("--family", "campaign")).families).toHaveLength(1);
    expect((await compare("--welch")).contrasts[0]!.method).toContain("welch");
    expect((await compare("--reference-age", "4w", "--test-age", "28")).asked).toMatchObject({
      reference_age_d: 28,
      test_age_d: 28,
    });
  });

  test("properties of cells without a run are said", async () => {
    const { err } = await cli(["compare", "data", "--reference", "moist"], { cwd: folder() });
    expect(err).toBe(
      "data/properties.csv: 1 cell has properties and no run: M1 cloth 3 d at 28 d. It is compared among the properties and left out where hydrates and properties are held together.\n",
    );
  });

  test("a run that cannot be read: the others are compared, exit code 1", async () => {
    const cwd = folder({ "data/air2.txt": "nothing\n" });
    const { code, out, err } = await cli(["compare", "data", "--reference", "moist"], { cwd });
    expect(code).toBe(1);
    expect(err).toContain("Of 9 runs 1 failed; the others are complete.");
    expect(out).toContain("lower: aft-afm");
  });
});

describe("what cannot be done: exit code 2, nothing written, the reason in one line", () => {
  test.for([
    [
      ["--reference", "moits"],
      'There is no curing regime "moits". Did you mean moist? There are: air:0, cloth:3, cloth:7, moist.',
    ],
    [["--reference", "cloth"], "The curing cloth has several durations: name one of cloth:3, cloth:7."],
    [
      ["--reference", "moist", "--margin", "lots"],
      'Write a margin like 10%, strength=10% or strength=3 MPa, not "lots".',
    ],
    [
      ["--reference", "moist", "--require", "strength>24"],
      'Write a requirement like "strength>=24 MPa" (in quotation marks), not "strength>24".',
    ],
    [
      ["--reference", "moist", "--margin", "slump=5%"],
      'The margin names "slump", which is no window and no property here. There are: aft-afm, ah3, ch-range, carbonate, bound-water, strength.',
    ],
    [["--reference", "moist", "--test-age", "7d"], "No cell has the age at test 7d. There are: 28d."],
    [
      ["--reference", "moist", "--reference-age", "1 month"],
      '--reference-age: Write an age in min, h, d or w (a month or a year has no fixed length: write days), not "1 month"',
    ],
    [
      ["--reference", "moist", "--welch", "--adjust", "dunnett"],
      "--welch: Dunnett's test needs one scatter for all cells. Leave out --welch or --adjust dunnett.",
    ],
    [
      ["--reference", "moist", "--family", "campaign", "--adjust", "dunnett"],
      "--family campaign: Dunnett's test needs one scatter, and each quantity has its own. Leave out --family campaign or --adjust dunnett.",
    ],
    [
      ["--reference", "moist", "--out", "data"],
      "--out data: The tables would overwrite data/properties.csv, your measured properties. Name another folder.",
    ],
    [
      ["--reference", "moist", "--properties", "none.csv"],
      "none.csv: There is no such file or folder. Check the path.",
    ],
  ] as const)("%j", async ([argv, message]) => {
    const cwd = folder();
    const { code, out, err } = await cli(["compare", "data", "--out", "out", ...argv], { cwd });
    expect(err.trimEnd().split("\n").at(-1)).toBe(message);
    expect([code, out]).toEqual([2, ""]);
    expect(existsSync(join(cwd, "out/contrasts.csv"))).toBe(false);
    expect(readFileSync(join(cwd, "data/properties.csv"), "utf8")).toBe(properties);
  });

  test("every problem of the properties with its line, before a run is read", async () => {
    const wrong = `${properties}M1,Moist,,28d,strength,40,MPa\nM1,air,0,28d,strength,5,kN\nM1,moist,,28d,strength,x,MPa\n`;
    const { code, err } = await cli(["compare", "data", "--reference", "moist"], {
      cwd: folder({ "data/properties.csv": wrong }),
    });
    expect(code).toBe(2);
    expect(err.trimEnd().split("\n")).toEqual([
      'data/properties.csv, line 16, column value: write a plain number, or leave the cell empty where it is not known, not "x"',
      'data/properties.csv, line 15, column unit: strength is in MPa (line 2), and "kN" does not convert into that: give it in one of MPa, N/mm2, Pa, kPa, GPa, bar, psi, ksi, kgf/cm2, or give the property another name',
    ]);
    const misspelt = `${properties}M1,Moist,,28d,strength,40,MPa\nM1,ari,0,28d,strength,40,MPa\n`;
    const again = await cli(["compare", "data", "--reference", "moist"], {
      cwd: folder({ "data/properties.csv": misspelt }),
    });
    expect(again.err.trimEnd().split("\n")).toEqual([
      'data/properties.csv, line 14, column curing: no run has the curing "Moist": did you mean "moist"? Write both alike',
      'data/properties.csv, line 15, column curing: no run has the curing "ari": did you mean "air"? Write both alike',
    ]);
  });

  test("no reference, no folder, another document", async () => {
    const cwd = folder({ "other.json": '{"a":1}' });
    const bare = await cli(["compare", "data"], { cwd });
    expect([bare.code, bare.err]).toEqual([
      2,
      expect.stringContaining("required option '--reference <curing[:days]>'"),
    ]);
    const missing = await cli(["compare", "nowhere", "--reference", "moist"], { cwd });
    expect([missing.code, missing.err]).toEqual([2, "nowhere: There is no such folder. Check the path.\n"]);
    const other = await cli(["compare", "other.json", "--reference", "moist"], { cwd });
    expect([other.code, other.err]).toEqual([
      2,
      expect.stringContaining("other.json: this is not the campaign.json of this program"),
    ]);
  });
});

test("a name from a file cannot move the cursor or change colours", async () => {
  const cwd = folder({ "data/properties.csv": properties.replaceAll("strength", "str\u001b[31mength") });
  const { out, err } = await cli(["compare", "data", "--reference", "moist", "--margin", "10%"], { cwd });
  expect(`${out}${err}`).not.toContain("\u001b");
});
