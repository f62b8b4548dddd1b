import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { summarise } from "../../src/campaign/summarise.ts";
import type { Campaign } from "../../src/campaign/types.ts";
import { flag } from "../../src/flags.ts";
import type { RunResult } from "../../src/protocol/types.ts";
import { campaignJson } from "../../src/render/campaignJson.ts";
import { version } from "../../src/version.ts";
import { known, makeFailure, makeResult, twoWindows } from "./makeResult.ts";

const campaignOf = (...runs: RunResult[]): Campaign => summarise(runs, { protocol: twoWindows });
const first = (campaign: Campaign) => campaign.ages[0]!;

interface Reference {
  cases: { sample: number[]; mean: number; sd: number; u: number; low: number; high: number }[];
}
/** SciPy 1.10.1, scipy.stats.t.interval: test/reference/campaign_intervals.py. */
const reference: Reference = JSON.parse(
  readFileSync(new URL("../reference/campaign_intervals.json", import.meta.url), "utf8"),
);

describe("a cell", () => {
  test.for(reference.cases)("of the specimens $sample has SciPy's interval", ({ sample, mean, sd, u, low, high }) => {
    const row = first(campaignOf(...sample.map((value, i) => makeResult(`${i}.txt`, [value, 1]))));
    expect(row).toMatchObject({ n_specimens: sample.length, n_runs: sample.length, df: sample.length - 1, flags: [] });
    expect(row.index).toMatchObject({ value: expect.closeTo(mean, 12), u: expect.closeTo(u, 12) });
    for (const [found, right] of [
      [row.index_sd, sd],
      [row.u_random, u],
      [row.index_lo95, low],
      [row.index_hi95, high],
    ] as const) {
      expect(Math.abs(found! / right - 1)).toBeLessThan(1e-9);
    }
    expect(row.u_shared).toBe(0);
    expect(row.index_u! / u).toBeCloseTo(1, 12);
  });

  test("replicates are averaged first: a specimen of three runs weighs as much as one of one", () => {
    // Specimen P: (10 + 11 + 12)/3 = 11; Q: 15. Mean 13, s = √(2²+2²) = √8, u = s/√2 = 2.
    const row = first(
      campaignOf(
        makeResult("a", [10, 1], { specimen: "P", replicate: "1" }),
        makeResult("b", [11, 1], { specimen: "P", replicate: "2" }),
        makeResult("c", [12, 1], { specimen: "P", replicate: "3" }),
        makeResult("d", [15, 1], { specimen: "Q" }),
      ),
    );
    expect(row).toMatchObject({ n_specimens: 2, n_runs: 4, df: 1, index: { value: 13 }, flags: [] });
    expect(row.index_sd).toBeCloseTo(Math.sqrt(8), 12);
    expect(row.u_random).toBeCloseTo(2, 12);
  });

  test("one specimen has a mean, no scatter and no interval, whatever the number of its runs", () => {
    const one = { specimen: "P" };
    const row = first(campaignOf(makeResult("a", [10, 1], one), makeResult("b", [12, 1], one)));
    const none = { index_sd: null, u_random: null, df: null, index_lo95: null, index_hi95: null };
    expect(row).toMatchObject({ n_specimens: 1, n_runs: 2, index: known(11), ...none });
    expect(row.flags).toEqual([
      flag("one-specimen", "The index of 2 runs of one specimen has no interval.", "aft-afm"),
    ]);
  });

  test("missing indices and failed runs are counted and named, never zero", () => {
    const { ages } = campaignOf(
      makeResult("a", [10, 4]),
      makeResult("b", [12, "window-truncated"]),
      makeFailure("c"),
      makeResult("d", ["window-truncated", 6]),
    );
    expect(ages.map(({ window, n_specimens, n_runs, index }) => [window, n_specimens, n_runs, index])).toMatchObject([
      ["aft-afm", 2, 2, { value: 11 }],
      ["ah3", 2, 2, { value: 5 }],
    ]);
    expect(ages.map(({ flags }) => flags)).toEqual([
      [flag("runs-missing", "2 of 4 runs have no index: c (no-table), d (window-truncated).", "aft-afm")],
      [flag("runs-missing", "2 of 4 runs have no index: b (window-truncated), c (no-table).", "ah3")],
    ]);
  });

  test("without any index it is missing, with the reason where there is one", () => {
    const truncated = campaignOf(makeResult("a", ["ends-before-ignition", 4]));
    expect(first(truncated)).toMatchObject({ n_specimens: 0, n_runs: 0, index: { missing: "ends-before-ignition" } });
    const mixed = campaignOf(makeResult("a", ["ends-before-ignition", 4]), makeFailure("b"));
    expect(first(mixed)).toMatchObject({
      n_specimens: 0,
      index: { missing: "runs-missing" },
      index_sd: null,
      df: null,
      index_lo95: null,
      index_hi95: null,
    });
    expect(campaignOf(makeFailure("b")).ages.map(({ n_specimens }) => n_specimens)).toEqual([0, 0]);
  });

  test("specimens of one number in two cells are two specimens", () => {
    const { ages } = campaignOf(
      makeResult("a", [10, 1], { specimen: "1", age_d: 7 }),
      makeResult("b", [12, 1], { specimen: "1", age_d: 28 }),
    );
    expect(ages.map(({ n_specimens }) => n_specimens)).toEqual([1, 1, 1, 1]);
  });

  test.for(["blank", "binder", "aggregate", "control", "check"] as const)(
    "runs with the role %s enter none",
    (role) => {
      const campaign = campaignOf(makeResult("a", [10, 1]), makeResult("b", [90, 1], { role, gas: "air" }));
      expect(first(campaign)).toMatchObject({ n_runs: 1, index: known(10) });
      expect(campaign.runs).toHaveLength(2);
      expect(campaign.ages).toHaveLength(2);
    },
  );

  test("cautions about its runs are carried, notes and those of other windows are not", () => {
    const flags = [
      flag("not-ignited", "Still loses mass."),
      flag("no-time", "No time."),
      flag("isothermal-in-window", "There.", "ah3"),
    ];
    const { ages } = campaignOf(makeResult("a", [10, 1], { flags }), makeResult("b", [10, 1]));
    expect(ages.map((row) => row.flags)).toEqual([
      [flag("not-ignited", "Flagged in 1 of 2 runs: a.", "aft-afm")],
      [
        flag("isothermal-in-window", "Flagged in 1 of 2 runs: a.", "ah3"),
        flag("not-ignited", "Flagged in 1 of 2 runs: a.", "ah3"),
      ],
    ]);
  });

  test("an isothermal is a row after the windows, and a run without it misses nothing", () => {
    const held = makeResult("a", [10, 1]);
    held.windows.push({ ...held.windows[0]!, window: "isothermal-105", index: known(3) });
    const { ages } = campaignOf(held, makeResult("b", [12, 1]));
    expect(ages.map(({ window, n_runs, flags }) => [window, n_runs, flags.map(({ code }) => code)])).toEqual([
      ["aft-afm", 2, []],
      ["ah3", 2, []],
      ["isothermal-105", 1, ["one-specimen"]],
    ]);
  });
});

describe("a campaign", () => {
  test("is ordered by mix, curing, days of curing and age: text by code unit, numbers by size, unknown first", () => {
    const heads = [
      { mix: "a", curing: "moist", curing_d: 7, age_d: 7 },
      { mix: "B", curing: "moist", curing_d: 28, age_d: 28 },
      { mix: "B", curing: "moist", curing_d: 3, age_d: 28 },
      { mix: "B", curing: "moist", curing_d: 3, age_d: 3 },
      { mix: "B", curing: null, curing_d: null, age_d: 1 },
      { mix: null, curing: null, curing_d: null, age_d: null },
      { mix: "B", curing: "moist", curing_d: null, age_d: 1 / 6 },
    ];
    const { ages } = campaignOf(...heads.map((head, i) => makeResult(`${i}.txt`, [i, 1], head)));
    const rows = ages.filter(({ window }) => window === "aft-afm");
    expect(rows.map(({ index }) => index)).toEqual([5, 4, 6, 3, 2, 1, 0].map(known));
    expect(ages.map(({ window }) => window).slice(0, 4)).toEqual(["aft-afm", "ah3", "aft-afm", "ah3"]);
  });

  test("ages are one cell where their whole minutes are equal, whatever digits a file kept of them", () => {
    expect(
      campaignOf(makeResult("a", [10, 1], { age_d: 1 / 6 }), makeResult("b", [12, 1], { age_d: 0.166666667 })).ages,
    ).toHaveLength(2);
  });

  test("carries version, protocol, mixes and its runs by file name", () => {
    const campaign = campaignOf(makeResult("b", [10, 1]), makeResult("B", [10, 1]), makeResult("a", [10, 1]));
    expect(campaign.runs.map(({ file }) => file)).toEqual(["B", "a", "b"]);
    expect(campaign).toMatchObject({ schema: "tg-hydrates/campaign/1", version, protocol: twoWindows, mixes: [] });
  });

  test("without runs is empty", () => {
    expect(campaignOf()).toMatchObject({ runs: [], ages: [], flags: [] });
  });

  test.for([
    [
      "heating rates 10 % apart are alike",
      [{ heating_rate_K_per_min: 10 }, { heating_rate_K_per_min: 11 }, { heating_rate_K_per_min: null }],
      [],
    ],
    [
      "heating rates further apart are not",
      [{ heating_rate_K_per_min: 10.1 }, { heating_rate_K_per_min: 10 }, { heating_rate_K_per_min: 20 }],
      ["Heating rates go from 10.0 (1) to 20.0 K/min (2): the largest is more than 1.1 times the smallest."],
    ],
    ["initial masses a factor 1.5 apart are alike", [{ initial_mass_mg: 20 }, { initial_mass_mg: 30 }], []],
    [
      "initial masses further apart are not",
      [{ initial_mass_mg: 50 }, { initial_mass_mg: 20 }],
      ["Initial masses go from 20.0 (1) to 50.0 mg (0): the largest is more than 1.5 times the smallest."],
    ],
    [
      "gases",
      [{ gas: "N2" }, { gas: "air" }, { gas: "n2 " }, { gas: null }],
      ["The run sheet names 2 gases: N2 (2 runs), air (1 run)."],
    ],
    [
      "crucibles",
      [{ crucible: "alumina" }, { crucible: "platinum" }],
      ["The run sheet names 2 crucibles: alumina (1 run), platinum (1 run)."],
    ],
  ] as const)("conditions-differ: %s", ([, heads, sentences]) => {
    const { flags } = campaignOf(...heads.map((head, i) => makeResult(`${i}`, [10, 1], head)));
    expect(flags).toEqual(sentences.map((sentence) => flag("conditions-differ", sentence)));
  });

  test("does not depend on the order of the runs, and leaves them as they are", () => {
    const cell = fc.record({
      mix: fc.constantFrom("M1", "M2", null),
      age_d: fc.constantFrom(1 / 24, 7, 28),
      specimen: fc.constantFrom("P", "Q", "R"),
      gas: fc.constantFrom("N2", "n2", "air", null),
      heating_rate_K_per_min: fc.constantFrom(5, 10, null),
    });
    const index = fc.oneof(fc.double({ min: -1, max: 40, noNaN: true }), fc.constant("window-truncated"));
    const one = fc.record({ head: cell, a: index, b: index, failed: fc.boolean() });
    const shuffled = fc.array(one, { minLength: 1, maxLength: 12 }).chain((all) =>
      fc.tuple(
        fc.constant(all),
        fc.shuffledSubarray(
          all.map((_, i) => i),
          { minLength: all.length, maxLength: all.length },
        ),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([all, order]) => {
        const runs = all.map(({ head, a, b, failed }, i): RunResult => {
          const { gas: _gas, heating_rate_K_per_min: _rate, ...key } = head;
          // Two results of one file must not make it a matter of luck either.
          const file = `${Math.floor(i / 2)}.txt`;
          return failed && i % 3 === 0 ? makeFailure(file, key) : makeResult(file, [a, b], head);
        });
        const before = JSON.stringify(runs);
        const other = order.map((i) => runs[i]!);
        expect(campaignJson(campaignOf(...other))).toBe(campaignJson(campaignOf(...runs)));
        expect(JSON.stringify(runs)).toBe(before);
      }),
      { seed: 20260, numRuns: 150 },
    );
  });

  test("scaling every index scales means and intervals and nothing else", () => {
    const values = [18.2, 19.2, 18.7];
    const rows = [1, 4].map((factor) =>
      first(campaignOf(...values.map((value, i) => makeResult(`${i}`, [factor * value, 1])))),
    );
    for (const key of ["index_sd", "u_random", "index_lo95", "index_hi95"] as const) {
      expect(rows[1]![key]).toBeCloseTo(4 * rows[0]![key]!, 10);
    }
  });
});
