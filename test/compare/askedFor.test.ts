import { describe, expect, test } from "vitest";
import { CompareError } from "../../src/compare/compareError.ts";
import { findRegime, isRegime } from "../../src/compare/findRegime.ts";
import { marginFor } from "../../src/compare/marginFor.ts";
import { parseMargin } from "../../src/compare/parseMargin.ts";
import { parseRequirement } from "../../src/compare/parseRequirement.ts";

describe("the reference", () => {
  const cell = (curing: string | null, curing_d: number | null, age_d = 28) => ({ mix: "M1", curing, curing_d, age_d });
  const cells = [cell("sealed", null), cell("cloth", 1), cell("cloth", 7), cell("air", 0), cell("wet:hot", 3)];

  test.for([
    ["sealed", { curing: "sealed", curing_d: null }],
    ["air", { curing: "air", curing_d: 0 }],
    ["cloth:7", { curing: "cloth", curing_d: 7 }],
    ["cloth: 7 d", { curing: "cloth", curing_d: 7 }],
    ["wet:hot", { curing: "wet:hot", curing_d: 3 }],
    ["wet:hot:3", { curing: "wet:hot", curing_d: 3 }],
  ] as const)("%s", ([written, regime]) => {
    expect(findRegime(written, cells)).toEqual(regime);
  });

  test.for([
    ["cloth", "The curing cloth has several durations: name one of cloth:1, cloth:7."],
    [
      "Sealed",
      'There is no curing regime "Sealed". Did you mean sealed? There are: air:0, cloth:1, cloth:7, sealed, wet:hot:3.',
    ],
    [
      "cloth:3",
      'There is no curing regime "cloth:3". Did you mean cloth:1? There are: air:0, cloth:1, cloth:7, sealed, wet:hot:3.',
    ],
    ["lime", 'There is no curing regime "lime". There are: air:0, cloth:1, cloth:7, sealed, wet:hot:3.'],
  ] as const)("%s is refused", ([written, message]) => {
    expect(() => findRegime(written, cells)).toThrow(new CompareError(message));
  });

  test("days that follow the age are one regime: cured until the test", () => {
    const until = [1, 7, 28].map((days) => cell("moist", days, days));
    const regime = findRegime("moist", [...until, ...cells]);
    expect(until.every((one) => isRegime(one, regime))).toBe(true);
  });

  test("without any curing in the sheet", () => {
    expect(() => findRegime("moist", [cell(null, null)])).toThrow(
      "No run has a curing: give the run sheet a column curing.",
    );
  });
});

describe("margins", () => {
  test.for([
    ["10%", [{ quantity: null, kind: "share", size: 0.1, unit: null }]],
    ["strength = 12.5 %", [{ quantity: "strength", kind: "share", size: 0.125, unit: null }]],
    ["strength=500psi", [{ quantity: "strength", kind: "value", size: 500, unit: "psi" }]],
    ["aft-afm=2", [{ quantity: "aft-afm", kind: "value", size: 2, unit: null }]],
    [
      "10%, ah3=.3",
      [
        { quantity: null, kind: "share", size: 0.1, unit: null },
        { quantity: "ah3", kind: "value", size: 0.3, unit: null },
      ],
    ],
  ] as const)("%s", ([written, margins]) => {
    expect(parseMargin(written)).toEqual(margins);
  });

  test.for([
    ["ten", 'Write a margin like 10%, strength=10% or strength=3 MPa, not "ten".'],
    ["-5%", 'Write a margin like 10%, strength=10% or strength=3 MPa, not "-5%".'],
    ["", 'Write a margin like 10%, strength=10% or strength=3 MPa, not "".'],
    ["3 MPa", 'A margin that is no percentage belongs to one quantity: name it, such as strength=3 MPa, not "3 MPa".'],
  ] as const)("%j is refused", ([written, message]) => {
    expect(() => parseMargin(written)).toThrow(new CompareError(message));
  });

  test("a quantity's own margin goes before the one for all", () => {
    const margins = parseMargin("10%,ah3=0.3");
    expect(marginFor("ah3", margins)!.size).toBe(0.3);
    expect(marginFor("aft-afm", margins)!.size).toBe(0.1);
    expect(marginFor("ah3", [])).toBe(null);
  });
});

describe("requirements", () => {
  test.for([
    ["strength>=24 MPa", { quantity: "strength", at: "least", value: 24, unit: "MPa" }],
    ["strength ≥ 3500psi", { quantity: "strength", at: "least", value: 3500, unit: "psi" }],
    ["length_change>=-500", { quantity: "length_change", at: "least", value: -500, unit: "" }],
    ["length_change <= 0.05 %", { quantity: "length_change", at: "most", value: 0.05, unit: "%" }],
  ] as const)("%s", ([written, requirement]) => {
    expect(parseRequirement(written)).toEqual(requirement);
  });

  test.for(["strength=24", "strength>24", ">=24", "strength>=much"])("%s is refused", (written) => {
    expect(() => parseRequirement(written)).toThrow(
      new CompareError(
        `Write a requirement like "strength>=24 MPa" (in quotation marks), not ${JSON.stringify(written)}.`,
      ),
    );
  });
});
