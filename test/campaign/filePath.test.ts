import { posix, win32 } from "node:path";
import { expect, test } from "vitest";
import { filePath } from "../../src/campaign/filePath.ts";
import { planRuns } from "../../src/campaign/planRuns.ts";

test.for([
  "../a.txt",
  "..\\a.txt",
  "a/../../b.txt",
  "a\\..\\..\\b.txt",
  "..",
  "/etc/passwd",
  "\\etc\\passwd",
  "C:\\a.txt",
  "c:a.txt",
  "./c:a.txt",
  ".\\/c:/a.txt",
  "//server/share/a.txt",
  "\\\\server\\share\\a.txt",
  "\\\\?\\C:\\a.txt",
  "a\0.txt",
  "a\n.txt",
  "a\u009b.txt",
  ".",
  "./",
  "",
])("%j is refused", (written) => {
  expect(filePath(written)).toHaveProperty("problem");
});

test.for([
  ["a.txt", "a.txt"],
  ["./deep//a.txt", "deep/a.txt"],
  ["deep\\a.txt", "deep/a.txt"],
  // No address and no escape is understood: these are names in the folder, or nothing.
  ["file:///etc/passwd", "file:/etc/passwd"],
  ["%2e%2e/a.txt", "%2e%2e/a.txt"],
  ["..%2fa.txt", "..%2fa.txt"],
  ["~/a.txt", "~/a.txt"],
  ["...", "..."],
] as const)("%j stays below the folder on every system", ([written, file]) => {
  expect(filePath(written)).toEqual({ file });
  expect(posix.relative("/data", posix.resolve("/data", file)).startsWith("../")).toBe(false);
  expect(win32.relative("C:\\data", win32.resolve("C:\\data", file)).startsWith("..\\")).toBe(false);
});

test("a name that the folder does not list is no file, whatever a file system would make of it", () => {
  const names = ["A.TXT", "a.txt.", "a.txt:stream", "a.txt/", "%61.txt", "file:///a.txt", "NUL", "a.txt ."];
  const sheet = { name: "sheet.csv", text: `file\n${names.slice(0, 3).concat(names.slice(4)).join("\n")}\n` };
  const { problems } = planRuns({ sheet, files: ["a.txt"] });
  expect(problems.map(({ line }) => line)).toEqual([2, 3, 4, 5, 6, 7, 8]);
  for (const { message } of problems) expect(message).toContain("is not in the folder");
});

test("of two files whose accents are composed differently each is found under its own spelling", () => {
  const files = ["\u00e9.txt", "e\u0301.txt"];
  // A sheet is read in composed form: that spelling is meant.
  const { jobs } = planRuns({ sheet: { name: "sheet.csv", text: "file\ne\u0301.txt\n" }, files });
  expect(jobs.map(({ file }) => file)).toEqual(["\u00e9.txt"]);
});
