import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checkProtocol } from "../../src/protocol/checkProtocol.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { exampleCampaign } from "../../src/simulate/exampleCampaign.ts";
import { tempFolder } from "../files/tempFolder.ts";
import { cli } from "./cli.ts";

describe("sheet", () => {
  test("the draft as CSV on stdout, what was concluded on stderr", async () => {
    const cwd = tempFolder({ "data/b_7d.txt": "", "data/a_28d.txt": "", "data/sheet.csv": "file\n", "data/x.png": "" });
    const { code, out, err } = await cli(["sheet", "data"], { cwd });
    expect(code).toBe(0);
    const lines = out.trimEnd().split("\n");
    expect(lines[0]).toMatch(/^file,mix,curing,curing_d,age,/);
    expect(lines.slice(1).map((line) => line.split(",")[0])).toEqual(["a_28d.txt", "b_7d.txt"]);
    expect(lines[1]).toContain(",28d,");
    expect(err).toMatch(/^No curing in 2 of 2 names/m);
  });

  test("--json has the rows and the remarks", async () => {
    const cwd = tempFolder({ "data/mixA_moist_7d.txt": "" });
    const { out } = await cli(["sheet", "data", "--json"], { cwd });
    const { rows, remarks } = JSON.parse(out);
    expect(rows[0]).toMatchObject({ file: "mixA_moist_7d.txt", curing: "moist", age_min: 10080, role: "specimen" });
    expect(Array.isArray(remarks)).toBe(true);
  });

  test.for([
    [{}, "data: There is no such folder. Check the path.\n"],
    [{ data: "" }, "data: This is a file, not a folder. Name the folder that holds the runs.\n"],
    [
      { "data/sheet.csv": "file\n" },
      "data: The folder holds no runs. Put the runs into it, exported as text (.txt, .csv, .tsv, .dat, .asc …).\n",
    ],
  ] as const)("nothing to draft from %o", async ([files, message]) => {
    const result = await cli(["sheet", "data"], { cwd: tempFolder(files) });
    expect(result).toEqual({ code: 2, out: "", err: message });
  });

  test("a drafted sheet can be used as it is", async () => {
    const rows = ["T/°C\tm/mg"];
    for (let T = 30; T <= 960; T += 1) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(6)}`);
    const run = `${rows.join("\n")}\n`;
    const cwd = tempFolder({ "data/K_moist_7d.txt": run, "data/K_moist_28d.txt": run });
    const { out } = await cli(["sheet", "data"], { cwd });
    writeFileSync(join(cwd, "data/sheet.csv"), out);
    const { code, err } = await cli(["index", "data"], { cwd });
    expect([code, err]).toEqual([0, ""]);
  });
});

describe("protocol", () => {
  test("prints the built-in protocol, which is accepted as it is", async () => {
    const { code, out, err } = await cli(["protocol", "csa"]);
    expect([code, err]).toEqual([0, ""]);
    expect(checkProtocol(JSON.parse(out))).toEqual(protocols.csa);
    expect(await cli(["protocol"])).toEqual({ code, out, err });
  });

  test("an unknown name", async () => {
    const { code, out, err } = await cli(["protocol", "scsa"]);
    expect([code, out, err]).toEqual([
      2,
      "",
      "scsa: There is no such protocol, built in or as a file. Did you mean csa?\n",
    ]);
    expect((await cli(["protocol", "portland"])).err).toMatch(
      /^portland: There is no such protocol, built in or as a file\. Built-in ones: csa\b.*\n$/,
    );
  });
});

describe("example", () => {
  test("writes the campaign of its seed with sheet, mixes and truth, which can be indexed", async () => {
    const cwd = tempFolder();
    const { code, out, err } = await cli(["example", "demo", "--size", "small", "--seed", "7"], { cwd });
    const { files } = exampleCampaign(7, { size: "small" });
    expect([code, out]).toEqual([0, ""]);
    expect(err).toBe(
      `Wrote ${files.length} files to demo: an invented campaign with sheet.csv and mixes.csv; its truth is in truth.csv\nNext: tg-hydrates index demo --out results\nthen: tg-hydrates compare demo --reference sealed --margin 10% --out results\n`,
    );
    expect(readdirSync(join(cwd, "demo")).sort()).toEqual(files.map(({ name }) => name).sort());
    for (const { name, bytes } of files) {
      expect(Buffer.compare(readFileSync(join(cwd, "demo", name)), bytes), name).toBe(0);
    }
    const indexed = await cli(["index", "demo"], { cwd });
    expect(indexed.code).toBe(0);
    expect(indexed.err).toMatch(/^Flag starts-warm in 1 run: /m);
  });

  test.for([
    [{ "demo/mine.txt": "x" }, "demo: The folder is not empty (one file). Name a new or an empty one.\n"],
    [{ demo: "x" }, "demo: A file is in the way. Name a folder.\n"],
  ] as const)("refuses %o", async ([files, message]) => {
    const cwd = tempFolder(files);
    expect(await cli(["example", "demo"], { cwd })).toEqual({ code: 2, out: "", err: message });
    expect(readdirSync(cwd, { recursive: true }).sort()).toEqual(
      ["demo", ...Object.keys(files)].filter((f, i, all) => all.indexOf(f) === i),
    );
  });
});
