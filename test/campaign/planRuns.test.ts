import { describe, expect, test } from "vitest";
import { planRuns } from "../../src/campaign/planRuns.ts";
import { problemText } from "../../src/campaign/problemText.ts";

const plan = (sheet: string, options: { mixes?: string; files?: string[] } = {}) =>
  planRuns({
    sheet: { name: "sheet.csv", text: sheet },
    ...(options.mixes === undefined ? {} : { mixes: { name: "mixes.csv", text: options.mixes } }),
    files: options.files ?? ["a.txt", "b.txt", "c.txt", "empty.txt"],
  });
const problemsOf = (...args: Parameters<typeof plan>) => plan(...args).problems.map(problemText);

describe("a plan", () => {
  test("a sheet and a mix table without error give jobs and mixes", () => {
    const sheet =
      "file,mix,curing,curing_d,age_d,specimen,replicate,role,blank\n" +
      "a.txt,M1,moist,7,7,P1,1,,empty.txt\nb.txt,M1,moist,7,7,P1,2,,empty.txt\nempty.txt,,,,,,,blank,\n";
    const { jobs, mixes, problems, remarks, unlisted } = plan(sheet, {
      mixes: "mix,w_b\nM1,0.45\n",
      files: ["c.txt", "empty.txt", "b.txt", "a.txt", "sheet.csv", "mixes.csv", "B.txt"],
    });
    expect({ problems, remarks }).toEqual({ problems: [], remarks: [] });
    expect(jobs.map(({ file, role, blank, line }) => [file, role, blank, line])).toEqual([
      ["a.txt", "specimen", "empty.txt", 2],
      ["b.txt", "specimen", "empty.txt", 3],
      ["empty.txt", "blank", null, 4],
    ]);
    expect(mixes.map(({ mix, w_b }) => [mix, w_b])).toEqual([["M1", 0.45]]);
    expect(unlisted).toEqual(["B.txt", "c.txt"]);
  });

  test.for([
    [
      "a missing file",
      "file\naa.txt\n",
      'sheet.csv, line 2, column file: the file "aa.txt" is not in the folder: did you mean "a.txt"?',
    ],
    [
      "a missing file like no other",
      "file\nwinter/run-77.dat\n",
      'sheet.csv, line 2, column file: the file "winter/run-77.dat" is not in the folder: correct the name or take the row out',
    ],
    [
      "other capitals",
      "file\nEMPTY.TXT\n",
      'sheet.csv, line 2, column file: the file "EMPTY.TXT" is not in the folder: did you mean "empty.txt"?',
    ],
    [
      "two rows for one file",
      "file,age_d\na.txt,1\nb.txt,1\n./a.txt,7\n",
      'sheet.csv, line 4, column file: the file "a.txt" stands in line 2 already: keep one row for each file',
    ],
    [
      "a blank that is not listed",
      "file,blank\na.txt,empty.txt\n",
      'sheet.csv, line 2, column blank: the blank run "empty.txt" has no row: add one with the role blank',
    ],
    [
      "a blank that is a specimen",
      "file,blank\na.txt,b.txt\nb.txt,\n",
      'sheet.csv, line 2, column blank: "b.txt" (line 3) has the role specimen: give it the role blank, or name another run',
    ],
    [
      "a blank with a blank",
      "file,role,blank\nempty.txt,blank,empty.txt\n",
      'sheet.csv, line 2, column blank: a blank run has no blank of its own: leave the cell empty, not "empty.txt"',
    ],
    [
      "one specimen at two ages",
      "file,mix,age_d,specimen\na.txt,M1,7,P1\nb.txt,M1,28,P1\n",
      'sheet.csv, line 3, column specimen: the specimen "P1" has another age in line 2: give each specimen its own name, or number the specimens of each cell 1, 2, 3',
    ],
    [
      "one specimen of two mixes and curings",
      "file,mix,curing,curing_d,specimen\na.txt,M1,moist,1,P1\nb.txt,M2,sealed,1,P1\n",
      'sheet.csv, line 3, column specimen: the specimen "P1" has another mix, curing in line 2: give each specimen its own name, or number the specimens of each cell 1, 2, 3',
    ],
    [
      "one replicate twice",
      "file,specimen,replicate\na.txt,P1,1\nb.txt,P1,1\n",
      'sheet.csv, line 3, column replicate: replicate "1" of the specimen "P1" stands in line 2 already: number the replicates differently',
    ],
    [
      "one curing written in two ways",
      "file,curing\na.txt,moist\nb.txt,Moist\nc.txt,Moist\n",
      'sheet.csv, line 3, column curing: "Moist" and "moist" (line 2) differ in capitals only: write both alike',
    ],
    ["an unknown column", "file,colour\na.txt,red\n", expect.stringMatching(/^sheet.csv, line 1, column colour: /)],
  ] as const)("%s is found before a file is read", ([, sheet, message]) => {
    expect(problemsOf(sheet)).toEqual([message]);
  });

  test("a mix must stand in the mix table where there is one", () => {
    const sheet = "file,mix\na.txt,M1\nb.txt,M2\nc.txt,Q\nempty.txt,\n";
    expect(problemsOf(sheet)).toEqual([]);
    expect(problemsOf(sheet, { mixes: "mix\nM1\nM12\n" })).toEqual([
      'sheet.csv, line 3, column mix: the mix "M2" is not in mixes.csv: did you mean "M1"?',
      'sheet.csv, line 4, column mix: the mix "Q" is not in mixes.csv: add a row for it',
    ]);
  });

  test("every error is found at once, in the order of the lines, the mix table's after the sheet's", () => {
    const sheet = "file,mix,role,age_d,blank\nx.txt,M1,specimn,-1,\na.txt,M3,,7,b.txt\n../b.txt,,,,\n";
    const found = plan(sheet, { mixes: "mix,w_b\nM1,-1\nM1,2\n" }).problems;
    expect(found.map(({ source, line, column }) => [source, line, column])).toEqual([
      ["sheet.csv", 2, "age_d"],
      ["sheet.csv", 2, "role"],
      ["sheet.csv", 2, "file"],
      ["sheet.csv", 3, "blank"],
      ["sheet.csv", 3, "mix"],
      ["sheet.csv", 4, "file"],
      ["mixes.csv", 2, "w_b"],
      ["mixes.csv", 3, "mix"],
    ]);
  });

  test("specimens called by a number are counted within their cell", () => {
    expect(problemsOf("file,age_d,specimen\na.txt,7,1\nb.txt,7,2\nc.txt,28,1\n")).toEqual([]);
  });

  test("a wrong age is not reported a second time as a specimen in two cells", () => {
    expect(problemsOf("file,age_d,specimen\na.txt,7,P1\nb.txt,7x,P1\n")).toHaveLength(1);
  });

  test("replicates without a specimen are remarked, since each then counts as a specimen", () => {
    const { problems, remarks } = plan("file,curing,replicate\na.txt,air,1\nb.txt,air,2\n");
    expect(problems).toEqual([]);
    expect(remarks.map(problemText)).toEqual([
      "sheet.csv, line 2, column specimen: 2 rows have a replicate but no specimen: each counts as a specimen of its own. Where replicates are aliquots of one specimen give them its name, or the uncertainty comes out too small",
    ]);
  });

  test("a sheet that names no curing is remarked where specimens of one mix and age would be averaged", () => {
    const remarksOf = (sheet: string) => plan(sheet).remarks.map(problemText);
    expect(remarksOf("file,mix,age_d\na.txt,M1,7\nb.txt,M1,7\n")).toEqual([
      "sheet.csv, column curing: no row names a curing: specimens of one mix and age are averaged; fill the column in where they were cured in different ways",
    ]);
    expect(remarksOf("file,mix,age_d\na.txt,M1,7\nb.txt,M1,28\n")).toEqual([]);
    expect(remarksOf("file,mix,age_d,specimen\na.txt,M1,7,1\nb.txt,M1,7,1\n")).toEqual([]);
    expect(remarksOf("file,mix,age_d,curing\na.txt,M1,7,air\nb.txt,M1,7,\n")).toEqual([]);
  });

  test("accents composed in another way name the same file, which keeps the folder's spelling", () => {
    const composed = "caf\u00e9.txt";
    const decomposed = "cafe\u0301.txt";
    const { jobs, problems, unlisted } = plan(`file,role,blank\na.txt,,${composed}\n${composed},blank,\n`, {
      files: ["a.txt", decomposed],
    });
    expect({ problems, unlisted }).toEqual({ problems: [], unlisted: [] });
    expect(jobs.map(({ file, specimen, blank }) => [file, specimen, blank])).toEqual([
      ["a.txt", "a.txt", decomposed],
      [decomposed, decomposed, null],
    ]);
  });

  test("no input is changed", () => {
    const files = Object.freeze(["b.txt", "a.txt"]);
    const sheet = Object.freeze({ name: "s.csv", text: "file\na.txt\n" });
    expect(planRuns(Object.freeze({ sheet, files })).unlisted).toEqual(["b.txt"]);
    expect(files).toEqual(["b.txt", "a.txt"]);
  });
});
