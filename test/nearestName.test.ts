import { expect, test } from "vitest";
import { nearestName } from "../src/nearestName.ts";

test.for([
  ["file", ["files", "field"], "files"],
  ["aeg", ["age", "mix"], "age"],
  ["aeg_d", ["age_d", "age"], "age_d"],
  ["cas", ["csa"], "csa"],
  ["WIDTH_C", ["width_C"], "width_C"],
  ["smothing", ["smoothing", "grid"], "smoothing"],
  ["colour", ["mix", "age"], null],
  ["x", ["y"], "y"],
  ["", ["y"], "y"],
  ["anything", [], null],
] as const)("%s among %s is %s", ([wrong, known, nearest]) => {
  expect(nearestName(wrong, known)).toBe(nearest);
});

test("of several equally close names the first is taken, and the largest distance can be given", () => {
  expect(nearestName("ab", ["ac", "aa"])).toBe("ac");
  expect(nearestName("abcd", ["abxy"])).toBeNull();
  expect(nearestName("abcd", ["abxy"], { atMost: 2 })).toBe("abxy");
});
