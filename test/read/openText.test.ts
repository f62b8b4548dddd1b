import { expect, test } from "vitest";
import { openText } from "../../src/read/openText.ts";
import { readRun } from "../../src/read/readRun.ts";

test("a file above the limit is refused and the limit is told", () => {
  const huge = new Uint8Array(300_000_000);
  expect(() => readRun(huge, { name: "huge.txt" })).toThrow(
    "huge.txt: The file has 300 MB; the limit is 128 MB. Export one run per file, or fewer readings.",
  );
});

test("windows-1252 has its own characters at 0x80 to 0x9F (WHATWG Encoding, index windows-1252)", () => {
  const text = openText(Uint8Array.of(0x80, 0x85, 0x89, 0x96, 0x9c, 0xb0, 0xb5, 0xff), "a.txt");
  expect(text.encoding).toBe("windows-1252");
  expect(text.decode(0, 8)).toBe("€…‰–œ°µÿ");
});

test.for([
  ["utf-8", [0xe2, 0x84, 0x83]],
  ["utf-8", [0xf0, 0x9f, 0x8c, 0xa1]],
  // Overlong, surrogate, beyond the last code point, a lone continuation (Unicode Standard, table 3-7).
  ["windows-1252", [0xc0, 0xaf, 0x41]],
  ["windows-1252", [0xe0, 0x80, 0xaf]],
  ["windows-1252", [0xed, 0xa0, 0x80]],
  ["windows-1252", [0xf4, 0x90, 0x80, 0x80]],
  ["windows-1252", [0x41, 0x80, 0x41]],
] as const)("%s: %s", ([encoding, bytes]) => {
  expect(openText(Uint8Array.of(0x41, ...bytes, 0x41), "a.txt").encoding).toBe(encoding);
});

test("a view into a larger buffer, at an odd place, is read like a buffer of its own", () => {
  const text = "t/s;T/°C;m/mg\n".concat(
    Array.from({ length: 20 }, (_, i) => `${6 * i};${25 + i * 10};${20 - i / 10}`).join("\n"),
  );
  const wide = Buffer.from(`\ufeff${text}\n`, "utf16le");
  const inside = new Uint8Array(wide.length + 8);
  inside.set(wide, 3);
  const run = readRun(inside.subarray(3, 3 + wide.length));
  expect(run.reading.encoding).toBe("utf-16le");
  expect(run.mass[19]).toBe(18.1);
});
