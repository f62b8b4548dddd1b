import { describe, expect, test } from "vitest";
import { summarise } from "../../src/campaign/summarise.ts";
import { campaignJson } from "../../src/render/campaignJson.ts";
import { toJson } from "../../src/render/toJson.ts";
import { version } from "../../src/version.ts";
import { makeFailure, makeResult, twoWindows } from "../campaign/makeResult.ts";

const mixes = [
  {
    mix: "M1",
    w_b: 0.45,
    loi_binder_pct: null,
    sand_binder_ignited: null,
    u_w_b: null,
    u_loi_binder_pct: null,
    u_sand_binder_ignited: null,
    polymer_pct: null,
    retarder: null,
    contents: { zinc_pct: 1, Anhydrite_pct: 2 },
  },
];
const campaign = summarise(
  [makeResult("b", [1 / 3, "x"]), makeFailure("a"), makeResult("c", [2, 3], { note: "kept" } as object)],
  { protocol: twoWindows, mixes },
);

describe("campaign.json", () => {
  const text = campaignJson(campaign);

  test("is JSON of the whole campaign at nine digits", () => {
    const expected = JSON.parse(
      JSON.stringify(campaign, (_, value) => (typeof value === "number" ? Number(value.toPrecision(9)) : value)),
    );
    expect(JSON.parse(text)).toEqual(expected);
  });

  test("has one run, one mix and one row of the ages per line", () => {
    const lines = text.split("\n");
    const at = lines.indexOf('"runs":[');
    expect(lines.slice(at + 1, at + 4).map((line) => JSON.parse(line.replace(/,$/, "")).file)).toEqual(["a", "b", "c"]);
    expect(lines[at + 4]).toBe("],");
    expect(lines[1]).toBe('"schema":"tg-hydrates/campaign/1",');
    expect(lines[2]).toBe(`"version":"${version}",`);
    expect(lines.at(-1)).toBe("");
    expect(lines).toContain(
      '{"mix":"M1","w_b":0.45,"loi_binder_pct":null,"sand_binder_ignited":null,"u_w_b":null,"u_loi_binder_pct":null,"u_sand_binder_ignited":null,"polymer_pct":null,"retarder":null,"contents":{"Anhydrite_pct":2,"zinc_pct":1}}',
    );
  });

  test("is the same whatever order the keys of a run were made in", () => {
    const turned = {
      ...campaign,
      runs: campaign.runs.map((run) => Object.fromEntries(Object.entries(run).reverse()) as unknown as typeof run),
    };
    expect(campaignJson(turned)).toBe(text);
  });

  test("keys of a failed run come in the order of the type", () => {
    expect(text.split("\n").find((line) => line.includes('"failed"'))).toBe(
      '{"file":"a","sha256":null,"mix":"M1","curing":"moist","curing_d":7,"age_d":7,"specimen":"a","replicate":null,"role":"specimen","session":null,"status":"failed","error":{"code":"no-table","message":"a: holds no table"}},',
    );
  });
});

describe("toJson", () => {
  test.for([
    [{ b: 1, a: [1 / 3, null, true, "ü\n\u2028"] }, '{"a":[0.333333333,null,true,"ü\\n\u2028"],"b":1}'],
    [{ a: undefined, b: -0 }, '{"b":0}'],
    [Object.fromEntries([["__proto__", 1]]), '{"__proto__":1}'],
    [[], "[]"],
    [{}, "{}"],
    [1e-9, "1e-9"],
  ] as const)("%o", ([value, text]) => {
    expect(toJson(value)).toBe(text);
    expect(() => JSON.parse(text)).not.toThrow();
  });

  test("known keys come first in their order, others by code unit", () => {
    expect(toJson({ x: 1, b: 2, X: 3, a: 4 }, { b: true, a: true, c: true })).toBe('{"b":2,"a":4,"X":3,"x":1}');
  });

  test("a number that is none is refused rather than written as null", () => {
    expect(() => toJson({ a: Number.NaN })).toThrow(RangeError);
  });
});
