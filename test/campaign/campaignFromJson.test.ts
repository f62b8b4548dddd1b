import { describe, expect, test } from "vitest";
import { campaignFromJson } from "../../src/campaign/campaignFromJson.ts";
import { summarise } from "../../src/campaign/summarise.ts";
import { UnreadableError } from "../../src/errors.ts";
import { flag } from "../../src/flags.ts";
import { ProtocolError } from "../../src/protocol/checkProtocol.ts";
import { campaignJson } from "../../src/render/campaignJson.ts";
import { makeFailure, makeResult, twoWindows } from "./makeResult.ts";

const mix = {
  mix: "M1",
  w_b: 0.45,
  loi_binder_pct: null,
  sand_binder_ignited: null,
  u_w_b: null,
  u_loi_binder_pct: null,
  u_sand_binder_ignited: null,
  polymer_pct: null,
  retarder: null,
  contents: { gypsum_pct: 20, clinker: "C-1" },
};
const summarised = () =>
  summarise(
    [
      makeResult("a", [1 / 3, "x"], { flags: [flag("no-time", "No time.")], gas: "N2" }),
      makeResult("b", [0.25, 4], { gas: "air", age_d: 1 / 6 }),
      makeFailure("d", { error: { code: "no-table", message: "d: no", line: 3 } }),
    ],
    { protocol: twoWindows, mixes: [mix] },
  );
const written = () => campaignJson(summarised());
const messageOf = (broken: string): string => {
  try {
    campaignFromJson(broken, { name: "c.json" });
  } catch (error) {
    expect(error).toBeInstanceOf(UnreadableError);
    return (error as Error).message;
  }
  throw new Error("accepted");
};
const wrong = (what: string) =>
  `c.json: this is not the campaign.json of this program: ${what}. Index the folder again`;

describe("campaign.json read back", () => {
  test("is the campaign at nine digits, and is written to the same bytes again", () => {
    const campaign = summarised();
    const text = campaignJson(campaign);
    const back = campaignFromJson(text);
    expect(back).toEqual(
      JSON.parse(JSON.stringify(campaign), (_, value) =>
        typeof value === "number" ? Number(value.toPrecision(9)) : value,
      ),
    );
    expect(campaignJson(back)).toBe(text);
    expect(campaignFromJson(`\uFEFF${text}`)).toEqual(back);
  });

  test("summarised again gives the same rows: the written runs are enough", () => {
    const text = written();
    const back = campaignFromJson(text);
    expect(campaignJson(summarise(back.runs, back))).toBe(text);
  });

  test.for([
    [
      "no campaign",
      () => "[]",
      "schema is missing; version is missing; protocol is missing; mixes is missing; runs is missing; and 5 more",
    ],
    ["null", () => "null", "the document must be Object, not null"],
    [
      "another version",
      (text) => text.replace("campaign/1", "campaign/2"),
      'schema must be "tg-hydrates/campaign/1", not "tg-hydrates/campaign/2"',
    ],
    [
      "a text for a number",
      (text) => text.replace('"rows_used":890', '"rows_used":"890"'),
      'runs[0].rows_used must be number, not "890"',
    ],
    ["a negative count", (text) => text.replace('"n_runs":1', '"n_runs":-1'), "ages[0].n_runs must be >=0, not -1"],
    [
      "an unknown status",
      (text) => text.replace('"failed"', '"lost"'),
      'runs[2].status must be "done", "incomplete", "failed", not "lost"',
    ],
    [
      "a number without uncertainty",
      (text) => text.replace('"index":{"value":0.25,"u":null', '"index":{"value":0.25'),
      "runs[1].windows[0].index must be {value, u, terms} or {missing}, not Object",
    ],
    [
      "a protocol that is not settled",
      (text) => text.replace(/,"settled":\{[^}]*\}/, ""),
      "protocol must be a settled protocol, not Object",
    ],
  ] as [string, (text: string) => string, string][])("%s is refused", ([, breaking, what]) => {
    const text = written();
    const broken = breaking(text);
    expect(broken).not.toBe(text);
    expect(messageOf(broken)).toBe(wrong(what));
  });

  test("what is cut off is no JSON", () => {
    const text = written();
    expect(messageOf(text.slice(0, -20))).toMatch(/^c\.json: this is no JSON \(cut off\?\): /);
  });

  test("a protocol that cannot work is refused by its own check", () => {
    const text = written();
    const reversed = text.replace('"from_C":50', '"from_C":500');
    expect(() => campaignFromJson(reversed, { name: "c.json" })).toThrow(
      new ProtocolError("c.json, protocol: windows[0] (aft-afm): from_C must lie below to_C, not 500 and 220"),
    );
  });

  test("a key that means something to the language changes nothing else", () => {
    const text = written();
    const hostile = text.replace('"gypsum_pct":20', '"__proto__":{"polluted":1}');
    expect(hostile).not.toBe(text);
    expect(Object.keys(campaignFromJson(hostile).mixes[0]!.contents)).toEqual(["clinker"]);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });
});
