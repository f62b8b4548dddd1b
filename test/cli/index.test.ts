import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { campaignFromJson } from "../../src/campaign/campaignFromJson.ts";
import { exportBytes } from "../files/exportBytes.ts";
import { tempFolder } from "../files/tempFolder.ts";
import { cli } from "./cli.ts";
import { csv } from "./csv.ts";

const outputs = [
  "ages.csv",
  "campaign.json",
  "curves.ndjson",
  "datapackage.json",
  "losses.csv",
  "phases.csv",
  "report.html",
  "runs.csv",
];

/** 20 mg that lose 4 mg at once about 130 °C, exactly; 16 mg are left. */
function stepRun(loss = 4): string {
  const rows = ["T/°C\tm/mg"];
  for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - loss / (1 + Math.exp((130 - T) / 5))).toFixed(6)}`);
  return `${rows.join("\n")}\n`;
}

describe("the main job", () => {
  test("a folder with sheet and mix table: table on stdout, files in the output folder, exit code 0", async () => {
    const cwd = tempFolder({
      "data/a.txt": stepRun(4),
      "data/b.txt": stepRun(4.2),
      "data/sheet.csv": "file,mix,curing,age\na.txt,M1,moist,7d\nb.txt,M1,moist,7d\n",
      "data/mixes.csv": "mix,w_b\nM1,0.45\n",
    });
    const { code, out, err } = await cli(["index", "data", "--out", "out/x", "--no-figures", "--jobs", "1"], { cwd });
    expect(err).toBe(
      "Wrote runs.csv, losses.csv, phases.csv, ages.csv, curves.ndjson, report.html, datapackage.json, campaign.json to out/x\n",
    );
    expect(code).toBe(0);
    expect(readdirSync(join(cwd, "out/x")).sort()).toEqual(outputs);
    const ages = csv(join(cwd, "out/x/ages.csv"));
    const aft = ages.find(({ window }) => window === "aft-afm")!;
    // The mean of 4/16 and 4.2/15.8.
    expect(Number(aft.index)).toBeCloseTo(50 * (4 / 16 + 4.2 / 15.8), 2);
    expect([aft.mix, aft.curing, aft.age_d, aft.n_specimens]).toEqual(["M1", "moist", "7", "2"]);
    expect(out).toContain("aft-afm");
    expect(out).toContain("M1, moist");
    expect(out).toMatch(/7 d +25\.79 ± /);
    const campaign = campaignFromJson(readFileSync(join(cwd, "out/x/campaign.json"), "utf8"));
    expect(campaign.mixes[0]!.w_b).toBe(0.45);
    expect(campaign.runs.map(({ file, sha256 }) => [file, sha256?.length])).toEqual([
      ["a.txt", 64],
      ["b.txt", 64],
    ]);
    const curves = readFileSync(join(cwd, "out/x/curves.ndjson"), "utf8").trimEnd().split("\n");
    const sketches = curves.map((line) => JSON.parse(line));
    expect(sketches.map(({ file }) => file)).toEqual(["a.txt", "b.txt"]);
    expect(Math.max(...sketches[0].dtg_pct_per_C)).toBeCloseTo(((100 * 4) / 20 / 5) * 0.25, 1);
  });

  test("what an earlier job left in the output folder is named", async () => {
    const cwd = tempFolder({
      "data/a.txt": stepRun(),
      "out/contrasts.csv": "of another campaign\n",
      "out/figures/ages-m0-ah3.svg": "<svg/>",
      "out/figures/ages-m0-ah3.png": "",
      "out/notes.txt": "mine",
    });
    const { err } = await cli(["index", "data", "--out", "out", "--no-figures"], { cwd });
    expect(err.trimEnd().split("\n").at(-1)).toBe(
      "Left in out from before, not written now: contrasts.csv, 2 files in figures/",
    );
    expect(readFileSync(join(cwd, "out/contrasts.csv"), "utf8")).toBe("of another campaign\n");
  });

  test("without a sheet one is drafted from the file names, and that is said", async () => {
    const cwd = tempFolder({ "data/K_moist_7d_r1.txt": stepRun(), "data/L_moist_7d_r1.txt": stepRun() });
    const { code, out, err } = await cli(["index", "data"], { cwd });
    expect(code).toBe(0);
    expect(err.split("\n")[0]).toBe(
      "data: the folder has no sheet.csv: a run sheet was drafted from the file names; print it with the command sheet, finish it and save it as sheet.csv",
    );
    expect(out).toContain("K, moist");
    expect(out).toContain("L, moist");
  });

  test("a drafted sheet and a mix table without these mixes: said", async () => {
    const cwd = tempFolder({ "data/mixK_7d.txt": stepRun(), "data/mixes.csv": "mix,w_b\nM1,0.4\n" });
    const { code, err } = await cli(["index", "data"], { cwd });
    expect(code).toBe(0);
    expect(err.split("\n")).toContain("data: data/mixes.csv has no row for mixK.");
  });

  test("sheet and mixes from elsewhere; files that the sheet does not list are left out, and that is said", async () => {
    const cwd = tempFolder({
      "data/a.txt": stepRun(),
      "data/b.txt": stepRun(),
      "data/photo.jpg": "x",
      "data/deep/c.asc": stepRun(),
      "data/sheet.csv": "file\nb.txt\n",
      "lists/s.csv": "file;mix;curing\ndeep/c.asc;M1;air\na.txt;M1;air\n",
      "lists/m.csv": "mix;w_b\nM1;0,4\n",
    });
    const { code, err } = await cli(
      ["index", "data", "--sheet", "lists/s.csv", "--mixes", "lists/m.csv", "--out", "out"],
      { cwd },
    );
    expect(code).toBe(0);
    expect(err.split("\n")[0]).toBe("Left out, since lists/s.csv does not list them: 1 file (b.txt)");
    expect(csv(join(cwd, "out/runs.csv")).map(({ file, mix }) => [file, mix])).toEqual([
      ["a.txt", "M1"],
      ["deep/c.asc", "M1"],
    ]);
  });

  test("outputs inside the folder are never taken for runs", async () => {
    const cwd = tempFolder({ "data/a.txt": stepRun() });
    await cli(["index", "data", "--out", "data"], { cwd });
    await cli(["index", "data", "--out", "data/out"], { cwd });
    // As after a kill between the first and the last file.
    rmSync(join(cwd, "data/out/campaign.json"));
    const { code, err } = await cli(["index", "data", "--out", "data/out"], { cwd });
    expect([code, csv(join(cwd, "data/out/runs.csv")).map(({ file }) => file)]).toEqual([0, ["a.txt"]]);
    expect(err).not.toContain("ages.csv:");
  });

  test("a protocol from a file, and columns for files that cannot be inferred", async () => {
    const rows = Array.from(
      { length: 1000 },
      (_, i) => `${1000 - i * 0.01}\t${i}\t${303 + i * 0.7}\t${20 - i * 0.002}`,
    );
    const cwd = tempFolder({ "data/a.txt": `${rows.join("\n")}\n` });
    const printed = await cli(["protocol", "csa"]);
    const protocol = JSON.parse(printed.out);
    const own = {
      ...protocol,
      name: "own",
      basis: "initial",
      windows: [{ name: "all", from_C: 100, to_C: 600, rule: "step" }],
    };
    const folder = tempFolder({ "p.json": `\uFEFF${JSON.stringify(own)}` });
    const argv = [
      "index",
      "data",
      "--protocol",
      join(folder, "p.json"),
      "--columns",
      "temperature=3:K,mass=4:mg",
      "--json",
    ];
    const { out } = await cli(argv, { cwd });
    const campaign = campaignFromJson(out);
    const [all] = campaign.ages;
    // −0.002 mg per 0.7 K, 500 K, of 20 mg.
    expect([campaign.protocol.name, all!.window]).toEqual(["own", "all"]);
    expect("value" in all!.index && all!.index.value).toBeCloseTo((100 * ((0.002 / 0.7) * 500)) / 20, 4);
  });

  test("--json prints what campaign.json holds", async () => {
    const cwd = tempFolder({ "data/a.txt": stepRun() });
    const { code, out } = await cli(["index", "data", "--out", "out", "--json"], { cwd });
    expect(code).toBe(0);
    expect(JSON.parse(out)).toEqual(JSON.parse(readFileSync(join(cwd, "out/campaign.json"), "utf8")));
  });

  test("a blank run without indices is nothing to repair", async () => {
    const empty = Array.from({ length: 940 }, (_, i) => `${25 + i}\t${(0.001 * Math.sin(i)).toFixed(4)}`);
    const cwd = tempFolder({
      "data/a.txt": stepRun(),
      "data/empty.txt": `T/°C\tm/mg\n${empty.join("\n")}\n`,
      "data/sheet.csv": "file,role\na.txt,\nempty.txt,blank\n",
    });
    const { code, err } = await cli(["index", "data"], { cwd });
    expect([code, err]).toEqual([0, ""]);
  });

  test("a blank run is read by its own row of the sheet; where it cannot be read its runs fail and are named", async () => {
    // The balance gains 0.1 mg on the way to 960 °C, by itself and under the sample.
    const gain = (T: number): number => (0.1 * (T - 30)) / 930;
    const rows = Array.from({ length: 1861 }, (_, i) => 30 + i / 2);
    const empty = rows.map((T) => `${(T + 273.15).toFixed(2)}\t${gain(T).toFixed(6)}`).join("\n");
    const run = rows.map((T) => `${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5)) + gain(T)).toFixed(6)}`).join("\n");
    const sheet = [
      "file,role,blank,columns",
      "a.txt,,empty.txt,",
      'empty.txt,blank,,"temperature=1:K,mass=2:mg"',
      "b.txt,,broken.txt,",
      "broken.txt,blank,,",
    ];
    const cwd = tempFolder({
      "data/a.txt": `T/°C\tm/mg\n${run}\n`,
      "data/b.txt": stepRun(),
      "data/empty.txt": `${empty}\n`,
      "data/broken.txt": "",
      "data/sheet.csv": `${sheet.join("\n")}\n`,
    });
    const { code, err } = await cli(["index", "data", "--out", "out"], { cwd });
    expect(code).toBe(1);
    const aft = csv(join(cwd, "out/losses.csv")).find(({ file, window }) => file === "a.txt" && window === "aft-afm")!;
    expect(Number(aft.index)).toBeCloseTo(25, 2);
    expect(err.split("\n")).toContain("b.txt: broken.txt: The file is empty. Export the run again.");
    expect(err.split("\n")).toContain("Of 4 runs 2 failed; the others are complete.");
  });

  test("flags that ask for care are counted, with the files", async () => {
    const warm = stepRun().replace(/^(?:[34]\d(?:\.\d)?)\t.*\n/gm, "");
    const cwd = tempFolder({ "data/a.txt": stepRun(), "data/warm.txt": warm });
    const { code, err } = await cli(["index", "data"], { cwd });
    expect(code).toBe(0);
    expect(err.split("\n")).toContain("Flag starts-warm in 1 run: warm.txt");
  });
});

describe("manners", () => {
  test("labels and file names cannot act on the terminal", async () => {
    const evil = "M\u202eX";
    const cwd = tempFolder({
      "data/a.txt": stepRun(),
      "data/b\u202e.txt": "",
      "data/c\u001b[2J.txt": stepRun(),
      "data/sheet.csv": `file,mix\na.txt,${evil}\nb\u202e.txt,M2\n`,
      "escape.csv": "file,mix\na.txt,M\u001b[31m\n",
    });
    const text = await cli(["index", "data"], { cwd });
    const json = await cli(["index", "data", "--json"], { cwd });
    const problem = await cli(["index", "data", "--sheet", "escape.csv"], { cwd });
    const safe = /^[\n\P{C}]*$/u;
    for (const written of [text, json, problem].flatMap(({ out, err }) => [out, err])) expect(written).toMatch(safe);
    expect(JSON.parse(json.out).runs.map(({ mix }: { mix: string }) => mix)).toEqual([evil, "M2"]);
    expect(text.out).toContain("M\\u{202e}X\n");
    expect(text.err).toContain("b\\u{202e}.txt: The file is empty. Export the run again.");
    expect(text.err).toContain(
      "data: left out, since they are links or have control characters in their names: c\\u{1b}[2J.txt; copy or rename them",
    );
    expect(problem.code).toBe(2);
  });

  const three = () => tempFolder({ "data/a.txt": stepRun(), "data/b.txt": stepRun(), "data/c.txt": stepRun() });

  test("a bar on stderr where that is a terminal, taken away at the end", async () => {
    const { err } = await cli(["index", "data", "--jobs", "1"], { cwd: three(), isTTY: true, columns: 60 });
    expect(err).toContain(`\r[${"#".repeat(40)}] 3 of 3 runs`);
    expect(err.endsWith(`\r${" ".repeat(59)}\r`)).toBe(true);
  });

  test("another one while the figures are drawn, before what was written is said", async () => {
    const { err } = await cli(["index", "data", "--out", "out"], { cwd: three(), isTTY: true, columns: 60 });
    const [, all] = /(\d+) of \1 figures/.exec(err)!;
    expect(Number(all)).toBeGreaterThan(0);
    expect(err.indexOf("Wrote ")).toBeGreaterThan(err.lastIndexOf(`${all} of ${all} figures`));
    expect(err.slice(err.lastIndexOf("\r") + 1)).toMatch(/^Wrote .+\n$/);
  });

  test.for([
    ["stderr is no terminal", { isTTY: false }],
    ["the terminal is dumb", { isTTY: true, env: { TERM: "dumb" } }],
  ] as const)("no bar where %s", async ([, surroundings]) => {
    const { err } = await cli(["index", "data"], { cwd: three(), ...surroundings });
    expect(err).not.toContain("\r");
  });

  test("a terminal that reports no width has 80 columns, a narrow one gets no line longer than itself", async () => {
    const unknown = await cli(["index", "data"], { cwd: three(), isTTY: true, columns: 0 });
    expect(unknown.err.endsWith(`\r${" ".repeat(79)}\r`)).toBe(true);
    const narrow = await cli(["index", "data"], { cwd: three(), isTTY: true, columns: 10 });
    const parts = narrow.err.split("\r").slice(1);
    expect(parts.length).toBeGreaterThan(0);
    for (const part of parts) expect(part.length).toBeLessThan(10);
  });

  test("stopped by the user: said, nothing written, exit code 130", async () => {
    const stop = new AbortController();
    const cwd = three();
    const err: string[] = [];
    const { runCli } = await import("../../src/cli/run.ts");
    const code = await runCli(["index", "data", "--out", "out", "--jobs", "1"], {
      stdout: { write: () => expect.unreachable("nothing is printed") },
      stderr: {
        write(text) {
          err.push(text);
          if (text.includes("1 of 3")) stop.abort();
        },
      },
      cwd,
      env: {},
      isTTY: true,
      signal: stop.signal,
    });
    expect([code, err.at(-1)]).toEqual([130, "Stopped after 1 of 3 runs. Nothing was written.\n"]);
    expect(existsSync(join(cwd, "out/runs.csv"))).toBe(false);
  });

  test("stopped after the last run: the table is there, the files are not, and it is said", async () => {
    const stop = new AbortController();
    const cwd = three();
    const err: string[] = [];
    const { runCli } = await import("../../src/cli/run.ts");
    const code = await runCli(["index", "data", "--out", "out", "--jobs", "1"], {
      stdout: { write: () => stop.abort() },
      stderr: { write: (text) => err.push(text) },
      cwd,
      env: {},
      isTTY: false,
      signal: stop.signal,
    });
    const last = "Stopped after all 3 runs, before out was written. Nothing there was changed.\n";
    expect([code, err.at(-1)]).toEqual([130, last]);
    expect(readdirSync(join(cwd, "out"))).toEqual([]);
  });

  test.for([
    ["--out", "data", "data/ages.csv stands in the folder of the runs and may be an input; it would be overwritten."],
    [
      "--out",
      "data/deep",
      "data/deep/runs.csv stands in the folder of the runs and may be an input; it would be overwritten.",
    ],
    ["--out", "mine", "losses.csv would overwrite mine/losses.csv. Name another folder."],
  ])("an input is never overwritten: %j %j", async ([option, out, message]) => {
    const files = { "data/ages.csv": "mine", "data/deep/runs.csv": "mine", "mine/losses.csv": "file\na.txt\n" };
    const cwd = tempFolder({ "data/a.txt": stepRun(), ...files });
    const sheet = out === "mine" ? ["--sheet", "mine/losses.csv"] : [];
    const { code, out: printed, err } = await cli(["index", "data", ...sheet, option!, out!, "--no-figures"], { cwd });
    expect([code, printed]).toEqual([2, ""]);
    expect(err).toContain(message);
    for (const [name, text] of Object.entries(files)) expect(readFileSync(join(cwd, name), "utf8")).toBe(text);
  });

  test("outputs of before are replaced, in the folder of the runs too", async () => {
    const cwd = tempFolder({ "data/a.txt": stepRun() });
    for (const file of ["a.txt", "b.txt"]) {
      writeFileSync(join(cwd, "data", file), stepRun());
      expect((await cli(["index", "data", "--out", "data", "--no-figures"], { cwd })).code).toBe(0);
      expect(readFileSync(join(cwd, "data", "runs.csv"), "utf8")).toContain(file);
    }
  });

  test("the same folder gives the same bytes, whatever the names of the folders above and the layouts of other files", async () => {
    const files = { "a.txt": exportBytes({ seed: 3 }), "b.csv": exportBytes({ seed: 4, layout: "commas" }) };
    const [one, two] = [tempFolder(files), tempFolder(files)];
    await cli(["index", one, "--out", join(one, "out")]);
    await cli(["index", ".", "--out", "out"], { cwd: two });
    // The report names the folder that was asked for.
    for (const name of outputs.filter((output) => output !== "report.html")) {
      expect(readFileSync(join(two, "out", name), "utf8")).toBe(readFileSync(join(one, "out", name), "utf8"));
    }
  });
});

test.for([
  [["--figures", "all"], "--figures all: Name a folder for the figures: --out FOLDER."],
  [["--figures", "campaign", "--watch"], "--figures campaign: Name a folder for the figures: --out FOLDER."],
  [["--png"], "--png: Name a folder for the figures: --out FOLDER."],
  [["--png", "--no-figures", "--out", "out"], "--png: There is no figure to make a PNG of. Leave out --no-figures."],
  [["--still", "5"], "--still: It says how long a watched file must stand still. Add --watch, or leave it out."],
  [["--watch", "--still", "0"], "--still 0: Give seconds above 0 and up to 3600."],
  [["--watch", "--json"], "--watch: The table is printed when the watch ends. Leave out --json and --ndjson."],
] as const)("index %j is refused before any work", async ([more, message]) => {
  const cwd = tempFolder({ "data/a.txt": stepRun() });
  const { code, out, err } = await cli(["index", "data", ...more], { cwd });
  expect([code, out]).toEqual([2, ""]);
  expect(err).toContain(message);
  expect(readdirSync(cwd)).toEqual(["data"]);
});

test("a watch that could not do anything says what it waits for and ends with 2", async () => {
  const cwd = tempFolder({ "data/a.txt": stepRun(), "data/sheet.csv": "file,agee_d\na.txt,7\n" });
  const stop = new AbortController();
  const err: string[] = [];
  const { runCli } = await import("../../src/cli/run.ts");
  const code = await runCli(["index", "data", "--watch", "--still", "0.1", "--out", "out"], {
    stdout: { write: () => true },
    stderr: {
      write(text) {
        err.push(text);
        if (text.startsWith("Waiting:")) stop.abort();
      },
    },
    cwd,
    env: {},
    isTTY: false,
    signal: stop.signal,
  });
  expect(code).toBe(2);
  expect(err.join("")).toMatch(/\nStopped before any run was indexed: .*agee_d.*\n$/s);
  expect(readdirSync(join(cwd, "out"))).toEqual([]);
});

test("figures are drawn as SVG and, where asked for, as PNG", async () => {
  const cwd = tempFolder({ "data/a.txt": stepRun(), "data/b.txt": stepRun(4.2) });
  const { code, err } = await cli(["index", "data", "--out", "out", "--figures", "all", "--png", "--jobs", "1"], {
    cwd,
  });
  expect(code).toBe(0);
  const drawn = readdirSync(join(cwd, "out/figures"));
  const svgs = drawn.filter((name) => name.endsWith(".svg"));
  expect(svgs.filter((name) => name.startsWith("run-"))).toHaveLength(2);
  expect(drawn.filter((name) => name.endsWith(".png")).map((name) => name.replace(".png", ".svg"))).toEqual(svgs);
  expect(err).toContain(`${drawn.length} files in figures/ to out`);
  // The signature of a PNG (ISO/IEC 15948, 5.2).
  const png = readFileSync(join(cwd, "out/figures", drawn.find((name) => name.endsWith(".png"))!));
  expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
});
