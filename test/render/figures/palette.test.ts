import { describe, expect, test } from "vitest";
import { fills } from "../../../src/render/figures/budgetFigure.ts";
import { palette } from "../../../src/render/figures/palette.ts";
import { seriesStyle } from "../../../src/render/figures/seriesStyle.ts";
import { INK, SHADE, SOFT } from "../../../src/render/figures/theme.ts";
import { jsonOf } from "../../house/root.ts";
import { ciede2000, contrast, lab, linear, through } from "./colour.ts";

interface Reference {
  machado2009: Record<string, number[][]>;
  pairs: { a: string; b: string; ciede2000: number; contrast: number }[];
}

const reference = jsonOf<Reference>("test/reference/colours.json");

/** How colours are seen; the matrices are those of Machado, Oliveira and Fernandes (2009), severity 1, for linear light. */
const eyes: Record<string, number[][]> = {
  normal: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  ...reference.machado2009,
};

const pairsOf = <T>(items: readonly T[]): [T, T][] =>
  items.flatMap((a, i) => items.slice(i + 1).map((b): [T, T] => [a, b]));

test("distances and contrasts are those of culori", () => {
  expect(reference.pairs.length).toBeGreaterThan(50);
  for (const { a, b, ciede2000: distance, contrast: ratio } of reference.pairs) {
    expect(ciede2000(lab(linear(a)), lab(linear(b)))).toBeCloseTo(distance, 2);
    expect(contrast(a, b)).toBeCloseTo(ratio, 2);
  }
});

describe("the palette", () => {
  test.for(Object.keys(eyes))("keeps any two colours apart for %s sight: CIEDE2000 above 12", (eye) => {
    // Two colours side by side are told apart from about 2 on (common practice, no source); thin lines apart need far more.
    for (const [a, b] of pairsOf(palette)) {
      const distance = ciede2000(lab(through(eyes[eye]!, linear(a))), lab(through(eyes[eye]!, linear(b))));
      expect(distance, `${a} ${b}`).toBeGreaterThan(12);
    }
  });

  test("keeps any two colours apart in grey: lightness by 8 and more", () => {
    for (const [a, b] of pairsOf(palette)) {
      expect(Math.abs(lab(linear(a))[0] - lab(linear(b))[0]), `${a} ${b}`).toBeGreaterThan(8);
    }
  });

  test("is seen on white: 3 : 1 for lines and symbols, 4.5 : 1 for text (WCAG 2.2, 1.4.11 and 1.4.3)", () => {
    for (const color of [...palette, SOFT]) expect(contrast(color, "#ffffff"), color).toBeGreaterThan(3);
    expect(contrast(INK, "#ffffff")).toBeGreaterThan(4.5);
    expect(contrast(INK, SHADE)).toBeGreaterThan(4.5);
  });
});

test("fields of a budget stay apart in grey: neighbours by 15 and more, any two of the first five by 8", () => {
  const grey = fills.map((fill) => lab(linear(fill))[0]);
  for (const [i, one] of grey.slice(1).entries()) expect(Math.abs(one - grey[i]!)).toBeGreaterThan(15);
  for (const [a, b] of pairsOf(grey.slice(0, 5))) expect(Math.abs(a - b)).toBeGreaterThan(8);
});

test("no two of 210 series look alike, and no two of 35 without colour", () => {
  const looks = Array.from({ length: 210 }, (_, i) => seriesStyle(i));
  expect(new Set(looks.map((look) => JSON.stringify(look))).size).toBe(210);
  expect(new Set(looks.slice(0, 35).map(({ shape, dash }) => JSON.stringify([shape, dash]))).size).toBe(35);
  // Neighbours differ in all three.
  for (const [i, { color, shape, dash }] of looks.slice(1).entries()) {
    expect(color).not.toBe(looks[i]!.color);
    expect(shape).not.toBe(looks[i]!.shape);
    expect(dash).not.toEqual(looks[i]!.dash);
  }
});
