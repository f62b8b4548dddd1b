import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeOutputs } from "../../src/files/writeOutputs.ts";
import { tempFolder } from "./tempFolder.ts";

test("text, bytes and pieces are written completely, the folder is made, nothing else is left", async () => {
  const folder = join(tempFolder(), "new", "out");
  const long = "µ".repeat(300_000);
  await writeOutputs(folder, [
    { name: "a.csv", content: "ä\n" },
    { name: "b.bin", content: Uint8Array.of(0, 255) },
    { name: "c.ndjson", content: ["1\n", long, "2\n"] },
    { name: "empty", content: "" },
  ]);
  expect(readdirSync(folder).sort()).toEqual(["a.csv", "b.bin", "c.ndjson", "empty"]);
  expect(readFileSync(join(folder, "a.csv"), "utf8")).toBe("ä\n");
  expect([...readFileSync(join(folder, "b.bin"))]).toEqual([0, 255]);
  expect(readFileSync(join(folder, "c.ndjson"), "utf8")).toBe(`1\n${long}2\n`);
  expect(readFileSync(join(folder, "empty"), "utf8")).toBe("");
});

test("older outputs are replaced, other files stay", async () => {
  const folder = tempFolder({ "a.csv": "old and longer", "mine.txt": "mine" });
  await writeOutputs(folder, [{ name: "a.csv", content: "new" }]);
  expect(readFileSync(join(folder, "a.csv"), "utf8")).toBe("new");
  expect(readFileSync(join(folder, "mine.txt"), "utf8")).toBe("mine");
});

test("a failure in the middle changes no file under a final name and leaves no temporary one", async () => {
  const folder = tempFolder({ "a.csv": "old" });
  function* broken(): Generator<string> {
    yield "half";
    throw new RangeError("no more");
  }
  const written = writeOutputs(folder, [
    { name: "a.csv", content: "new" },
    { name: "b.csv", content: broken() },
  ]);
  await expect(written).rejects.toThrow("no more");
  expect(readdirSync(folder)).toEqual(["a.csv"]);
  expect(readFileSync(join(folder, "a.csv"), "utf8")).toBe("old");
});

test("a folder in the way of an output", async () => {
  const folder = tempFolder({ "a.csv/x": "" });
  const written = writeOutputs(folder, [{ name: "a.csv", content: "new" }], { name: "out" });
  await expect(written).rejects.toMatchObject({
    name: "FileError",
    message: `${join("out", "a.csv")}: This is a folder, not a file. Name a file.`,
  });
  expect(readdirSync(folder)).toEqual(["a.csv"]);
});

test("a file in the way of the folder", async () => {
  const folder = tempFolder({ out: "" });
  const written = writeOutputs(join(folder, "out", "deep"), [], { name: "out/deep" });
  await expect(written).rejects.toThrow("out/deep: A file is in the way. Name a folder.");
});

test("a link under an output's name is replaced, what it leads to stays", async () => {
  const elsewhere = tempFolder({ precious: "mine" });
  const folder = tempFolder();
  symlinkSync(join(elsewhere, "precious"), join(folder, "a.csv"));
  await writeOutputs(folder, [{ name: "a.csv", content: "new" }]);
  expect(readFileSync(join(elsewhere, "precious"), "utf8")).toBe("mine");
  expect(readFileSync(join(folder, "a.csv"), "utf8")).toBe("new");
});

test.for(["../a.csv", "/tmp/a.csv", "a\\..\\..\\b.csv", "C:\\a.csv", "x/../../a.csv", "a\0.csv", "./a.csv", ""])(
  "the name %j leaves the folder, or is none: nothing is written",
  async (name) => {
    const folder = join(tempFolder(), "out");
    const written = writeOutputs(folder, [
      { name: "good.csv", content: "" },
      { name, content: "new" },
    ]);
    await expect(written).rejects.toMatchObject({ name: "FileError", code: "outside" });
    expect(existsSync(folder)).toBe(false);
  },
);

test.for(["deep", "deep/er"])("the folder %s below that is a link is not written through", async (link) => {
  const elsewhere = tempFolder();
  const folder = tempFolder(link === "deep" ? {} : { "deep/x": "" });
  symlinkSync(elsewhere, join(folder, link));
  const written = writeOutputs(folder, [{ name: "deep/er/a.csv", content: "new" }], { name: "out" });
  await expect(written).rejects.toMatchObject({ name: "FileError", code: "is-a-link" });
  await expect(written).rejects.toThrow(`${join("out", link)}: This is a link`);
  expect(readdirSync(elsewhere)).toEqual([]);
});

test("temporary files of a killed process are taken away an hour later, those of a living one stay", async () => {
  const folder = tempFolder();
  mkdirSync(folder, { recursive: true });
  const [old, young, strange] = [".runs.csv.0123456789ab.tmp", ".runs.csv.ba9876543210.tmp", ".mine.tmp"];
  for (const name of [old, young, strange]) writeFileSync(join(folder, name), "");
  for (const name of [old, strange]) utimesSync(join(folder, name), 0, 0);
  await writeOutputs(folder, []);
  expect([old, young, strange].map((name) => existsSync(join(folder, name)))).toEqual([false, true, true]);
});
