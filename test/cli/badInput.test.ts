import { chmodSync, existsSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { protocols } from "../../src/protocol/protocols.ts";
import { exportBytes } from "../files/exportBytes.ts";
import { tempFolder } from "../files/tempFolder.ts";
import { cli } from "./cli.ts";
import { csv } from "./csv.ts";

const good = exportBytes();
const png = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52);
const protocolWith = (change: (text: string) => string): string => change(JSON.stringify(protocols.csa, null, 2));

describe("nothing can be done: exit code 2, one clear message, nothing on stdout, nothing written", () => {
  const cases: [string, { files?: Record<string, string | Uint8Array>; argv?: string[]; message: string }][] = [
    ["a missing folder", { argv: ["nowhere"], message: "nowhere: There is no such folder. Check the path." }],
    [
      "a file instead of a folder",
      {
        files: { "data/a.txt": good },
        argv: ["data/a.txt"],
        message: "data/a.txt: This is a file, not a folder. Name the folder that holds the runs.",
      },
    ],
    [
      "an empty folder",
      {
        files: { "data/.keep": "" },
        message:
          "data: The folder holds no runs. Put the runs into it, exported as text (.txt, .csv, .tsv, .dat, .asc …).",
      },
    ],
    [
      "a folder of workbooks only",
      {
        files: { "data/a.xlsx": "PK", "data/b.xlsx": "PK" },
        message:
          "data: The folder holds 2 files of other kinds only (a.xlsx, b.xlsx). Put the runs into it, exported as text (.txt, .csv, .tsv, .dat, .asc …).",
      },
    ],
    [
      "a sheet that names a missing file and an unknown column, and two rows for one file: all are said",
      {
        files: { "data/a.txt": good, "data/sheet.csv": "file,aeg_d\na.txt,1\naa.txt,1\na.txt,7\n" },
        message: [
          'data/sheet.csv, line 1, column aeg_d: "aeg_d" is not a column of a run sheet: did you mean age_d?',
          'data/sheet.csv, line 3, column file: the file "aa.txt" is not in the folder: did you mean "a.txt"?',
          'data/sheet.csv, line 4, column file: the file "a.txt" stands in line 2 already: keep one row for each file',
        ].join("\n"),
      },
    ],
    [
      "a mix table that is wrong",
      {
        files: {
          "data/a.txt": good,
          "data/sheet.csv": "file,mix\na.txt,M2\n",
          "data/mixes.csv": "mix,w_b\nM1,0.4\n",
        },
        message: 'data/sheet.csv, line 2, column mix: the mix "M2" is not in data/mixes.csv: did you mean "M1"?',
      },
    ],
    [
      "a sheet outside its folder",
      {
        files: { "data/a.txt": good, "secret.txt": good, "data/sheet.csv": "file\n../secret.txt\n" },
        message:
          'data/sheet.csv, line 2, column file: the path leaves the folder (..): put the file into the folder and name it relative to it, not "../secret.txt"',
      },
    ],
    [
      "a missing sheet",
      {
        files: { "data/a.txt": good },
        argv: ["data", "--sheet", "s.csv"],
        message: "s.csv: There is no such file or folder. Check the path.",
      },
    ],
    [
      "a folder as sheet",
      {
        files: { "data/a.txt": good },
        argv: ["data", "--sheet", "data"],
        message: "data: This is a folder, not a file. Name a file.",
      },
    ],
    [
      "a workbook as sheet",
      {
        files: { "data/a.txt": good, "s.xlsx": Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0) },
        argv: ["data", "--sheet", "s.xlsx"],
        message:
          "s.xlsx: This is a ZIP archive (a spreadsheet workbook is one too), not text. Save the run sheet as text.",
      },
    ],
    [
      "a protocol that is neither built in nor a file",
      {
        files: { "data/a.txt": good },
        argv: ["data", "--protocol", "cas"],
        message: "cas: There is no such protocol, built in or as a file. Did you mean csa?",
      },
    ],
    [
      "a protocol with a reversed window",
      {
        files: {
          "data/a.txt": good,
          "p.json": protocolWith((text) =>
            text.replace('"from_C": 220', '"from_C": 350').replace('"to_C": 350', '"to_C": 220'),
          ),
        },
        argv: ["data", "--protocol", "p.json"],
        message: "p.json: windows[1] (ah3): from_C must lie below to_C, not 350 and 220",
      },
    ],
    [
      "a protocol with a misspelt field",
      {
        files: { "data/a.txt": good, "p.json": protocolWith((text) => text.replace('"width_C"', '"widht_C"')) },
        argv: ["data", "--protocol", "p.json"],
        message: [
          "p.json: smoothing.width_C is missing",
          "p.json: smoothing.widht_C is not a field of a protocol: did you mean width_C?",
        ].join("\n"),
      },
    ],
    [
      "a protocol that is no JSON",
      {
        files: { "data/a.txt": good, "p.json": '{\n  "schema": "tg-hydrates/protocol/1",\n  "name": "x",\n}\n' },
        argv: ["data", "--protocol", "p.json"],
        message: "p.json, line 4, column 1: This is no JSON. A comma stands before }: take it out.",
      },
    ],
    [
      "an output folder that is a file",
      {
        files: { "data/a.txt": good, out: "mine" },
        argv: ["data", "--out", "out"],
        message: "out: A file is in the way. Name a folder.",
      },
    ],
    [
      "columns that are no columns",
      {
        files: { "data/a.txt": good },
        argv: ["data", "--columns", "temperature"],
        message:
          '--columns: Write columns as temperature=2:K,mass=4:mg (quantity=column[:unit], column by number or name), not "temperature"',
      },
    ],
  ];
  test.for(cases)("%s", async ([, { files = {}, argv = ["data"], message }]) => {
    const cwd = tempFolder(files);
    const before = readdirSync(cwd, { recursive: true }).sort();
    const { code, out, err } = await cli(["index", ...argv], { cwd });
    const said = err.split("\n").filter((line) => !line.startsWith("data: the folder has no sheet.csv"));
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(said.join("\n")).toContain(`${message}\n`);
    expect(err).not.toMatch(/^\s+at /m);
    expect(readdirSync(cwd, { recursive: true }).sort()).toEqual(before);
  });

  test.skipIf(process.getuid?.() === 0)("a folder that may not be read", async () => {
    const cwd = tempFolder({ "data/a.txt": good });
    chmodSync(join(cwd, "data"), 0);
    const result = await cli(["index", "data"], { cwd });
    chmodSync(join(cwd, "data"), 0o700);
    expect(result).toEqual({
      code: 2,
      out: "",
      err: "data: Permission denied. Ask for access, or use another folder.\n",
    });
  });
});

describe("a file that is no run: the others are done, exit code 1", () => {
  test.for([
    ["a picture", png, "bad.txt: This is a PNG picture, not text. Export the run as a text table."],
    ["an empty file", "", "bad.txt: The file is empty. Export the run again."],
    [
      "one column",
      "m/mg\n10.1\n10.0\n9.9\n9.8\n",
      "bad.txt: There is one column of numbers only. Export temperature and mass as columns of numbers, one reading per line.",
    ],
    [
      "no heating",
      `T/°C;m/mg\n${Array.from({ length: 50 }, (_, i) => `25.${i % 3};10.${i % 7}`).join("\n")}\n`,
      "bad.txt: the temperature never rises by more than 5 °C: this is not a heating run",
    ],
  ] as const)("%s renamed .txt", async ([, content, message]) => {
    const cwd = tempFolder({ "data/good.txt": good, "data/bad.txt": content });
    const { code, out, err } = await cli(["index", "data", "--out", "out"], { cwd });
    expect(code).toBe(1);
    expect(err.split("\n")).toContain(message);
    expect(err.split("\n")).toContain("Of 2 runs 1 failed; the others are complete.");
    expect(err).not.toMatch(/^\s+at /m);
    expect(out).toContain("aft-afm");
    expect(existsSync(join(cwd, "out", "campaign.json"))).toBe(true);
  });

  test("a file that vanishes after the listing, and one that no longer is a file", async () => {
    const cwd = tempFolder({ "data/good.txt": good, "data/b.txt": good });
    chmodSync(join(cwd, "data", "b.txt"), 0);
    writeFileSync(join(cwd, "data", "sheet.csv"), "file\ngood.txt\nb.txt\n");
    const { code, err } = await cli(["index", "data"], { cwd });
    // The superuser may read everything.
    if (process.getuid?.() === 0) expect(code).toBe(0);
    else
      expect([code, err.split("\n")[0]]).toEqual([
        1,
        "b.txt: Permission denied. Ask for access, or use another folder.",
      ]);
  });

  test("a run that ends at 600 °C has its losses and no indices", async () => {
    const cwd = tempFolder({ "data/good.txt": good, "data/short.txt": exportBytes({ to_C: 600 }) });
    const { code, err } = await cli(["index", "data", "--out", "out"], { cwd });
    expect(code).toBe(1);
    const lines = err.split("\n");
    expect(lines).toContain(
      "short.txt: incomplete: The heating ends at 600 °C, before the ignition temperature of 950 °C: there is no ignited mass. Run to the ignition temperature, give the furnace residue in the run sheet (residue_mg), or lower the ignition temperature of the protocol for the whole campaign.",
    );
    expect(lines).toContain(
      "short.txt: incomplete: The window carbonate (600–850 °C) is not covered: the heating goes from 25.0 to 600.0 °C. Repeat the run over the whole window, or choose a window that the run covers.",
    );
    const rows = csv(join(cwd, "out", "losses.csv")).filter(({ window }) => window === "aft-afm");
    const [whole, short] = [
      rows.find(({ file }) => file === "good.txt")!,
      rows.find(({ file }) => file === "short.txt")!,
    ];
    expect(Number(short.loss_mg)).toBeCloseTo(Number(whole.loss_mg), 2);
    expect(Number(short.loss_pct_initial)).toBeCloseTo(Number(whole.loss_pct_initial), 1);
    expect([short.index, short.flags]).toEqual(["", "ends-before-ignition"]);
    // 10 of 86 ignited, and the foot of the 4 % at 270 °C below 220 °C.
    expect(Number(whole.index)).toBeGreaterThan(1000 / 86 - 0.05);
    expect(Number(whole.index)).toBeLessThan(1000 / 86 + 0.5);
  });

  test("all runs unreadable: the failures are written, exit code 1", async () => {
    const cwd = tempFolder({ "data/bad.txt": png });
    const { code } = await cli(["index", "data", "--out", "out"], { cwd });
    expect(code).toBe(1);
    expect(csv(join(cwd, "out", "runs.csv")).map(({ file, status, flags }) => [file, status, flags])).toEqual([
      ["bad.txt", "failed", "binary-file"],
    ]);
  });
});
