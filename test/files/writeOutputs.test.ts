import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { listRunFiles } from "../../src/files/listRunFiles.ts";
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

test("a folder in the way of the second output: the first is not changed either", async () => {
  const folder = tempFolder({ "a.csv": "old", "b.csv/x": "" });
  const files = ["a.csv", "b.csv"].map((name) => ({ name, content: "new" }));
  await expect(writeOutputs(folder, files, { name: "out" })).rejects.toThrow(/b\.csv: This is a folder/);
  expect(readFileSync(join(folder, "a.csv"), "utf8")).toBe("old");
  expect(readdirSync(folder).sort()).toEqual(["a.csv", "b.csv"]);
});

test("a signal stops the writing between two pieces; nothing is changed and nothing left", async () => {
  const folder = tempFolder({ "a.csv": "old" });
  const stop = new AbortController();
  const reason = new RangeError("enough");
  function* stopping(): Generator<string> {
    yield "half";
    stop.abort(reason);
  }
  const files = [
    { name: "a.csv", content: "new" },
    { name: "b.csv", content: stopping() },
  ];
  await expect(writeOutputs(folder, files, { signal: stop.signal })).rejects.toBe(reason);
  expect(readdirSync(folder)).toEqual(["a.csv"]);
  expect(readFileSync(join(folder, "a.csv"), "utf8")).toBe("old");
});

test("a folder that is moved while it is written to: refused by name, the moved files stay", async () => {
  const root = tempFolder({ "out/a.csv": "old" });
  function* moving(): Generator<string> {
    yield "half";
    renameSync(join(root, "out"), join(root, "moved"));
    mkdirSync(join(root, "out"));
  }
  const files = [
    { name: "a.csv", content: "new" },
    { name: "b.csv", content: moving() },
  ];
  await expect(writeOutputs(join(root, "out"), files, { name: "out" })).rejects.toMatchObject({ code: "not-found" });
  expect(readdirSync(join(root, "out"))).toEqual([]);
  expect(readFileSync(join(root, "moved", "a.csv"), "utf8")).toBe("old");
});

test("two writers at once: each file is of one of them, and a mixture is told", async () => {
  const outcomes = { told: 0, mixed: 0 };
  for (let round = 0; round < 50 && outcomes.mixed === 0; round++) {
    const folder = tempFolder();
    const names = Array.from({ length: 12 }, (_, i) => `t${i}.csv`);
    const write = (who: string) =>
      writeOutputs(
        folder,
        names.map((name) => ({ name, content: who })),
        { name: "out" },
      ).then(
        () => null,
        (error: Error) => error,
      );
    const errors = await Promise.all([write("first"), write("the other")]);
    const contents = new Set(names.map((name) => readFileSync(join(folder, name), "utf8")));
    for (const content of contents) expect(["first", "the other"]).toContain(content);
    for (const error of errors) {
      if (error !== null) expect(error).toMatchObject({ name: "FileError", code: "two-writers" });
      outcomes.told += error === null ? 0 : 1;
    }
    if (contents.size < 2) continue;
    outcomes.mixed++;
    expect(errors.some((error) => error !== null)).toBe(true);
  }
  // Otherwise nothing was tried.
  expect(outcomes.told).toBeGreaterThan(0);
});

test("a full disk: said by name, nothing changed, nothing left", async ({ skip }) => {
  const folder = await smallDisk("size=64k", skip);
  await writeOutputs(folder, [{ name: "a.csv", content: "old" }]);
  const files = [
    { name: "a.csv", content: "new" },
    { name: "b.csv", content: "x".repeat(200_000) },
  ];
  await expect(writeOutputs(folder, files, { name: "out" })).rejects.toThrow(
    `${join("out", "b.csv")}: No space is left on the disk. Make room, or use another disk.`,
  );
  expect(readdirSync(folder)).toEqual(["a.csv"]);
  expect(readFileSync(join(folder, "a.csv"), "utf8")).toBe("old");
});

test("a disk that can only be read: said before anything is written", async ({ skip }) => {
  const folder = await smallDisk("size=64k,ro", skip);
  await expect(writeOutputs(folder, [{ name: "a.csv", content: "new" }], { name: "out" })).rejects.toThrow(
    "out: The disk can only be read. Use another folder.",
  );
});

test("a folder that may not be written to", async ({ skip }) => {
  skip(process.getuid?.() === 0, "root may write everywhere");
  const folder = tempFolder({ "a.csv": "old" });
  chmodSync(folder, 0o555);
  const written = writeOutputs(folder, [{ name: "a.csv", content: "new" }], { name: "out" });
  await expect(written).rejects.toThrow("out: Permission denied. Ask for access, or use another folder.");
  chmodSync(folder, 0o755);
  expect(readFileSync(join(folder, "a.csv"), "utf8")).toBe("old");
});

/** A disk of its own in memory, where this user may mount one. */
async function smallDisk(options: string, skip: (note: string) => void): Promise<string> {
  const folder = tempFolder();
  const { status } = spawnSync("mount", ["-t", "tmpfs", "-o", options, "none", folder]);
  if (status !== 0) skip("mounting a disk needs root");
  onTestFinished(() => void spawnSync("umount", [folder]));
  return folder;
}

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

test("where campaign.json was not renamed any more its temporary file stands for it until the outputs are whole", async () => {
  const mark = ".campaign.json.0123456789ab.tmp";
  const root = tempFolder({
    "a.txt": "",
    "out/runs.csv": "",
    [`out/${mark}`]: "",
    "out/figures/.x.svg.0123456789ab.tmp": "",
  });
  for (const name of [mark, "figures/.x.svg.0123456789ab.tmp"]) utimesSync(join(root, "out", name), 0, 0);
  expect((await listRunFiles(root)).runs).toEqual(["a.txt"]);
  function* looking(): Generator<string> {
    yield "whole";
    expect(existsSync(join(root, "out", mark))).toBe(true);
  }
  await writeOutputs(join(root, "out"), [{ name: "campaign.json", content: looking() }]);
  expect(readdirSync(join(root, "out"), { recursive: true }).sort()).toEqual(["campaign.json", "figures", "runs.csv"]);
});
