import { describe, expect, test } from "vitest";
import { atomicWeights } from "../../src/chemistry/atomicWeights.ts";
import { molarMass } from "../../src/chemistry/molarMass.ts";
import { parseFormula } from "../../src/chemistry/parseFormula.ts";
import { parseShorthand } from "../../src/chemistry/parseShorthand.ts";
import { shorthandComposition } from "../../src/chemistry/shorthandComposition.ts";

describe("a chemical formula", () => {
  test.for([
    ["H2O", { H: 2, O: 1 }],
    ["Ca(OH)2", { Ca: 1, O: 2, H: 2 }],
    ["CaSO4·2H2O", { Ca: 1, S: 1, O: 6, H: 4 }],
    ["CaSO4 • 0.5 H2O", { Ca: 1, S: 1, O: 4.5, H: 1 }],
    ["CaSO4*2H2O", { Ca: 1, S: 1, O: 6, H: 4 }],
    ["Ca6Al2(SO4)3(OH)12·26H2O", { Ca: 6, Al: 2, S: 3, O: 50, H: 64 }],
    ["Ca6[Al(OH)6]2(SO4)3·26H2O", { Ca: 6, Al: 2, O: 50, H: 64, S: 3 }],
    ["{[Ca3Al(OH)6·12H2O]}2", null],
    ["CuSO₄·5H₂O", { Cu: 1, S: 1, O: 9, H: 10 }],
    ["Ca2Al2SiO2(OH)10·2.25H2O", { Ca: 2, Al: 2, Si: 1, O: 14.25, H: 14.5 }],
    ["Ca1.7SiO3.7", { Ca: 1.7, Si: 1, O: 3.7 }],
    ["2H2O", { H: 4, O: 2 }],
    ["CO", { C: 1, O: 1 }],
    ["Co", { Co: 1 }],
  ] as const)("%s is read", ([formula, expected]) => {
    if (expected === null) expect(() => parseFormula(formula)).toThrow(/close the bracket/);
    else expect(parseFormula(formula)).toEqual(expected);
  });

  test("of ettringite and its shorthand are the same substance", () => {
    expect(shorthandComposition("C6A$3H32")).toEqual(parseFormula("Ca6Al2(SO4)3(OH)12·26H2O"));
  });

  test.for([
    ["", 'Formula "", character 1: write at least one element'],
    ["Ca(OH2", 'Formula "Ca(OH2", character 3: close the bracket "(" with ")"'],
    ["Ca(OH]2", 'Formula "Ca(OH]2", character 6: expected an element or a bracket, not "]"'],
    ["Ca()2", 'Formula "Ca()2", character 4: expected an element or a bracket'],
    ["CaSO4·", 'Formula "CaSO4·", character 7: expected an element or a bracket'],
    ["caO", 'Formula "caO", character 1: expected an element or a bracket, not "c"'],
    ["CaCO3)", 'Formula "CaCO3)", character 6: expected an element or a bracket, not ")"'],
    ["Ca+2", 'Formula "Ca+2", character 3: expected an element or a bracket, not "+"'],
    [
      "CaSO4.2H2O",
      'Formula "CaSO4.2H2O", character 5: write "·" before the water of hydration: the full stop could be a decimal mark',
    ],
    ["CaSO4.0.5H2O", 'Formula "CaSO4.0.5H2O", character 8: expected an element or a bracket, not "."'],
    ["C6A$3H32", 'Formula "C6A$3H32", character 4: expected an element or a bracket, not "$"'],
  ] as const)("%j is refused with the place", ([formula, message]) => {
    expect(() => parseFormula(formula)).toThrow(new SyntaxError(message));
  });
});

describe("cement shorthand", () => {
  test.for([
    ["C6A$3H32", { C: 6, A: 1, $: 3, H: 32 }],
    ["C3A·3C$·H32", { C: 6, A: 1, $: 3, H: 32 }],
    ["C4AS\u0304H12", { C: 4, A: 1, $: 1, H: 12 }],
    ["C4Ac\u0304H11", { C: 4, A: 1, c: 1, H: 11 }],
    ["C4Ac0.5H12", { C: 4, A: 1, c: 0.5, H: 12 }],
    ["C1.7SH1.8", { C: 1.7, S: 1, H: 1.8 }],
    ["C₂S", { C: 2, S: 1 }],
    ["KC$2H", { K: 1, C: 1, $: 2, H: 1 }],
  ] as const)("%s is read as oxides", ([shorthand, expected]) => {
    expect(parseShorthand(shorthand)).toEqual(expected);
  });

  test("C is calcium oxide, H water and N sodium oxide: never elements", () => {
    expect(shorthandComposition("CH")).toEqual({ Ca: 1, O: 2, H: 2 });
    expect(shorthandComposition("N")).toEqual(parseFormula("Na2O"));
  });

  test.for([
    ["", 'Shorthand "": expected an oxide'],
    ["C-S-H", 'Shorthand "C-S-H": write the counts: hyphens, as in C-S-H, mean that the composition varies'],
    [
      "Ca(OH)2",
      'Shorthand "Ca(OH)2": "a" is none of C, S, A, F, M, K, N, H, $, c (chemical formulas are read by parseFormula)',
    ],
    ["C3A·", 'Shorthand "C3A·": expected an oxide'],
  ] as const)("%j is refused", ([shorthand, message]) => {
    expect(() => parseShorthand(shorthand)).toThrow(new SyntaxError(message));
  });
});

describe("molar mass", () => {
  test("of water is the 18.015 g/mol that general chemistry packages print (check 1)", () => {
    expect(Math.abs(molarMass("H2O") - 18.015)).toBeLessThan(0.001);
  });

  test("of copper sulfate pentahydrate from the 2022 table, 0.003 % away from a general package with older weights", () => {
    expect(Math.abs(molarMass("CuSO4·5H2O") - 249.677)).toBeLessThan(0.0005);
    expect(Math.abs(molarMass("CuSO4·5H2O") / 249.685 - 1)).toBeLessThan(5e-5);
  });

  test("of a substance with an element outside the table is refused by name", () => {
    expect(() => molarMass("TiO2")).toThrow(
      new RangeError(
        'No atomic weight is known for "Ti" of "TiO2"; known are H, C, N, O, Na, Mg, Al, Si, S, K, Ca, Fe, Cu',
      ),
    );
  });
});

/**
 * Standard atomic weights 2021, Commission on Isotopic Abundances and Atomic Weights (CIAAW): interval, or value and its
 * uncertainty. The abridged weights of Prohaska et al. 2022 must lie in or round to them.
 */
const standard2021: [string, number, number][] = [
  ["H", 1.00784, 1.00811],
  ["C", 12.0096, 12.0116],
  ["N", 14.00643, 14.00728],
  ["O", 15.99903, 15.99977],
  ["Na", 22.98976926, 22.9897693],
  ["Mg", 24.304, 24.307],
  ["Al", 26.9815381, 26.9815387],
  ["Si", 28.084, 28.086],
  ["S", 32.059, 32.076],
  ["K", 39.0982, 39.0984],
  ["Ca", 40.074, 40.082],
  ["Fe", 55.843, 55.847],
  ["Cu", 63.543, 63.549],
];

test.for(standard2021)("abridged weight of %s agrees with the 2021 standard", ([element, from, to]) => {
  const { weight, uncertainty } = atomicWeights[element]!;
  expect(weight + uncertainty).toBeGreaterThanOrEqual(from);
  expect(weight - uncertainty).toBeLessThanOrEqual(to);
  expect(Object.keys(atomicWeights)).toHaveLength(standard2021.length);
});

test("the error bound of ettringite's molar mass from the abridged weights stays below 0.15 g/mol", () => {
  const bound = Object.entries(parseFormula("Ca6Al2(SO4)3(OH)12·26H2O")).reduce(
    (sum, [element, moles]) => sum + moles * atomicWeights[element]!.uncertainty,
    0,
  );
  expect(bound).toBeLessThan(0.15);
});
