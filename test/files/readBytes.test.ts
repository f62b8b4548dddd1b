import { truncateSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readBytes } from "../../src/files/readBytes.ts";
import { readText } from "../../src/files/readText.ts";
import { sha256 } from "../../src/files/sha256.ts";
import { largestFile } from "../../src/read/largestFile.ts";
import { tempFolder } from "./tempFolder.ts";

test("the bytes as they are", () => {
  const bytes = Uint8Array.from({ length: 70_000 }, (_, i) => i % 256);
  const folder = tempFolder({ a: bytes, empty: "" });
  expect(Buffer.compare(readBytes(join(folder, "a")), bytes)).toBe(0);
  expect(readBytes(join(folder, "empty")).length).toBe(0);
});

test.for([
  ["gone", "there/gone: There is no such file or folder. Check the path."],
  [".", "there/.: This is a folder, not a file. Name a file."],
  ["a/b", "there/a/b: A part of the path is a file, not a folder. Check the path."],
  ["x".repeat(300), `there/${"x".repeat(300)}: The name is too long. Use a shorter one.`],
] as const)("%s", ([name, message]) => {
  const folder = tempFolder({ a: "" });
  expect(() => readBytes(join(folder, name), { name: `there/${name}` })).toThrow(
    expect.objectContaining({ name: "FileError", message }),
  );
});

test("a file above the limit is refused before it is read", () => {
  const folder = tempFolder({ "a.txt": "" });
  // Sparse: takes no room on the disk.
  truncateSync(join(folder, "a.txt"), 40 * largestFile);
  expect(() => readBytes(join(folder, "a.txt"), { name: "a.txt" })).toThrow(
    expect.objectContaining({
      name: "UnreadableError",
      code: "too-large",
      message: "a.txt: The file has 5120 MB; the limit is 128 MB. Export one run per file, or fewer readings.",
    }),
  );
});

test.skipIf(process.platform === "win32")("a source without end is refused at the limit", () => {
  expect(() => readBytes("/dev/zero")).toThrow(expect.objectContaining({ code: "too-large" }));
});

test.for([
  ["UTF-8", Buffer.from("größe;5 µm\n")],
  ["UTF-8 with a mark", Buffer.from("\uFEFFgröße;5 µm\n")],
  ["UTF-16", Buffer.from("\uFEFFgröße;5 µm\n", "utf16le")],
  ["windows-1252", Buffer.from("größe;5 µm\n", "latin1")],
] as const)("a small document in %s", ([, bytes]) => {
  const folder = tempFolder({ "s.csv": bytes });
  expect(readText(join(folder, "s.csv"), { wanted: "run sheet" })).toBe("größe;5 µm\n");
});

test("a document that is far too long for what it should be", () => {
  const folder = tempFolder({ "s.csv": "" });
  truncateSync(join(folder, "s.csv"), 50_000_000);
  expect(() => readText(join(folder, "s.csv"), { name: "s.csv", wanted: "run sheet" })).toThrow(
    "s.csv: This is no run sheet: it has 50 MB. Name the right file.",
  );
});

test("the hash of the standard's example", () => {
  // FIPS 180-4, example of NIST for the message "abc".
  expect(sha256(Buffer.from("abc"))).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
});
