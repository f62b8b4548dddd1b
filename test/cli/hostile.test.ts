import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { agesInfo } from "../../src/render/agesCsv.ts";
import { exportBytes } from "../files/exportBytes.ts";
import { tempFolder } from "../files/tempFolder.ts";
import { cli } from "./cli.ts";
import { csv } from "./csv.ts";

const good = exportBytes();
const index = ["index", "data", "--out", "out", "--no-figures"];

describe("names that mean something to the language", () => {
  const names = ["__proto__", "constructor", "prototype"];
  const sheet = [
    "file,mix,curing,curing_d,age_d,specimen",
    ...names.flatMap((name) => [7, 28].map((age) => `${name}-${age}.txt,${name},${name},7,${age},${name} ${age}`)),
  ].join("\n");
  const runs = names.flatMap((name) =>
    [7, 28].map((age, i) => [`data/${name}-${age}.txt`, exportBytes({ seed: i + 1 })]),
  );
  const properties = [
    "mix,curing,curing_d,age_d,property,value,unit,specimen",
    ...names.flatMap((name) => [1, 2].map((k) => `${name},${name},7,28,${name},${k},${name},${k}`)),
  ].join("\n");

  test("are mixes, regimes, specimens, files, properties and units like any other", async () => {
    const mixes = `mix,toString_pct,hasOwnProperty\n${names.map((name) => `${name},5,x`).join("\n")}\n`;
    const cwd = tempFolder({
      ...Object.fromEntries(runs),
      "data/sheet.csv": sheet,
      "data/mixes.csv": mixes,
      "data/properties.csv": properties,
    });
    const before = Object.getOwnPropertyNames(Object.prototype);
    const { code, err } = await cli(index, { cwd });
    expect([code, err.split("\n").filter((line) => /error|problem/i.test(line))]).toEqual([0, []]);
    const ages = csv(join(cwd, "out", "ages.csv")).filter(({ window }) => window === "aft-afm");
    expect(ages.map(({ mix, curing, n_specimens }) => [mix, curing, n_specimens])).toEqual(
      names.toSorted().flatMap((name) => [7, 28].map(() => [name, name, "1"])),
    );
    const compared = await cli(["compare", "data", "--reference", "__proto__", "--out", "decided", "--no-figures"], {
      cwd,
    });
    expect(compared.err).not.toMatch(/An error of tg-hydrates/);
    expect(new Set(csv(join(cwd, "decided", "properties.csv")).map(({ property }) => property))).toEqual(
      new Set(names),
    );
    const again = await cli(["compare", "decided/campaign.json", "--reference", "constructor:7"], { cwd });
    expect(again.code).toBe(0);
    expect(Object.getOwnPropertyNames(Object.prototype)).toEqual(before);
  });
});

describe("links in a stranger's folders", () => {
  const elsewhere = () =>
    tempFolder({ "secret.txt": exportBytes({ seed: 5 }), "properties.csv": "property,value,unit\nSECRET,1,MPa\n" });

  test("are left out as runs, sheets, tables and folders, loops too, and a remark says so", async () => {
    const outside = elsewhere();
    const cwd = tempFolder({ "data/a.txt": good });
    for (const [from, to] of [
      ["secret.txt", "link.txt"],
      ["secret.txt", "sheet.csv"],
      ["properties.csv", "properties.csv"],
    ] as const)
      symlinkSync(join(outside, from), join(cwd, "data", to));
    symlinkSync(join(cwd, "data"), join(cwd, "data", "loop"));
    symlinkSync(outside, join(cwd, "data", "all"));
    const { code, out, err } = await cli(["compare", "data", "--reference", "x"], { cwd });
    expect(code).toBe(2);
    expect(err).toContain(
      "links or have control characters in their names: all, link.txt, loop, properties.csv, sheet.csv",
    );
    expect(out + err).not.toContain("SECRET");
  });

  test("a sheet cannot name one", async () => {
    const cwd = tempFolder({ "data/a.txt": good, "data/sheet.csv": "file\nlink.txt\nall/secret.txt\n" });
    const outside = elsewhere();
    symlinkSync(join(outside, "secret.txt"), join(cwd, "data", "link.txt"));
    symlinkSync(outside, join(cwd, "data", "all"));
    const { code, err } = await cli(index, { cwd });
    expect(code).toBe(2);
    for (const file of ["link.txt", "all/secret.txt"]) expect(err).toContain(`the file "${file}" is not in the folder`);
    expect(existsSync(join(cwd, "out"))).toBe(false);
  });

  test("figures that is one is refused before the work; the output folder itself may be one", async () => {
    const outside = elsewhere();
    const cwd = tempFolder({ "data/a.txt": good, "out/keep": "" });
    symlinkSync(outside, join(cwd, "out", "figures"));
    const { code, out, err } = await cli(["index", "data", "--out", "out"], { cwd });
    expect([code, out]).toEqual([2, ""]);
    expect(err).toContain(
      `${join("out", "figures")}: This is a link, and outputs would land where it leads. Take it away, or name another folder.\n`,
    );
    expect(readdirSync(outside).sort()).toEqual(["properties.csv", "secret.txt"]);
    mkdirSync(join(cwd, "real"));
    symlinkSync(join(cwd, "real"), join(cwd, "linked"));
    expect((await cli(["index", "data", "--out", "linked", "--no-figures"], { cwd })).code).toBe(0);
    expect(readdirSync(join(cwd, "real"))).toContain("campaign.json");
  });

  test("under the names of outputs they are replaced, never followed", async () => {
    const outside = elsewhere();
    const before = readFileSync(join(outside, "secret.txt"));
    const cwd = tempFolder({ "data/a.txt": good, "out/keep": "" });
    for (const name of ["runs.csv", "campaign.json", "curves.ndjson", "report.html"])
      symlinkSync(join(outside, "secret.txt"), join(cwd, "out", name));
    expect((await cli(index, { cwd })).code).toBe(0);
    expect(readFileSync(join(outside, "secret.txt")).equals(before)).toBe(true);
    expect(csv(join(cwd, "out", "runs.csv"))).toHaveLength(1);
  });
});

test("tables of this program under other names are no runs, and a remark says so", async () => {
  const cwd = tempFolder({ "data/a.txt": good });
  await cli(index, { cwd });
  for (const name of ["runs", "losses", "ages"]) {
    const table = readFileSync(join(cwd, "out", `${name}.csv`));
    writeFileSync(join(cwd, "data", `${name}-old.csv`), table);
  }
  // The names of some columns alone make no table of ours.
  writeFileSync(join(cwd, "data", "x.csv"), `${Object.keys(agesInfo.columns).slice(0, 3).join(",")}\n`);
  const { err } = await cli(["index", "data"], { cwd });
  expect(err).toContain(
    "data: left out, since they are tables that this program wrote: ages-old.csv, losses-old.csv, runs-old.csv; name them in a run sheet if they are runs\n",
  );
  expect(err).toContain("Of 2 runs 1 failed");
  const sheet = await cli(["sheet", "data"], { cwd });
  expect(sheet.out).not.toContain("-old");
});

test("a message about the command line repeats nothing that a terminal would act on", async () => {
  const { code, err } = await cli(["read", "--\u001b[31mred"]);
  expect(code).toBe(2);
  expect(err).toContain("--\\u{1b}[31mred");
});
