import { expect, test } from "vitest";
import { figureLabel } from "../../../src/render/figures/figureLabel.ts";
import { figureName } from "../../../src/render/figures/figureName.ts";
import { labelsOf } from "../../../src/render/figures/labelsOf.ts";
import { thinned } from "../../../src/render/figures/thinned.ts";

test("thinning keeps ends, and every peak and valley of one point wherever it stands", () => {
  for (let at = 0; at < 1000; at += 7) {
    const y = Array.from({ length: 1000 }, (_, i) => (i === at ? 9 : i === (at + 500) % 1000 ? -9 : Math.sin(i / 50)));
    const kept = thinned(y, 120);
    expect(kept.length).toBeLessThanOrEqual(120);
    expect(kept).toEqual([...new Set(kept)].sort((a, b) => a - b));
    expect(kept).toEqual(expect.arrayContaining([0, 999, at, (at + 500) % 1000]));
  }
});

test("fewer points than asked for all stay", () => {
  expect(thinned([3, 1, 2], 120)).toEqual([0, 1, 2]);
  expect(thinned([], 120)).toEqual([]);
});

test("a label stays on its line, is cut between letters as people see them, and keeps apart from others", () => {
  expect(figureLabel("two\nlines")).toBe("two\\u{a}lines");
  expect(figureLabel("\u202etxt.exe")).toBe("\\u{202e}txt.exe");
  expect(figureLabel("a👩‍🔬bcdef", 4)).toBe("a👩‍🔬…");
  expect(labelsOf(["sealed in foil A", "sealed in foil B"], 10)).toEqual(["sealed in…", "sealed in… (2)"]);
});

test("names of files are safe, and different where letters are lost", () => {
  expect(figureName("ages", "M1", "aft-afm")).toBe("ages-m1-aft-afm");
  const names = ["../../etc", "..\\..\\etc", "Ä", "Ö", "💧", "x".repeat(300), "x".repeat(301), "con"].map((one) =>
    figureName(one),
  );
  expect(new Set(names).size).toBe(names.length);
  for (const name of names) expect(name).toMatch(/^[a-z0-9-]{1,80}$/);
  expect(names).not.toContain("con");
});
