import { describe, expect, test } from "vitest";
import { parseMixes } from "../../src/campaign/parseMixes.ts";
import { problemText } from "../../src/campaign/problemText.ts";

const parse = (text: string) => parseMixes(text, { name: "mixes.csv" });
const empty = {
  w_b: null,
  loi_binder_pct: null,
  sand_binder_ignited: null,
  u_w_b: null,
  u_loi_binder_pct: null,
  u_sand_binder_ignited: null,
  polymer_pct: null,
  retarder: null,
  contents: {},
};

describe("a mix table", () => {
  test("every column is read; further ones are contents under their own names", () => {
    const text =
      "mix,w_b,loi_binder_pct,sand_binder_ignited,u_w_b,u_loi_binder_pct,u_sand_binder_ignited,polymer_pct,retarder,Ye'elimite_pct,gypsum_pct,clinker,batch\n" +
      "M1,0.45,7.5,2.75,0.005,0.1,0.03,1.5,citric acid,55,20,C-1,3\nM2,,,,,,,,,,,,\n";
    expect(parse(text)).toEqual({
      problems: [],
      rows: [
        {
          mix: "M1",
          w_b: 0.45,
          loi_binder_pct: 7.5,
          sand_binder_ignited: 2.75,
          u_w_b: 0.005,
          u_loi_binder_pct: 0.1,
          u_sand_binder_ignited: 0.03,
          polymer_pct: 1.5,
          retarder: "citric acid",
          contents: { "Ye'elimite_pct": 55, gypsum_pct: 20, clinker: "C-1", batch: 3 },
        },
        { mix: "M2", ...empty },
      ],
    });
  });

  test("decimal commas are read, in further columns too", () => {
    const { rows, problems } = parse("mix;w_b;gypsum_pct;fineness\nM1;0,45;20,5;1,2\n");
    expect(problems).toEqual([]);
    expect(rows).toEqual([{ mix: "M1", ...empty, w_b: 0.45, contents: { gypsum_pct: 20.5, fineness: 1.2 } }]);
  });

  test("a further column with one text in it is text throughout", () => {
    expect(parse("mix,batch\nM1,12\nM2,13A\n").rows.map(({ contents }) => contents.batch)).toEqual(["12", "13A"]);
  });

  test.for([
    [
      "a misspelt column, whose values would be lost",
      "mix,loi_bindr_pc\nM1,7\n",
      'mixes.csv, line 1, column loi_bindr_pc: "loi_bindr_pc" is not a column that the mix table knows: did you mean loi_binder_pct? Otherwise rename it',
    ],
    [
      "another name for a column",
      "mix,w/c\nM1,0.4\n",
      'mixes.csv, line 1, column w/c: "w/c" is not a column that the mix table knows: did you mean w_b? Otherwise rename it',
    ],
    [
      "another spelling of a column",
      "mix,Loi binder pct\nM1,7\n",
      'mixes.csv, line 1, column Loi binder pct: "Loi binder pct" is not a column that the mix table knows: did you mean loi_binder_pct? Otherwise rename it',
    ],
    [
      "a name that means something to the language",
      "mix,__proto__\nM1,7\n",
      'mixes.csv, line 1, column __proto__: "__proto__" cannot be the name of a column: rename it',
    ],
    [
      "a percentage that is none",
      "mix,gypsum_pct\nM1,120\n",
      'mixes.csv, line 2, column gypsum_pct: the number must be at least 0 and at most 100, not "120"',
    ],
    [
      "a percentage that is no number",
      "mix,gypsum_pct\nM1,2O\n",
      'mixes.csv, line 2, column gypsum_pct: write a plain number, or leave the cell empty where it is not known, not "2O"',
    ],
    ["no water", "mix,w_b\nM1,0\n", 'mixes.csv, line 2, column w_b: the number must be above 0 and at most 5, not "0"'],
    [
      "a binder that burns away",
      "mix,loi_binder_pct\nM1,100\n",
      'mixes.csv, line 2, column loi_binder_pct: the number must be at least 0 and below 100, not "100"',
    ],
    [
      "a negative uncertainty",
      "mix,u_w_b\nM1,-0.1\n",
      'mixes.csv, line 2, column u_w_b: the number must be at least 0 and at most 5, not "-0.1"',
    ],
    [
      "a mix twice",
      "mix,w_b\nM1,0.4\n\nM1,0.5\n",
      'mixes.csv, line 4, column mix: the mix "M1" stands in line 2 already: keep one of the two rows',
    ],
    [
      "a row without a mix",
      "mix,w_b\n,0.4\n",
      "mixes.csv, line 2, column mix: the row names no mix: give it a name, or take the row out",
    ],
    ["no column mix", "name,w_b\nM1,0.4\n", "mixes.csv: the mix table has no column mix: add it, with one row per mix"],
    ["no rows", "mix,w_b\n", "mixes.csv: the mix table has no rows: write one row per mix"],
  ] as const)("%s is refused, with the place and what to do", ([, text, message]) => {
    expect(parse(text).problems.map(problemText)).toEqual([message]);
  });

  test("percentages of phases and sulfate sources are no misspellings of each other or of known columns", () => {
    const names = [
      "yeelimite_pct",
      "belite_pct",
      "gypsum_pct",
      "anhydrite_pct",
      "limestone_pct",
      "lime_pct",
      "slag_pct",
    ];
    const { rows, problems } = parse(`mix,${names.join(",")}\nM1,1,2,3,4,5,6,7\n`);
    expect(problems).toEqual([]);
    expect(rows[0]!.contents).toEqual(Object.fromEntries(names.map((name, i) => [name, i + 1])));
  });
});
