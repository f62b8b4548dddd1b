import { symlinkSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { listRunFiles } from "../../src/files/listRunFiles.ts";
import { tempFolder } from "./tempFolder.ts";

test("text files of all depths in code-unit order; other kinds apart; tables of the folder are named", async () => {
  const folder = tempFolder({
    "b.TXT": "",
    "a.csv": "",
    "Z.dat": "",
    "ä.asc": "",
    "deep/er/c.tsv": "",
    "deep/sheet.csv": "",
    "photo.png": "",
    "no-ending": "",
    "sheet.csv": "",
    "mixes.csv": "",
    "properties.csv": "",
    "truth.csv": "",
    ".hidden.txt": "",
    ".git/x.txt": "",
    "node_modules/y.txt": "",
  });
  expect(await listRunFiles(folder)).toEqual({
    runs: ["Z.dat", "a.csv", "b.TXT", "deep/er/c.tsv", "deep/sheet.csv", "ä.asc"],
    others: ["no-ending", "photo.png", "properties.csv", "truth.csv"],
    unusable: [],
    sheet: "sheet.csv",
    mixes: "mixes.csv",
  });
});

test("a sheet with capitals is found; the exact name goes first", async () => {
  expect((await listRunFiles(tempFolder({ "Sheet.CSV": "", "a.txt": "" }))).sheet).toBe("Sheet.CSV");
  const { sheet, runs } = await listRunFiles(tempFolder({ "SHEET.csv": "", "sheet.csv": "" }));
  expect(sheet).toBe("sheet.csv");
  // On a file system that keeps capitals apart the other one is a file like any other.
  expect(runs.length).toBeLessThanOrEqual(1);
});

test("outputs are no runs: beside a campaign.json, and in the output folder before there is one", async () => {
  const folder = tempFolder({
    "a.txt": "",
    "ages.csv": "",
    "done/campaign.json": "",
    "done/runs.csv": "",
    "done/b.txt": "",
    "out/runs.csv": "",
    "out/.runs.csv.0123456789ab.tmp": "",
  });
  const without = await listRunFiles(folder);
  expect(without.runs).toEqual(["a.txt", "ages.csv", "done/b.txt", "out/runs.csv"]);
  const within = await listRunFiles(folder, { out: join(folder, "out") });
  expect(within.runs).toEqual(["a.txt", "ages.csv", "done/b.txt"]);
  const here = await listRunFiles(folder, { out: folder });
  expect(here.runs).toEqual(["a.txt", "done/b.txt", "out/runs.csv"]);
});

test("links are not followed, to files or to folders", async () => {
  const elsewhere = tempFolder({ "secret.txt": "" });
  const folder = tempFolder({ "a.txt": "" });
  symlinkSync(join(elsewhere, "secret.txt"), join(folder, "link.txt"));
  symlinkSync(elsewhere, join(folder, "all"));
  symlinkSync(folder, join(folder, "circle"));
  const { runs, unusable } = await listRunFiles(folder);
  expect(runs).toEqual(["a.txt"]);
  expect(unusable).toEqual(["all", "circle", "link.txt"]);
});

test("the folder itself may be a link, and names with control characters are set apart", async () => {
  const elsewhere = tempFolder({ "a.txt": "", "b\n.txt": "" });
  const folder = tempFolder();
  symlinkSync(elsewhere, join(folder, "data"));
  const { runs, unusable } = await listRunFiles(join(folder, "data"));
  expect([runs, unusable]).toEqual([["a.txt"], ["b\n.txt"]]);
});

test.for([
  ["nowhere", "There is no such folder. Check the path.", "not-found"],
  ["a.txt", "This is a file, not a folder. Name the folder that holds the runs.", "not-a-folder"],
  ["a.txt/b", "A part of the path is a file, not a folder. Check the path.", "not-a-folder"],
] as const)("%s", async ([name, message, code]) => {
  const folder = tempFolder({ "a.txt": "" });
  const listed = listRunFiles(join(folder, name), { name });
  await expect(listed).rejects.toMatchObject({ name: "FileError", code, message: `${name}: ${message}` });
});

test("figures of an output folder are no files of the campaign; pictures and texts elsewhere are", async () => {
  const folder = tempFolder({
    "a.txt": "",
    "figures/mine.svg": "",
    "results/campaign.json": "",
    "results/figures/ages.svg": "",
    "results/figures/ages.png": "",
    "results/figures/mine.txt": "",
    "out/figures/ages.svg": "",
  });
  const { runs, others } = await listRunFiles(folder, { out: join(folder, "out") });
  expect(runs).toEqual(["a.txt", "results/figures/mine.txt"]);
  expect(others).toEqual(["figures/mine.svg"]);
});
