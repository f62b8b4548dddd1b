import { describe, expect, test } from "vitest";
import { campaignFromJson } from "../../src/campaign/campaignFromJson.ts";
import { summarise } from "../../src/campaign/summarise.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { RunDone, SettledProtocol } from "../../src/protocol/types.ts";
import { campaignJson } from "../../src/render/campaignJson.ts";
import { phasesCsv } from "../../src/render/phasesCsv.ts";
import { makeMix } from "../phases/makeMix.ts";
import { known, makeResult } from "./makeResult.ts";

/** Two windows, as makeResult has them, the second of which declares carbon dioxide. */
const protocol: SettledProtocol = settle({
  ...protocols.csa,
  windows: [
    protocols.csa.windows[0]!,
    { name: "ah3", from_C: 600, to_C: 850, rule: "step", amount: { phase: "calcite", mol_lost: 1 } },
  ],
});
/** Three specimens per cell whose carbonate is `at`, with 3 % scatter. */
const campaign = (
  at: (age_d: number, curing: string) => number,
  sheet: { ages?: number[]; curings?: string[]; seed?: string } = {},
) => {
  const { ages = [1, 3, 7, 28], curings = ["moist", "dry"], seed = "carbonation" } = sheet;
  const random = seededRandom(seed);
  const runs: RunDone[] = curings.flatMap((curing) =>
    ages.flatMap((age_d) =>
      [1, 2, 3].map((i) =>
        makeResult(`${curing}-${age_d}-${i}`, [10, at(age_d, curing) * (1 + 0.03 * random.normal())], {
          curing,
          age_d,
        }),
      ),
    ),
  );
  return summarise(runs, { protocol });
};
const found = (...args: Parameters<typeof campaign>) =>
  campaign(...args)
    .flags.filter(({ code }) => code === "carbonated")
    .map(({ sentence }) => sentence);

describe("carbonate that rises", () => {
  test("with age is flagged for the regime in which it does, with the figures", () => {
    const sentences = found((age_d, curing) => (curing === "dry" ? 2 + 0.3 * Math.log(age_d) : 2));
    expect(sentences).toEqual([
      expect.stringMatching(
        /^Carbonate \(window ah3\) rises with age in M1, dry for 7 d: [12]\.\d\d g of CO2 \(4\.\d\d g of calcite\) at 1 d, [23]\.\d\d g of CO2 \([67]\.\d\d g of calcite\) at 28 d\.$/,
      ),
      expect.stringMatching(
        /^Carbonate \(window ah3\) differs between regimes at 28 d: .* in M1, moist for 7 d, .* in M1, dry for 7 d(, and \d more)?\.$/,
      ),
    ]);
  });

  test("with the regime is flagged at the age where it does", () => {
    expect(found((_, curing) => (curing === "dry" ? 2.5 : 2), { ages: [7] })).toEqual([
      expect.stringMatching(
        /^Carbonate \(window ah3\) differs between regimes at 7 d: \d\.\d\d g .* in M1, moist for 7 d, .* in M1, dry for 7 d\.$/,
      ),
    ]);
  });

  test("that stays, or falls with age alike in all regimes, is not flagged", () => {
    expect(found(() => 2)).toEqual([]);
    expect(found((age_d) => 3 - 0.3 * Math.log(age_d))).toEqual([]);
  });

  test("within the noise of the balance is not flagged, however little specimens near zero scatter", () => {
    const near = (noise: number) =>
      [1, 28].flatMap((age_d, j) =>
        [0, 1, 2].map((i) => {
          const run = makeResult(`${age_d}-${i}`, [10, 0.001 + 0.02 * j + 1e-5 * i], { age_d });
          const terms = [{ cause: "noise", effect: noise, key: `noise:${run.file}` }];
          run.windows[1]!.index = { value: 0.001 + 0.02 * j + 1e-5 * i, u: noise, terms };
          return run;
        }),
      );
    const flagged = (noise: number) => summarise(near(noise), { protocol }).flags.map(({ code }) => code);
    expect(flagged(0)).toEqual(["carbonated"]);
    expect(flagged(0.03)).toEqual([]);
  });

  test("is called so in no more than 5 % of campaigns where nothing rises (200 campaigns)", () => {
    let flagged = 0;
    for (let i = 0; i < 200; i++) if (found(() => 2, { seed: `${i}` }).length > 0) flagged++;
    // Bonferroni is on the safe side; 5 % and two standard deviations of a count of 200.
    expect(flagged).toBeLessThanOrEqual(16);
  });

  test("is not tested without a pooled scatter, nor in windows that declare no carbon dioxide", () => {
    const single = [1, 28].map((age_d) => makeResult(`${age_d}`, [10, age_d], { age_d }));
    expect(summarise(single, { protocol }).flags).toEqual([]);
    const rising = [1, 28].flatMap((age_d) =>
      [0, 1].map((i) => makeResult(`${age_d}-${i}`, [age_d + i / 9, 1 + i / 9], { age_d })),
    );
    expect(summarise(rising, { protocol }).flags).toEqual([]);
  });
});

describe("mixes of a campaign", () => {
  const runs = [makeResult("a", [30, 1], { mix: "M" })];
  const flagsOf = (mix: ReturnType<typeof makeMix>) =>
    summarise(runs, { protocol, mixes: [mix, { ...mix, mix: "unused" }] }).flags.map(
      ({ code, sentence }) => `${code}: ${sentence}`,
    );

  test("a mortar without the scatter of subsampling is flagged once", () => {
    expect(flagsOf(makeMix({ sand_binder_ignited: 3 }))).toEqual([
      "mortar-subsampling: The mix M is a mortar (3 g of ignited sand per g of ignited binder), and nothing is said about the scatter of its subsamples.",
    ]);
    expect(flagsOf(makeMix({ sand_binder_ignited: 3, u_sand_binder_ignited: 0.1 }))).toEqual([]);
  });

  test("mixing water that cannot hydrate everything is flagged once", () => {
    const contents = { yeelimite_pct: 56, gypsum_pct: 20 };
    expect(flagsOf(makeMix({ w_b: 0.4, contents }))).toEqual([
      "water-limited: The mix M has w/b 0.4, and complete hydration of its ye'elimite takes up 0.465: the mixing water alone hydrates at most 78 %.",
    ]);
  });
});

describe("plausibility of cells", () => {
  const contents = { yeelimite_pct: 56, gypsum_pct: 20 };
  const phases = (["ettringite", "ah3"] as const).map((phase, i) => ({
    ...{ phase, window: phase, mol_lost: 3, basis: "ignited" as const, flags: [] },
    amount: known([40, 15][i]!),
  }));
  const summarised = () =>
    summarise(
      [
        makeResult("a", [30, 4], { mix: "M", phases }),
        makeResult("b", [30, 4], { mix: "M", phases, role: "binder" }),
        makeResult("c", [30, 4], { mix: "N", phases }),
      ],
      { protocol, mixes: [makeMix({ w_b: 0.6, contents }), makeMix({ mix: "N" })] },
    );

  test("is there for cells whose mix tells its binder", () => {
    const result = summarised();
    expect(result.plausibility.map(({ mix, age_d }) => [mix, age_d])).toEqual([["M", 7]]);
    const [{ yeelimite_reacted, ah3_per_ettringite, exceeded }] = result.plausibility as [
      (typeof result.plausibility)[0],
    ];
    // 15 of 29.883 g per 100 g ignited (FX3).
    expect(yeelimite_reacted!.low).toBeCloseTo(0.502, 3);
    expect(ah3_per_ettringite!.measured).toBeCloseTo(0.375, 9);
    expect(exceeded).toEqual([]);
  });

  test("survives campaign.json with everything else, key by key", () => {
    const result = summarised();
    const text = campaignJson(result);
    const back = campaignFromJson(text);
    expect(campaignJson(back)).toBe(text);
    expect(back.plausibility.length).toBe(1);
    expect(back.amounts.length).toBe(result.amounts.length);
    expect(back.runs[0]).toMatchObject({
      phases: [{ phase: "ettringite" }, { phase: "ah3" }, { basis: "ignited-net" }, {}, {}, {}, {}, {}],
    });
  });

  test("phases.csv has exactly the columns of the contract, one row per run, phase and basis", () => {
    const result = summarised();
    const lines = phasesCsv(result).split("\n");
    expect(lines[0]).toBe(
      "file,mix,curing,curing_d,age_d,specimen,replicate,phase,window,mol_lost,basis,amount,amount_u,flags",
    );
    expect(lines.slice(1, 4)).toEqual([
      "a,M,moist,7,7,a,,ettringite,ettringite,3,ignited,40,,",
      "a,M,moist,7,7,a,,ah3,ah3,3,ignited,15,,",
      "a,M,moist,7,7,a,,ettringite,ettringite,3,ignited-net,0,0,",
    ]);
    expect(lines[4]).toBe("a,M,moist,7,7,a,,ettringite,ettringite,3,binder-net,,,no-binder-loss");
    expect(lines.length).toBe(1 + 8 + 2 + 2 + 1);
  });
});
