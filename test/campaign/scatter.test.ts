import { describe, expect, test } from "vitest";
import { outlierFlags } from "../../src/campaign/outlierFlags.ts";
import { scatterOf } from "../../src/campaign/scatterOf.ts";
import { specimensOf } from "../../src/campaign/specimensOf.ts";
import { summarise } from "../../src/campaign/summarise.ts";
import type { ScatterRow } from "../../src/campaign/types.ts";
import { uncertaintyOfCell } from "../../src/campaign/uncertaintyOfCell.ts";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { makeResult, twoWindows } from "./makeResult.ts";

describe("pooled scatter", () => {
  test("is the root mean square of the relative deviations, each weighted by n − 1", () => {
    // 10 ± 1 (n = 2: s = √2·0.5·…): 9.5, 10.5 → s = 0.7071 (7.071 %), ν = 1; 38, 40, 42 → s = 2 (5 %), ν = 2.
    const found = scatterOf([[9.5, 10.5], [38, 40, 42], [7]])!;
    expect(found).toMatchObject({ model: "proportional", a: 0, df: 3 });
    expect(found.b).toBeCloseTo(Math.sqrt((0.07071068 ** 2 + 2 * 0.05 ** 2) / 3), 8);
  });

  test("is unknown where no cell has two specimens", () => {
    expect(scatterOf([[1], [2], []])).toBeNull();
  });

  const drawn = (sigma: (size: number) => number, cells: number) => {
    const random = seededRandom(`scatter ${cells}`);
    return Array.from({ length: cells }, (_, i) => {
      const size = 1 + (i % 10) * 4;
      return [0, 0, 0].map(() => size + sigma(size) * random.normal());
    });
  };

  test("proportional scatter is recognised and found", () => {
    const found = scatterOf(drawn((size) => 0.04 * size, 200))!;
    expect(found.model).toBe("proportional");
    expect(found.b).toBeCloseTo(0.04, 2);
  });

  test("constant scatter is recognised and found", () => {
    const found = scatterOf(drawn(() => 0.3, 200))!;
    expect(found).toMatchObject({ model: "constant", b: 0 });
    expect(found.a).toBeCloseTo(0.3, 1);
  });

  test("a constant part beside a proportional one is recognised and found", () => {
    const found = scatterOf(drawn((size) => 0.3 + 0.05 * size, 400))!;
    expect(found.model).toBe("linear");
    expect(found.a + 20 * found.b).toBeCloseTo(1.3, 1);
    expect(found.b).toBeCloseTo(0.05, 1);
  });

  test("one campaign of proportional scatter in twenty may be taken for another: the test is one of 5 %", () => {
    let other = 0;
    for (let seed = 0; seed < 300; seed++) {
      const random = seededRandom(`model ${seed}`);
      const cells = Array.from({ length: 12 }, (_, i) =>
        [0, 0, 0].map(() => (5 + 3 * i) * (1 + 0.04 * random.normal())),
      );
      if (scatterOf(cells)!.model !== "proportional") other++;
    }
    expect(other / 300).toBeLessThan(0.08);
  });
});

describe("the uncertainty of a cell", () => {
  const specimen = (name: string, value: number, effect: number) => ({
    specimen: name,
    value,
    terms: [
      { cause: "noise", effect: 0.5, key: `noise:${name}` },
      { cause: "temperature", effect, key: "temperature:B1" },
    ],
  });
  const scatter = { model: "proportional", a: 0, b: 0.03, df: 8 } as const;

  test("divides the scatter by √n and leaves what is shared whole", () => {
    const found = uncertaintyOfCell([specimen("a", 19, 0.2), specimen("b", 21, 0.4)], {
      index: 20,
      scatter,
      key: "c",
    })!;
    expect(found.u_random).toBeCloseTo((0.03 * 20) / Math.SQRT2, 12);
    expect(found.u_shared).toBeCloseTo(0.3, 12);
    expect(found.index_u).toBeCloseTo(Math.sqrt(0.18 + 0.09), 12);
    // Welch–Satterthwaite: ν = u⁴/(u_r⁴/8)
    expect(found.df).toBeCloseTo((8 * 0.27 ** 2) / 0.18 ** 2, 10);
  });

  test("of one specimen is the larger of scatter and budget", () => {
    expect(uncertaintyOfCell([specimen("a", 20, 0)], { index: 20, scatter, key: "c" })!.u_random).toBeCloseTo(0.6, 12);
    expect(uncertaintyOfCell([specimen("a", 2, 0)], { index: 2, scatter, key: "c" })!.u_random).toBeCloseTo(0.5, 12);
  });

  test("is unknown without a scatter", () => {
    expect(uncertaintyOfCell([specimen("a", 20, 0.1)], { index: 20, scatter: null, key: "c" })).toBeNull();
  });

  test("errors of replicates that are the same are averaged with their signs, others shrink", () => {
    const runs = ["r1", "r2"].map((file, i) => ({
      specimen: "a",
      value: 10 + i,
      terms: [
        { cause: "temperature", effect: i === 0 ? 0.4 : -0.2, key: "temperature:B1" },
        { cause: "noise", effect: 0.2, key: `noise:${file}` },
      ],
    }));
    const [only] = specimensOf(runs);
    expect(only!.value).toBe(10.5);
    expect(only!.terms.map(({ key, effect }) => [key, Number(effect.toFixed(12))])).toEqual([
      ["temperature:B1", 0.1],
      ["noise:r1", 0.1],
      ["noise:r2", 0.1],
    ]);
  });
});

test("a window that could not be parted is flagged for the campaign", () => {
  const settled = { by: "9 runs", resolved: [{ window: "aft-afm", at_C: null, prominence: null }] };
  const { flags } = summarise([makeResult("a", [1, 2])], { protocol: { ...twoWindows, settled } });
  expect(flags.map(({ code, window }) => [code, window])).toEqual([["unresolved", "aft-afm"]]);
  const parted = { ...settled, resolved: [{ window: "aft-afm", at_C: 150, prominence: 9 }] };
  expect(summarise([makeResult("a", [1, 2])], { protocol: { ...twoWindows, settled: parted } }).flags).toEqual([]);
});

describe("cells that do not scatter alike", () => {
  const cell = (age_d: number, spread: number, n: number, seed: string) => {
    const random = seededRandom(seed);
    return Array.from({ length: n }, (_, i) =>
      makeResult(`${seed}-${i}`, [20 * (1 + spread * random.normal()), 5], { age_d }),
    );
  };

  test("are named, at equal numbers by Cochran's test", () => {
    const wild = makeResult("w1", [14, 5], { age_d: 9 });
    const runs = [
      ...[1, 2, 3, 4, 5, 6].flatMap((age) => cell(age, 0.01, 3, `calm ${age}`)),
      wild,
      { ...makeResult("w2", [20, 5], { age_d: 9 }) },
      { ...makeResult("w3", [26, 5], { age_d: 9 }) },
    ];
    const found = summarise(runs, { protocol: twoWindows }).flags.filter(({ code }) => code === "scatter-differs");
    expect(found.map(({ sentence, window }) => [sentence.split(" scatter")[0], window])).toEqual([
      ["The specimens of M1, moist for 7 d at 9 d", "aft-afm"],
    ]);
  });

  test("are found at unequal numbers by Levene's", () => {
    const runs = [
      ...[1, 2, 3].flatMap((age) => cell(age, 0.005, 6, `calm ${age}`)),
      ...[4, 5].flatMap((age) => cell(age, 0.12, 7, `wild ${age}`)),
    ];
    const found = summarise(runs, { protocol: twoWindows }).flags.filter(({ code }) => code === "scatter-differs");
    expect(found.map(({ sentence }) => sentence)[0]).toMatch(
      /^The cells do not scatter alike \(Levene's test on logarithms, p = /,
    );
  });

  test("raise no alarm in an ordinary campaign more often than 5 % allows", () => {
    let alarms = 0;
    for (let seed = 0; seed < 120; seed++) {
      const runs = [1, 2, 3, 4, 5, 6, 7, 8].flatMap((age) => cell(age, 0.03, 3, `ordinary ${seed} ${age}`));
      if (summarise(runs, { protocol: twoWindows }).flags.some(({ code }) => code === "scatter-differs")) alarms++;
    }
    expect(alarms / 120).toBeLessThan(0.11);
  });
});

describe("outlying specimens", () => {
  const scatter: ScatterRow = {
    window: "w",
    model: "proportional",
    a: 0,
    b: 0.02,
    df: 20,
    at_index: 10,
    sd: 0.2,
    limit: 0.55,
    kind: "repeatability",
  };
  const specimens = (...values: number[]) => values.map((value, i) => ({ specimen: `S${i + 1}`, value, terms: [] }));

  test("are flagged with their figures and stay in the mean", () => {
    // Residual of 11.4 about 10.4: 1/(0.208·√(2/3)) = 5.9 pooled standard deviations.
    const flags = outlierFlags(specimens(9.9, 9.9, 11.4), { window: "w", scatter: { ...scatter, df: 60 } });
    expect(flags.map((f) => f.sentence)).toEqual([
      "Specimen S3 (11.40) lies 5.9 pooled standard deviations from the mean 10.40 of its cell.",
    ]);
  });

  test("are not those within the scatter", () => {
    expect(outlierFlags(specimens(9.8, 10.2, 10), { window: "w", scatter })).toEqual([]);
  });

  test("false alarms stay near 5 % of campaigns", () => {
    let alarms = 0;
    const campaigns = 150;
    for (let seed = 0; seed < campaigns; seed++) {
      const random = seededRandom(`outlier ${seed}`);
      const runs = Array.from({ length: 30 }, (_, i) =>
        makeResult(`${i}`, [20 * (1 + 0.03 * random.normal()), 5 * (1 + 0.03 * random.normal())], { age_d: i % 10 }),
      );
      const { ages } = summarise(runs, { protocol: twoWindows });
      if (ages.some((row) => row.window === "ah3" && row.flags.some((f) => f.code === "outlying-specimen"))) alarms++;
    }
    expect(alarms / campaigns).toBeLessThan(0.09);
  });
});
