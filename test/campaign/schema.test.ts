import { describe, expect, test } from "vitest";
import { campaignFromJson } from "../../src/campaign/campaignFromJson.ts";
import type { Decisions } from "../../src/campaign/decisions.ts";
import type { AgeRow, AmountRow, Campaign, PlausibilityRow, ScatterRow } from "../../src/campaign/types.ts";
import { UnreadableError } from "../../src/errors.ts";
import { flag } from "../../src/flags.ts";
import type { Measured } from "../../src/measured.ts";
import type { Mix } from "../../src/phases/types.ts";
import { makeFailure, makeResult, twoWindows } from "./makeResult.ts";

// A document in which every field that campaign.json may have is there, once with a value and, where it may be, once null.
// The compiler holds it to the interfaces; what is checked here is that reading it holds every document to them too.
const cell = { mix: "M", curing: "moist", curing_d: 7, age_d: 28 };
const noCell = { mix: null, curing: null, curing_d: null, age_d: null };
const index: Measured = { value: 3, u: 0.1, terms: [{ cause: "noise", effect: 0.1, key: "noise:a" }] };
const flags = [flag("no-time", "No time.", "ah3"), flag("no-time", "No time.")];
const windows = makeResult("a", [1, 2]).windows.map((window) => ({
  ...window,
  ...{ detection_limit: 0.1, peak_C: 120, peak_dtg_pct_per_C: 0.2, flags },
  index_shifted: { from_down: 1, from_up: 2, to_down: 3, to_up: 4 },
}));
const run = makeResult("a", [1, 2], {
  ...cell,
  ...{ sha256: "ff", replicate: "1", session: "S", balance: "B", gas: "N2", crucible: "alumina", windows, flags },
  phases: [{ phase: "ah3", window: "ah3", mol_lost: 3, basis: "ignited", amount: index, flags }],
  peaks: [{ name: "aft", position_C: 110, misfit_pct: 1, index }],
});
const bare = makeResult("b", [1, "no-peak"], {
  ...{ ...noCell, initial_mass_mg: null, heating_rate_K_per_min: null, noise_ug: null },
  peaks: [{ name: "aft", position_C: null, misfit_pct: null, index: { missing: "peaks-refused" } }],
});
const mix: Mix = {
  ...{ mix: "M", w_b: 0.5, loi_binder_pct: 4, sand_binder_ignited: 3, u_w_b: 0.01, u_loi_binder_pct: 0.2 },
  ...{ u_sand_binder_ignited: 0.1, polymer_pct: 1, retarder: "borax", contents: { gypsum_pct: 20, clinker: "C" } },
};
const noMix: Mix = {
  ...{ mix: "N", w_b: null, loi_binder_pct: null, sand_binder_ignited: null, u_w_b: null, u_loi_binder_pct: null },
  ...{ u_sand_binder_ignited: null, polymer_pct: null, retarder: null, contents: {} },
};
const statistics = { u_random: 0.1, u_shared: 0.1, df: 4.5 };
const noStatistics = { u_random: null, u_shared: null, df: null };
const counts = { n_specimens: 2, n_runs: 3 };
const age: AgeRow = {
  ...{ ...cell, window: "ah3", rule: "area", basis: "ignited", ...counts, index, index_sd: 0.1 },
  ...{ ...statistics, index_u: 0.1, index_lo95: 2.8, index_hi95: 3.2, flags },
};
const noAge: AgeRow = {
  ...{ ...age, ...noCell, index: { missing: "no-peak" }, index_sd: null },
  ...{ ...noStatistics, index_u: null, index_lo95: null, index_hi95: null },
};
const amount: AmountRow = {
  ...{ ...cell, phase: "ah3", window: "ah3", mol_lost: 3, basis: "ignited", ...counts, amount: index },
  ...{ amount_sd: 0.1, ...statistics, amount_lo95: 2.8, amount_hi95: 3.2, flags },
};
const noAmount: AmountRow = {
  ...{ ...amount, ...noCell, amount_sd: null, ...noStatistics, amount_lo95: null, amount_hi95: null },
};
const bounds = { ettringite: 1, monosulfate: 2, ah3: 3, straetlingite: 4, bound_water: 5 };
const noBounds = { ettringite: null, monosulfate: null, ah3: null, straetlingite: null, bound_water: null };
const plausible: PlausibilityRow = {
  ...{ ...cell, mix: "M", basis: "ignited", by: "phases", sulfate_per_yeelimite: 1, maxima: bounds, complete: bounds },
  exceeded: [{ quantity: "ah3", value: 4, u: 0.1, maximum: 3 }],
  yeelimite_reacted: { low: 0.1, high: 0.9, valid: false, reasons: ["belite"] },
  ah3_per_ettringite: { measured: 0.3, theory_low: 0.2, theory_high: 0.4 },
  water: { needed: 0.4, w_b: 0.5, reacted_at_most: 1 },
  flags,
};
const implausible: PlausibilityRow = {
  ...{ ...plausible, curing: null, curing_d: null, age_d: null, maxima: noBounds },
  exceeded: [{ quantity: "ah3", value: 4, u: null, maximum: 3 }],
  ...{ yeelimite_reacted: null, ah3_per_ettringite: null, water: { needed: 0.4, w_b: null, reacted_at_most: null } },
};
const scatter: ScatterRow = {
  ...{ window: "ah3", model: "linear", a: 0.1, b: 0.02, df: 9, at_index: 5, sd: 0.2, limit: 0.5 },
  kind: "repeatability",
};
const of = { quantity: "ah3", unit: "g/100 g" };
const margin = { quantity: "ah3", kind: "share" as const, size: 0.1, unit: "MPa" };
const requirement = { quantity: "strength", at: "least" as const, value: 30, unit: "MPa" };
const decisions: Decisions = {
  asked: {
    ...{ reference: "sealed", reference_age_d: 28, test_age_d: 28, adjustment: "holm", scatter: "pooled" },
    ...{ family: "window", margins: [margin, { ...margin, quantity: null, unit: null }], requirements: [requirement] },
  },
  families: [{ family: "ah3", size: 4, adjustment: "holm" }],
  contrasts: [
    {
      ...{ ...cell, ...of, against: "regime", reference: "sealed", n: 3, n_reference: 3, value: 1, value_reference: 2 },
      ...{ difference: -1, lo95: -2, hi95: 0, lo90: -1.5, hi90: -0.5, df: 4, p: 0.04, p_adjusted: 0.08 },
      ...{ ratio_pct: 50, ratio_lo95: 40, ratio_hi95: 60, margin: 0.2, difference_verdict: "lower" },
      ...{ equivalence_verdict: "outside margin", smallest_margin: 0.3, robust: "yes", sensitive_to: ["area"] },
      ...{ untested: ["tangent"], method: "t", family: "ah3", flags: ["one-specimen"] },
    },
    {
      ...{ ...noCell, ...of, against: "age", reference: "age 28d", n: 0, n_reference: 0, value: null },
      ...{ value_reference: null, difference: null, lo95: null, hi95: null, lo90: null, hi90: null, df: null },
      ...{ p: null, p_adjusted: null, ratio_pct: null, ratio_lo95: null, ratio_hi95: null, margin: null },
      ...{ difference_verdict: "no-value", equivalence_verdict: "no-value", smallest_margin: null, robust: null },
      ...{ sensitive_to: [], untested: [], method: "none", family: null, flags: [] },
    },
  ],
  growth: [
    {
      ...{ ...of, mix: "M", curing: "moist", curing_d: 7, against: "age", age_d: 28, n_cells: 4, n_specimens: 12 },
      ...{ from_d: 1, to_d: 28, slope: 1, slope_lo95: 0.5, slope_hi95: 1.5, slope_df: 8, sen_slope: 1 },
      ...{ sen_lo95: 0.5, sen_hi95: 1.5, order_p: 0.01, order_smallest_p: 0.001, order_exact: true, trend_p: 0.1 },
      ...{ trend_smallest_p: 0.08, verdict: "rises", sentence: "It rises." },
    },
    {
      ...{ ...of, ...noCell, against: "curing", n_cells: 1, n_specimens: 1, from_d: 1, to_d: 1, slope: null },
      ...{ slope_lo95: null, slope_hi95: null, slope_df: null, sen_slope: null, sen_lo95: null, sen_hi95: null },
      ...{ order_p: null, order_smallest_p: null, order_exact: null, trend_p: null, trend_smallest_p: null },
      ...{ verdict: "too-few-cells", sentence: "Too few." },
    },
  ],
  properties: [
    {
      ...{ ...cell, property: "strength", unit: "MPa", n_specimens: 3, value: 40, sd: 1, u: 0.6, df: 8, lo95: 38 },
      ...{ hi95: 42, retention_pct: 90, retention_lo95: 80, retention_hi95: 100, share_pct: 50, share_lo95: 45 },
      ...{ share_hi95: 55, since_curing: -0.1, since_curing_lo95: -0.2, since_curing_hi95: 0 },
    },
    {
      ...{ ...noCell, property: "strength", unit: "MPa", n_specimens: 1, value: 40, sd: null, u: null, df: null },
      ...{ lo95: null, hi95: null, retention_pct: null, retention_lo95: null, retention_hi95: null, share_pct: null },
      ...{ share_lo95: null, share_hi95: null, since_curing: null, since_curing_lo95: null, since_curing_hi95: null },
    },
  ],
  together: [
    {
      ...{ property: "strength", unit: "MPa", quantity: "ah3", mix: "M", adjusted_for: "age", method: "pearson" },
      ...{ n_cells: 12, n_groups: 3, r: 0.5, lo95: 0.1, hi95: 0.8, p: 0.03, exact: false, verdict: "rise together" },
    },
    {
      ...{ property: "strength", unit: "MPa", quantity: "ah3", mix: null, adjusted_for: "none", method: "spearman" },
      ...{ n_cells: 2, n_groups: 1, r: null, lo95: null, hi95: null, p: null, exact: null, verdict: "no-scatter" },
    },
  ],
  pairs: [
    {
      ...{
        ...cell,
        property: "strength",
        unit: "MPa",
        quantity: "ah3",
        n_index: 3,
        index: 5,
        n_property: 3,
        value: 40,
      },
      ...{ index_less_age: 0.1, value_less_age: -1 },
    },
    {
      ...{ ...noCell, property: "strength", unit: "MPa", quantity: "ah3", n_index: 1, index: 5, n_property: 1 },
      ...{ value: 40, index_less_age: null, value_less_age: null },
    },
  ],
  parted: [
    {
      ...{ ...cell, property: "strength", quantities: ["ah3"], reference: "sealed", index_verdict: "higher" },
      ...{ property_verdict: "not shown", property_equivalence: "within margin", sentence: "More, but not stronger." },
    },
  ],
  sufficient: [
    {
      ...{ ...of, mix: "M", curing: "moist", age_d: 28, longest_d: 7, margin, requirement, sufficient_d: 3 },
      steps: [
        {
          ...{ curing_d: 7, curing: "moist", n: 3, value: 5, share_pct: 100, share_lower95: 95, p: 0.01, df: 8 },
          ...{ bound95: 4.8, verdict: "longest" },
        },
        {
          ...{ curing_d: 1, curing: null, n: 0, value: null, share_pct: null, share_lower95: null, p: null, df: null },
          ...{ bound95: null, verdict: "no-value" },
        },
      ],
      ...{ sentence: "Three days.", caution: "Of this mix." },
    },
    {
      ...{ ...of, mix: null, curing: null, age_d: 28, longest_d: 7, margin: null, requirement: null },
      ...{ sufficient_d: null, steps: [], sentence: "None.", caution: "Of this mix." },
    },
  ],
  planning: [
    {
      ...{ ...of, at: 5, sd: 0.2, df: 8.5, cells: 4, n_now: 2.5, comparisons: 3, detectable: 0.5 },
      detectable_family: 0.7,
      aims: [
        { difference: 0.5, difference_pct: 10, n: 3, n_family: 5 },
        { difference: 0.5, difference_pct: null, n: null, n_family: null },
      ],
    },
    {
      ...{
        ...of,
        at: 5,
        sd: 0.2,
        df: 8,
        cells: 4,
        n_now: 2,
        comparisons: 3,
        detectable: null,
        detectable_family: null,
      },
      aims: [],
    },
  ],
  remarks: ["Nothing."],
};
const failure = { code: "no-table", message: "a: holds no table", line: 3, column: 2 };
const whole: Campaign = {
  ...{ schema: "tg-hydrates/campaign/1", version: "0.1.0", protocol: twoWindows, mixes: [mix, noMix] },
  runs: [run, bare, makeFailure("c", { error: failure }), makeFailure("d")],
  ...{ ages: [age, noAge], amounts: [amount, noAmount], plausibility: [plausible, implausible], scatter: [scatter] },
  ...{ flags, decisions },
};
const text = JSON.stringify(whole);

type Path = (string | number)[];
type Node = Record<string | number, unknown>;
/** Where nothing is looked at field by field: how a file was understood, and the protocol, which has a check of its own. */
const opaque = ["reading", "protocol", "contents"];
/** Every field, once per kind of row: of a list the first row stands for all, of the runs the first failure too. */
function pathsOf(node: unknown, path: Path = []): Path[] {
  if (typeof node !== "object" || node === null || opaque.includes(String(path.at(-1)))) return [];
  const keys = Array.isArray(node)
    ? [...node.keys()].filter((i) => i === 0 || (path.at(-1) === "runs" && i === 2))
    : Object.keys(node);
  return keys.flatMap((key) => [[...path, key], ...pathsOf((node as Node)[key], [...path, key])]);
}
const paths = pathsOf(whole);
const shown = (path: Path) =>
  path.map((key, i) => (typeof key === "number" ? `[${key}]` : i === 0 ? key : `.${key}`)).join("");
/** The document with one place changed. */
function changed(path: Path, change: (parent: Node, key: string | number) => void): string {
  const copy = JSON.parse(text) as Node;
  change(
    path.slice(0, -1).reduce((node, key) => node[key] as Node, copy),
    path.at(-1)!,
  );
  return JSON.stringify(copy);
}
function messageOf(document: string): string {
  try {
    campaignFromJson(document);
  } catch (error) {
    if (error instanceof UnreadableError) return error.message;
    throw error;
  }
  return "accepted";
}
const at = (path: Path) => path.reduce<unknown>((node, key) => (node as Node)[key], whole);

describe("a document with every field", () => {
  test("is read back as it is", () => {
    expect(campaignFromJson(text)).toEqual(whole);
    expect(paths.length).toBeGreaterThan(300);
  });

  test("a field too many is left out", () => {
    for (const path of paths.filter((one) => typeof at(one) === "object" && !Array.isArray(at(one)))) {
      if (at(path) === null || opaque.includes(String(path.at(-1)))) continue;
      const document = changed([...path, "more"], (parent, key) => {
        parent[key] = 1;
      });
      expect(campaignFromJson(document), shown(path)).toEqual(whole);
    }
  });

  test("every field is needed, but for the few that may be absent", () => {
    const optional = /^(?:decisions|flags\[0\]\.window|.*\.flags\[0\]\.window|runs\[2\]\.error\.(?:line|column))$/;
    // Without `missing` or `value` a number is of neither kind, and without a status a run is of none: said of the whole.
    for (const path of paths.filter((one) => typeof one.at(-1) === "string")) {
      const message = messageOf(changed(path, (parent, key) => void delete parent[key]));
      if (optional.test(shown(path))) expect(message, shown(path)).toBe("accepted");
      else if (/\.(?:missing|value|u|terms|cause|effect|key)$/.test(shown(path)) && !shown(path).includes("exceeded"))
        expect(message, shown(path)).not.toBe("accepted");
      else expect(message, shown(path)).toContain(`${shown(path)} is missing`);
    }
  });

  test("no field takes a value of another kind", () => {
    for (const path of paths) {
      const value = at(path);
      const last = path.at(-1);
      if (last === "reading" || last === "contents" || last === "protocol") continue;
      // What may be null could be a text as well as a number.
      const scalar = typeof value === "string" ? 7 : "seven";
      const others = [...(value === null ? [] : [scalar]), [["x"]], typeof value === "boolean" ? 1 : true];
      for (const other of others) {
        const message = messageOf(
          changed(path, (parent, key) => {
            parent[key] = other;
          }),
        );
        expect(message, `${shown(path)} = ${JSON.stringify(other)}`).not.toBe("accepted");
      }
    }
  });

  test("counts are whole and not negative", () => {
    const counted = /\.(?:rows_read|rows_used|n|n_\w+|size|cells|comparisons|line|column)$|scatter\[0\]\.df$/;
    const found = paths.map(shown).filter((path) => counted.test(path) && !path.endsWith("n_now"));
    expect(found.length).toBeGreaterThan(20);
    for (const path of paths.filter((one) => found.includes(shown(one)) && !shown(one).includes("margin"))) {
      if (shown(path).endsWith(".size") && !shown(path).includes("families")) continue;
      for (const wrong of [-1, 1.5]) {
        const message = messageOf(
          changed(path, (parent, key) => {
            parent[key] = wrong;
          }),
        );
        expect(message, `${shown(path)} = ${wrong}`).toContain(shown(path));
      }
    }
  });
});

const none = ["one-specimen", "no-value", "no-reference", "too-few-specimens", "no-scatter"];
const ignited = ["ignited", "initial", "ignited-binder", "binder", "paste"];
// What the interfaces list, field by field.
const lists: [string, string[]][] = [
  ["flags[0].severity", ["note", "caution", "serious"]],
  ["runs[0].status", ["done", "incomplete"]],
  ["runs[0].role", ["specimen", "blank", "binder", "aggregate", "control", "check"]],
  ["runs[0].windows[0].rule", ["step", "area", "tangent"]],
  ["runs[0].windows[0].basis", ["ignited", "initial", "binder"]],
  ["runs[0].phases[0].basis", ignited.flatMap((basis) => [basis, `${basis}-net`])],
  ["ages[0].rule", ["step", "area", "tangent"]],
  ["ages[0].basis", ["ignited", "initial", "binder"]],
  ["plausibility[0].basis", ["ignited", "binder", "paste"]],
  ["plausibility[0].by", ["phases", "oxides"]],
  ["plausibility[0].exceeded[0].quantity", ["ettringite", "monosulfate", "ah3", "straetlingite", "bound_water"]],
  ["scatter[0].model", ["proportional", "linear", "constant"]],
  ["scatter[0].kind", ["repeatability", "intermediate precision"]],
  ["decisions.asked.adjustment", ["holm", "dunnett"]],
  ["decisions.asked.scatter", ["pooled", "welch"]],
  ["decisions.asked.family", ["window", "campaign"]],
  ["decisions.asked.margins[0].kind", ["share", "value"]],
  ["decisions.asked.requirements[0].at", ["least", "most"]],
  ["decisions.families[0].adjustment", ["holm", "dunnett"]],
  ["decisions.contrasts[0].against", ["regime", "age"]],
  ["decisions.contrasts[0].difference_verdict", ["lower", "higher", "not shown", ...none]],
  [
    "decisions.contrasts[0].equivalence_verdict",
    ["within margin", "outside margin", "not shown", "no margin given", ...none],
  ],
  ["decisions.contrasts[0].robust", ["yes", "no", "not tested"]],
  ["decisions.growth[0].against", ["age", "curing"]],
  [
    "decisions.growth[0].verdict",
    ["rises", "falls", "not shown", "cannot be shown", "same-specimens", "too-few-cells"],
  ],
  ["decisions.together[0].adjusted_for", ["age", "none"]],
  ["decisions.together[0].method", ["pearson", "spearman"]],
  [
    "decisions.together[0].verdict",
    ["rise together", "run against each other", "not shown", "too-few-cells", "no-scatter"],
  ],
  ["decisions.parted[0].index_verdict", ["lower", "higher", "not shown", ...none]],
  ["decisions.sufficient[0].steps[0].verdict", ["longest", "holds", "not shown", "not reached", ...none]],
];

test.for(lists)("%s takes what it is made for, and nothing else", ([place, values]) => {
  const path = paths.find((one) => shown(one) === place)!;
  const put = (value: string) =>
    messageOf(
      changed(path, (parent, key) => {
        parent[key] = value;
      }),
    );
  for (const value of values) expect(put(value), value).toBe("accepted");
  for (const value of ["", "something", values[0]!.toUpperCase()]) expect(put(value), value).toContain(place);
});

describe("the wrong field is named with what was wanted and found", () => {
  test.for([
    [["schema"], "tg-hydrates/campaign/2", 'schema must be "tg-hydrates/campaign/1", not "tg-hydrates/campaign/2"'],
    [["runs", 0, "windows", 0, "index"], 3, "runs[0].windows[0].index must be {value, u, terms} or {missing}, not 3"],
    [["protocol"], {}, "protocol must be a settled protocol, not Object"],
    [["protocol"], null, "protocol must be a settled protocol, not null"],
    [["protocol"], "csa", 'protocol must be a settled protocol, not "csa"'],
    [["runs", 0, "reading"], null, "runs[0].reading must be an object, not null"],
    [["runs", 0, "reading"], "text", 'runs[0].reading must be an object, not "text"'],
    [["flags", 0, "code"], 7, "flags[0].code must be a code, not 7"],
    [["ages", 1, "window"], "x".repeat(70).split(""), "ages[1].window must be string, not Array"],
    [["mixes", 0, "contents", "gypsum_pct"], true, "mixes[0].contents.gypsum_pct must be number, string, not true"],
    [["version"], 1, "version must be string, not 1"],
  ] as [Path, unknown, string][])("%j = %j", ([path, value, what]) => {
    const document = changed(path, (parent, key) => {
      parent[key] = value;
    });
    expect(messageOf(document)).toBe(
      `campaign.json: this is not the campaign.json of this program: ${what}. Index the folder again`,
    );
  });

  test.for([
    ["twenty deep", 20, "accepted"],
    ["deeper", 21, "runs[0].reading must be"],
  ] as const)("how a file was understood is plain data, nested %s", ([, depth, what]) => {
    let reading: unknown = { unit: "mg" };
    for (let i = 1; i < depth; i++) reading = i % 2 === 0 ? [reading] : { inner: reading };
    const document = changed(["runs", 0, "reading"], (parent, key) => {
      parent[key] = reading;
    });
    expect(messageOf(document)).toContain(what);
  });

  test("how a file was understood may hold texts, numbers, nothing and yes or no", () => {
    const reading = { a: "x", b: 1.5, c: null, d: true, e: [1, "y", null, false, {}] };
    const document = changed(["runs", 0, "reading"], (parent, key) => {
      parent[key] = reading;
    });
    expect((campaignFromJson(document).runs[0] as { reading: unknown }).reading).toEqual(reading);
    // No number of JSON is infinite but one that overflows.
    const overflown = document.replace('"b":1.5', '"b":1e999');
    expect(messageOf(overflown)).toContain("runs[0].reading must be");
  });

  test("a code of a later version is kept", () => {
    const document = changed(["flags", 0, "code"], (parent, key) => {
      parent[key] = "code-of-tomorrow";
    });
    expect(campaignFromJson(document).flags[0]!.code).toBe("code-of-tomorrow");
  });

  test("just five are named without a rest", () => {
    const copy = JSON.parse(text) as Node;
    for (const key of ["version", "mixes", "ages", "amounts", "scatter"]) delete copy[key];
    const end = "mixes is missing; ages is missing; amounts is missing; scatter is missing. Index the folder again";
    expect(messageOf(JSON.stringify(copy))).toContain(`version is missing; ${end}`);
    delete copy.flags;
    expect(messageOf(JSON.stringify(copy))).toContain("scatter is missing; and 1 more. Index the folder again");
  });
});
