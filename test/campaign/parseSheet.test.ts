import { describe, expect, test } from "vitest";
import { parseSheet } from "../../src/campaign/parseSheet.ts";
import { problemText } from "../../src/campaign/problemText.ts";
import { newJob } from "../../src/protocol/newJob.ts";

const parse = (text: string) => parseSheet(text, { name: "sheet.csv" });
const problemsOf = (text: string) => parse(text).problems.map(problemText);

const full = {
  file: "a/1.txt",
  mix: "M1",
  curing: "moist",
  curing_d: 3.5,
  age_min: 10080,
  specimen: "P4",
  replicate: "2",
  role: "control",
  blank: "b.txt",
  session: "S1",
  balance: "B1",
  initial_mass_mg: 20.5,
  residue_mg: 15.25,
  gas: "N2",
  crucible: "alumina",
  note: "two, with a comma",
  columns: [{ column: "2", quantity: "temperature", unit: "K" }],
  line: 2,
} as const;
const names =
  "file,mix,curing,curing_d,age,specimen,replicate,role,blank,session,balance,initial_mass_mg,residue_mg,gas,crucible,note,columns";
const cells = [
  "a/1.txt",
  "M1",
  "moist",
  "3.5",
  "1w",
  "P4",
  "2",
  "control",
  "b.txt",
  "S1",
  "B1",
  "20.5",
  "15.25",
  "N2",
  "alumina",
  '"two, with a comma"',
  "temperature=2:K",
];

describe("a run sheet", () => {
  test("every column is read", () => {
    expect(parse(`${names}\n${cells.join(",")}\n`)).toEqual({ rows: [full], problems: [] });
  });

  test.for([
    ["tab", "\t", "\n"],
    ["semicolon", ";", "\r\n"],
    ["comma with old line ends", ",", "\r"],
  ] as const)("%s between the cells, byte-order mark, quoted cells", ([, delimiter, newline]) => {
    const text = [names.replaceAll(",", delimiter), cells.join(delimiter), ""].join(newline);
    expect(parse(`\uFEFF${text}`)).toEqual({ rows: [full], problems: [] });
  });

  test("a sheet of file names alone is enough: each row is a specimen of its own", () => {
    expect(parse("file\nb.txt\na.txt").rows).toEqual([newJob("b.txt", { line: 2 }), newJob("a.txt", { line: 3 })]);
  });

  test("columns may stand in any order and be written with capitals and blanks around", () => {
    const { rows, problems } = parse("Mix , AGE_D,File\n M1,7, a.txt \n");
    expect(problems).toEqual([]);
    expect(rows).toEqual([newJob("a.txt", { mix: "M1", age_min: 10080, line: 2 })]);
  });

  test("lines count every line of the file: blank ones before, between, and inside a quoted cell", () => {
    const { rows } = parse('\n\nfile,note\na.txt,"one\ntwo\nthree"\n\n,\nb.txt,x\n');
    expect(rows.map(({ file, line, note }) => [file, line, note])).toEqual([
      ["a.txt", 4, "one\ntwo\nthree"],
      ["b.txt", 9, "x"],
    ]);
  });

  test("a decimal comma is read where semicolons separate and no number has a point", () => {
    const { rows, problems } = parse("file;initial_mass_mg;age\na.txt;20,55;1,5d\nb.txt;1,234;4h\n");
    expect(problems).toEqual([]);
    expect(rows.map(({ initial_mass_mg, age_min }) => [initial_mass_mg, age_min])).toEqual([
      [20.55, 36 * 60],
      [1.234, 240],
    ]);
  });

  test.for([
    [
      "a comma that could separate thousands",
      "file;initial_mass_mg\na.txt;1,234\n",
      'sheet.csv, line 2, column initial_mass_mg: write the number with a decimal point (the comma could separate thousands), not "1,234"',
    ],
    [
      "commas and points in one table",
      "file;initial_mass_mg\na.txt;20.5\nb.txt;20,55\n",
      'sheet.csv, line 3, column initial_mass_mg: write all decimals alike (line 2 has a decimal point), not "20,55"',
    ],
    [
      "a quoted decimal comma between commas",
      'file,initial_mass_mg\na.txt,"20,55"\n',
      'sheet.csv, line 2, column initial_mass_mg: write a decimal point in a table separated by commas, not "20,55"',
    ],
    [
      "a misspelt column",
      "file,curin\na.txt,moist\n",
      'sheet.csv, line 1, column curin: "curin" is not a column of a run sheet: did you mean curing?',
    ],
    [
      "another name for a column",
      "file,age_days\na.txt,7\n",
      'sheet.csv, line 1, column age_days: "age_days" is not a column of a run sheet: did you mean age_d?',
    ],
    [
      "an unknown column like nothing",
      "\nfile,__proto__\na.txt,7\n",
      'sheet.csv, line 2, column __proto__: "__proto__" is not a column of a run sheet: it knows file, mix, curing, curing_d, age_d, age, specimen, replicate, role, blank, session, balance, initial_mass_mg, residue_mg, gas, crucible, note, columns',
    ],
    [
      "a column twice",
      "file,mix,mix\na.txt,A,B\n",
      'sheet.csv, line 1, column mix: the column "mix" stands in the heading twice: take one out',
    ],
    ["no column file", "mix;age\nA;7d\n", "sheet.csv: the run sheet has no column file: add it, with one row per file"],
    ["nothing at all", "", "sheet.csv: the run sheet has no column file: add it, with one row per file"],
    ["no rows", "file,mix\n", "sheet.csv: the run sheet has no rows: write one row per file"],
    [
      "a row without a file",
      "file,mix\n,A\n",
      "sheet.csv, line 2, column file: the row names no file: give it one, or take the row out",
    ],
    [
      "a bad role",
      "file,role\na.txt,blnk\n",
      'sheet.csv, line 2, column role: the role must be one of specimen, blank, binder, aggregate, control, check, not "blnk": did you mean blank?',
    ],
    [
      "a path out of the folder",
      "file\nx/../../a.txt\n",
      'sheet.csv, line 2, column file: the path leaves the folder (..): put the file into the folder and name it relative to it, not "x/../../a.txt"',
    ],
    [
      "the same with backslashes",
      "file\n..\\a.txt\n",
      'sheet.csv, line 2, column file: the path leaves the folder (..): put the file into the folder and name it relative to it, not "..\\\\a.txt"',
    ],
    [
      "an absolute path",
      "file\n/data/a.txt\n",
      'sheet.csv, line 2, column file: the path is absolute: name the file relative to the folder, not "/data/a.txt"',
    ],
    [
      "a drive",
      "file\nc:a.txt\n",
      'sheet.csv, line 2, column file: the path is absolute: name the file relative to the folder, not "c:a.txt"',
    ],
    [
      "a path out of the folder under blank",
      "file,blank\na.txt,../b.txt\n",
      'sheet.csv, line 2, column blank: the path leaves the folder (..): put the file into the folder and name it relative to it, not "../b.txt"',
    ],
    [
      "a negative age",
      "file,age_d\na.txt,-7\n",
      'sheet.csv, line 2, column age_d: the number must be at least 0 and at most 36525, not "-7"',
    ],
    [
      "an absurd age",
      "file,age\na.txt,9999w\n",
      'sheet.csv, line 2, column age: give an age from 0 to 100 years (36525 d), not "9999w"',
    ],
    [
      "an age without unit",
      "file,age\na.txt,7\n",
      'sheet.csv, line 2, column age: give the age a unit (min, h, d or w), such as 7d, not "7"',
    ],
    [
      "two ages that differ",
      "file,age,age_d\na.txt,4w,7\n",
      "sheet.csv, line 2, column age: age (4w) and age_d (7) differ: correct one, or leave one empty",
    ],
    [
      "curing longer than the age",
      "file,curing_d,age\na.txt,7,1d\n",
      "sheet.csv, line 2, column curing_d: curing lasts longer (7 d) than the age (1 d): correct one of them",
    ],
    [
      "a mass of nothing",
      "file,initial_mass_mg\na.txt,0\n",
      'sheet.csv, line 2, column initial_mass_mg: the number must be above 0 and at most 1000000, not "0"',
    ],
    [
      "a number with its unit",
      "file,residue_mg\na.txt,15 mg\n",
      'sheet.csv, line 2, column residue_mg: write a plain number, or leave the cell empty where it is not known, not "15 mg"',
    ],
    [
      "an infinite number",
      "file,residue_mg\na.txt,1e999\n",
      'sheet.csv, line 2, column residue_mg: write a plain number, or leave the cell empty where it is not known, not "1e999"',
    ],
    [
      "more residue than sample",
      "file,initial_mass_mg,residue_mg\na.txt,20,21\n",
      "sheet.csv, line 2, column residue_mg: the residue (21 mg) weighs more than the initial mass (20 mg)",
    ],
    [
      "a cell beyond the heading",
      "file,note\na.txt,one, two\n",
      'sheet.csv, line 2: cell 3, "two", is beyond the 2 columns of the heading: name the column, or quote a cell that contains the delimiter',
    ],
    [
      "a cell under no name",
      "file,,mix\na.txt,one,A\n",
      'sheet.csv, line 2: cell 2, "one", has no name in the heading: name the column, or quote a cell that contains the delimiter',
    ],
    [
      "an open quotation mark",
      'file,note\na.txt,x\nb.txt,"open\nc.txt,x\n',
      "sheet.csv, line 3: a quotation mark is opened in this row and never closed: close it, or take it out",
    ],
    [
      "text after a closing quotation mark",
      'file,note\na.txt,"x"y\nb.txt,z\n',
      "sheet.csv, line 2: text follows a closing quotation mark: write a quotation mark inside a quoted cell twice",
    ],
    [
      "an escape sequence",
      "file,mix\na.txt,\u001b[31mA\n",
      'sheet.csv, line 2, column mix: the cell contains a control character: type it anew, not "\\u001b[31mA"',
    ],
    [
      "an unknown quantity of a column",
      "file,columns\na.txt,masss=3\n",
      'sheet.csv, line 2, column columns: "masss" is no quantity: did you mean mass?',
    ],
    [
      "a column without a quantity",
      "file,columns\na.txt,3 [mg]\n",
      'sheet.csv, line 2, column columns: write columns as temperature=2:K,mass=4:mg (quantity=column[:unit], column by number or name), not "3 [mg]"',
    ],
    [
      "one column for two quantities",
      "file,columns\na.txt,mass=3; temperature=3\n",
      'sheet.csv, line 2, column columns: name every column once: "3" stands twice',
    ],
  ] as const)("%s is refused, with the place and what to do", ([, text, message]) => {
    expect(problemsOf(text)).toEqual([message]);
  });

  test("trailing delimiters and empty columns are nothing", () => {
    expect(parse("file,mix,,\na.txt,A,,\n,,,\n").problems).toEqual([]);
  });

  test("a wrong cell is null, and the row's other cells are checked too", () => {
    const { rows, problems } = parse("file,age_d,role,curing_d\na.txt,old,x,-1\n");
    expect(problems.map(({ column }) => column)).toEqual(["age_d", "curing_d", "role"]);
    expect(rows).toEqual([newJob("a.txt", { line: 2 })]);
  });

  test("names that mean something to the language are only names", () => {
    const { rows, problems } = parse("file,mix,specimen\n__proto__,constructor,__proto__\n");
    expect(problems).toEqual([]);
    expect(rows[0]).toEqual(newJob("__proto__", { mix: "constructor", specimen: "__proto__", line: 2 }));
    expect(({} as Record<string, unknown>).mix).toBeUndefined();
  });

  test("the apostrophe that guards a formula-like cell is taken off, one that guards nothing stays", () => {
    const { rows } = parse("file,note\n'=a.txt,''t\n'b.txt,'-x\n");
    expect(rows.map(({ file, note }) => [file, note])).toEqual([
      ["=a.txt", "''t"],
      ["'b.txt", "-x"],
    ]);
  });

  test("backslashes and a leading ./ name the same file", () => {
    expect(parse("file,blank\n.\\x\\a.txt,./x//b.txt\n").rows[0]).toMatchObject({ file: "x/a.txt", blank: "x/b.txt" });
  });
});
