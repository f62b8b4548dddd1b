import { expect, test } from "vitest";
import type { Campaign } from "../../../src/campaign/types.ts";
import { checkProtocol } from "../../../src/protocol/checkProtocol.ts";
import { protocols } from "../../../src/protocol/protocols.ts";
import { settle } from "../../../src/protocol/settle.ts";
import type { SettledProtocol } from "../../../src/protocol/types.ts";
import { methods } from "../../../src/render/report/methods.ts";
import { makeCampaign, makeCompared } from "./makeCampaign.ts";

const csa = settle(protocols.csa);
const hydroxyl = {
  window: "ah3",
  aft_afm: "aft-afm",
  afm_share: 0.2,
  u_afm_share: 0.05,
  k: 0.5,
  u_k: 0.3,
  k_afm: 1,
  u_k_afm: 0.1,
};
/** A protocol that uses every field there is. */
const full = {
  ...csa,
  smoothing: { ...csa.smoothing, choose: { least_C: 6, most_C: 24 } },
  windows: [
    // Corrections need steps with their amounts; one window keeps the rule area.
    ...csa.windows.map((window) => ({
      ...window,
      rule: window.name === "bound-water" ? ("area" as const) : ("step" as const),
      ...(window.name === "ah3" ? { amount: { phase: "ah3", mol_lost: 3 } } : {}),
      ...(window.name === "ch-range" ? { amount: { phase: "portlandite", mol_lost: 1 } } : {}),
    })),
    {
      ...{ name: "resolved", from_C: 60, to_C: 210, rule: "tangent" as const, anchor_C: 8 },
      tangent: { before_C: [31, 41] as [number, number], after_C: [222, 232] as [number, number] },
      placement: { edges: "shared" as const, tolerance_C: 15 },
      amount: { phase: "gypsum", mol_lost: 2, gas: "H2O" as const },
      resolve: {
        between_C: [130, 180] as [number, number],
        into: ["low", "high"] as [string, string],
        amounts: [
          { phase: "ettringite", mol_lost: 26 },
          { phase: "monosulfate", mol_lost: 6 },
        ] as [{ phase: string; mol_lost: number }, { phase: string; mol_lost: number }],
      },
    },
  ],
  peaks: {
    peaks: [{ name: "p", position_C: [90, 110] as [number, number], width_C: 35, asymmetry: -0.2 }],
    ...{ from_C: 61, to_C: 209, baseline: "linear" as const, width_u_pct: 4, asymmetry_u: 0.04 },
    limits: { area_u_pct: 21, misfit_pct: 3, merged_pct: 22, merged_times: 5 },
  },
  corrections: { hydroxyl, carbonation: { window: "ch-range", carbonate: "carbonate" } },
  settled: {
    by: "36 runs of 4 regimes",
    smoothing: { width_C: 12, peak_bias_pct: 1.5 },
    edges: [{ window: "resolved", edge: "from" as const, fixed_C: 59, placed_C: 63.5, prominence: 12 }],
    resolved: [{ window: "resolved", at_C: 151.5, prominence: 9 }],
  },
} satisfies SettledProtocol;

const wordsOf = (protocol: SettledProtocol, campaign: Campaign = makeCampaign()): string =>
  methods({ ...campaign, protocol }).paragraphs.join("\n");

/** Where the leaves of a document stand: `windows.0.from_C`. */
function leaves(value: unknown, path = ""): [string, unknown][] {
  if (value === null || typeof value !== "object") return [[path, value]];
  return Object.entries(value).flatMap(([key, item]) => leaves(item, path === "" ? key : `${path}.${key}`));
}

function changed<T>(document: T, path: string, to: unknown): T {
  const copy = structuredClone(document);
  const keys = path.split(".");
  let at = copy as Record<string, unknown>;
  for (const key of keys.slice(0, -1)) at = at[key] as Record<string, unknown>;
  at[keys.at(-1)!] = to;
  return copy;
}

/** Words that have no place in the paragraph: what the document is, and what its author says about the windows. */
const ASIDE = /^(\$schema|schema|description)$|\.note$|\.placement\.edges$/;

const fields = leaves(full).filter(([path]) => !ASIDE.test(path));

test("the protocol with every field but those that settling takes away is a valid one", () => {
  const { choose: _, ...smoothing } = full.smoothing;
  const windows = full.windows.map(({ ...window }) => {
    if ("placement" in window) {
      const { placement: __, resolve: ___, amount: ____, ...rest } = window;
      return rest;
    }
    return window;
  });
  expect(() => checkProtocol({ ...full, smoothing, windows })).not.toThrow();
});

test.for(fields)("the paragraph tells of %s (%s)", ([path, value]) => {
  const before = wordsOf(full);
  const other: Record<string, unknown> = {
    step: "area",
    area: "step",
    tangent: "step",
    ignited: "binder",
    linear: "none",
    from: "to",
  };
  const to =
    typeof value === "number"
      ? value + 0.0625
      : typeof value === "boolean"
        ? !value
        : (other[String(value)] ?? `${value}X`);
  expect(wordsOf(changed(full, path, to))).not.toBe(before);
});

test("no number stands in the paragraph that is not one of the protocol or of the runs", () => {
  const campaign = makeCampaign();
  const known = new Set(leaves(csa).flatMap(([, value]) => (typeof value === "number" ? [value] : [])));
  const { temperature_C: T, half_width_C: half } = csa.ignition;
  for (const derived of [T - half, T + half]) known.add(derived);
  const runs = `12 of ${campaign.runs.length} thermogravimetric runs could be evaluated, with tg-hydrates ${campaign.version} under`;
  const words = wordsOf(csa, campaign);
  expect(words).toContain(runs);
  const rest = words
    .replace(runs, "")
    .replace("heated at 10.0 K/min", "")
    .replace("initial masses of 20.0 mg", "")
    // Names of methods and units, and the level of intervals.
    .replaceAll(/Savitzky and Golay 1964|JCGM 100:2008|per 100 g|95 % intervals|√12|AH3|aft-afm|ah3/g, "");
  // The default of a window's anchor band is the one number that the protocol leaves out; its schema states it.
  known.add(10);
  const numbers = [...rest.matchAll(/(?<![\p{L}\d.])\d+(?:\.\d+)?/gu)].map(([number]) => Number(number));
  expect(numbers.length).toBeGreaterThan(20);
  expect(numbers.filter((number) => !known.has(number))).toEqual([]);
});

test("the built-in protocol in words", () => {
  const words = wordsOf(csa);
  for (const phrase of [
    "under the protocol csa, settled by fixed edges",
    "an even temperature grid of 0.5 °C and smoothed by a Savitzky–Golay filter of degree 3 over 10 °C (Savitzky and Golay 1964)",
    "aft-afm 50–220 °C by step; ah3 220–350 °C by area, slopes fitted over 10 °C about each edge; ch-range 400–500 °C by area",
    "carbonate 600–850 °C by step, taken as the loss of 1 mol of gas per mol of calcite",
    "the mean from 945 to 955 °C (950 ± 5 °C)",
    "at least 5 min",
    "more than 0.1 g per 100 g of ignited mass over the last 50 °C",
    "5 °C of the temperature axis",
    "0.08 mg of buoyancy without a blank run and 0.01 mg with one",
    "Carbon dioxide was not converted to portlandite.",
  ]) {
    expect(words).toContain(phrase);
  }
});

test("only methods that were used are named and cited", () => {
  const alone = methods(makeCampaign());
  expect(alone.references).toHaveLength(2);
  expect(alone.paragraphs.join()).not.toMatch(/Holm|Dunnett|Schuirmann|one-sided tests/);
  const compared = methods(makeCompared());
  expect(compared.paragraphs.join()).toContain("Agreement within a margin of 10 % of the reference was judged apart");
  expect(compared.references.join()).toMatch(/Holm.*Schuirmann.*Jonckheere/);
  expect(compared.references.join()).not.toMatch(/Dunnett/);
  const campaign = makeCompared();
  const decisions = { ...campaign.decisions!, asked: { ...campaign.decisions!.asked, margins: [] } };
  const without = methods({ ...campaign, decisions });
  expect(without.paragraphs.join()).toContain("Agreement within a margin was not judged");
  expect(without.references.join()).not.toMatch(/Schuirmann/);
});
