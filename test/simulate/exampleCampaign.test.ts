import { readdirSync, readFileSync } from "node:fs";
import { group } from "d3-array";
import { describe, expect, test } from "vitest";
import { parseMixes } from "../../src/campaign/parseMixes.ts";
import { parseSheet } from "../../src/campaign/parseSheet.ts";
import { reactionMasses } from "../../src/chemistry/reactionMasses.ts";
import { theoreticalLosses } from "../../src/chemistry/theoreticalLosses.ts";
import { mean } from "../../src/numerics/mean.ts";
import { pooledDeviation } from "../../src/numerics/pooledDeviation.ts";
import { indexBytes } from "../../src/protocol/indexBytes.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { RunDone } from "../../src/protocol/types.ts";
import { exampleCampaign } from "../../src/simulate/exampleCampaign.ts";
import { exampleCurings, exampleMixes } from "../../src/simulate/exampleDesign.ts";
import { exampleSpecimen } from "../../src/simulate/exampleSpecimen.ts";
import { trueIndices } from "../../src/simulate/trueIndices.ts";
import type { Model, Programme, Reaction } from "../../src/simulate/types.ts";
import { readReference } from "../readReference.ts";

const small = exampleCampaign(7, { size: "small" });
const textOf = (name: string) => new TextDecoder().decode(small.files.find((file) => file.name === name)!.bytes);
const sheet = parseSheet(textOf("sheet.csv"), { name: "sheet.csv" });
const mixes = parseMixes(textOf("mixes.csv"), { name: "mixes.csv" });

test("fixtures/example holds exactly what the generator writes", () => {
  const folder = new URL("../../fixtures/example/", import.meta.url);
  expect(readdirSync(folder).sort()).toEqual(small.files.map(({ name }) => name));
  for (const { name, bytes } of small.files) {
    expect(readFileSync(new URL(name, folder)).equals(bytes), `${name}: run test/reference/makeExample.mjs`).toBe(true);
  }
});

test("the same seed gives the same files, another seed the same design with other readings", () => {
  const options = { size: "small", rows: 40 } as const;
  expect(exampleCampaign("a", options)).toEqual(exampleCampaign("a", options));
  const other = exampleCampaign("b", options);
  expect(other.truth).toEqual(small.truth);
  expect(other.files.map(({ name }) => name)).toEqual(small.files.map(({ name }) => name));
  expect(other.files[0]!.bytes).not.toEqual(exampleCampaign("a", options).files[0]!.bytes);
});

describe("design", () => {
  test("sheet and mix table have no problem, and every file of the sheet is there", () => {
    expect(sheet.problems).toEqual([]);
    expect(mixes.problems).toEqual([]);
    for (const { file } of sheet.rows)
      expect(
        small.files.some(({ name }) => name === file),
        file,
      ).toBe(true);
    // Sheet, mixes, properties, truth and README are no runs.
    expect(sheet.rows).toHaveLength(small.files.length - 5);
  });

  test("the small one has four ages, four regimes, three specimens per cell and three ways of writing below 1 MB", () => {
    const specimens = sheet.rows.filter(({ role }) => role === "specimen");
    expect(new Set(specimens.map(({ age_min }) => age_min)).size).toBe(4);
    expect(new Set(specimens.map(({ curing, curing_d }) => `${curing} ${curing_d}`)).size).toBe(4);
    expect(new Set(specimens.map(({ mix }) => mix)).size).toBe(2);
    const cells = group(specimens, ({ mix, curing, curing_d, age_min }) => `${mix} ${curing} ${curing_d} ${age_min}`);
    for (const [cell, rows] of cells) expect(new Set(rows.map(({ specimen }) => specimen)).size, cell).toBe(3);
    expect(new Set(specimens.map(({ balance }) => balance)).size).toBe(3);
    expect(small.files.reduce((sum, { bytes }) => sum + bytes.length, 0)).toBeLessThan(1e6);
  });

  test("the full one has six regimes at up to five ages and no curing that outlasts its age", () => {
    const full = exampleCampaign(7, { rows: 3 });
    const text = new TextDecoder().decode(full.files.find(({ name }) => name === "sheet.csv")!.bytes);
    const { rows, problems } = parseSheet(text, { name: "sheet.csv" });
    expect(problems).toEqual([]);
    expect(new Set(rows.map(({ curing, curing_d }) => `${curing} ${curing_d}`)).size).toBe(exampleCurings.length + 1);
    expect(new Set(rows.flatMap(({ age_min }) => age_min ?? [])).size).toBe(5);
    expect(rows.length).toBeGreaterThan(140);
  });

  test("more specimens can be asked for", () => {
    const more = exampleCampaign(7, { size: "small", rows: 3, specimens: 5 });
    expect(more.files.length - 5 - 2).toBe(5 * 12);
  });
});

describe("chemistry", () => {
  test("a mix table's loss on ignition is that of its gypsum and limestone", () => {
    for (const [i, { gypsum, limestone }] of exampleMixes.entries()) {
      // 20.928 % water of gypsum and 43.971 % carbon dioxide of calcite: arithmetic from published atomic weights.
      const loi = gypsum * 0.20928 + limestone * 0.43971;
      expect(Math.abs(mixes.rows[i]!.loi_binder_pct! - loi)).toBeLessThan(0.001);
    }
  });

  const everyCell = exampleMixes.flatMap((mix) =>
    exampleCurings.flatMap((curing) => curing.ages_d.map((age_d) => [mix, curing, age_d] as const)),
  );
  const lossOf = (amounts: Record<string, number>) =>
    Object.entries(amounts).reduce(
      (sum, [phase, mass]) => sum + (phase === "inert" ? 0 : (mass * theoreticalLosses(phase).totalPct) / 100),
      0,
    );
  const total = (amounts: Record<string, number>) => Object.values(amounts).reduce((sum, mass) => sum + mass, 0);

  test.for(
    everyCell.map(([mix, curing, age_d]) => [mix.mix, curing.curing, curing.curing_d, age_d, mix, curing] as const),
  )(
    "%s, %s %j at %d d: water and carbon dioxide come and go, the ignited mass is that of the binder",
    ([, , , age_d, mix, curing]) => {
      const amounts = exampleSpecimen(mix, curing, { age_d }) as Record<string, number>;
      const binder = 100 - (mix.gypsum * 0.209282 + mix.limestone * 0.439711);
      expect(Math.abs(total(amounts) - lossOf(amounts) - binder)).toBeLessThan(0.001);
      for (const [phase, mass] of Object.entries(amounts)) expect(mass, phase).toBeGreaterThanOrEqual(0);
    },
  );

  test("never more ettringite than the sulfate allows, nor more AH3 than the ye'elimite", () => {
    const perGypsum = reactionMasses("R2", "C$H2").right.C6A$3H32!;
    const perYeelimite = reactionMasses("R2", "C4A3$").right.AH3!;
    for (const [mix, curing, age_d] of everyCell.filter(([{ gypsum }]) => gypsum > 0)) {
      const { ettringite, ah3, calcite } = exampleSpecimen(mix, curing, { age_d });
      expect(ettringite!).toBeLessThanOrEqual(mix.gypsum * perGypsum + 1e-9);
      // Carbonation sets free one AH3 per three calcite.
      const freed = (calcite! - mix.limestone) * (156.006 / (3 * 100.086));
      expect(ah3! - freed).toBeLessThanOrEqual(mix.yeelimite * perYeelimite);
    }
  });

  test("the water that the truth gives to all windows does not exceed that of its phases", () => {
    const measured = small.truth.filter(({ kind }) => kind !== "property");
    for (const cell of group(
      measured,
      ({ mix, curing, curing_d, age_d }) => `${mix} ${curing} ${curing_d} ${age_d}`,
    ).values()) {
      const phases = cell.filter(({ kind }) => kind === "phase");
      const water = phases.reduce(
        (sum, { name, per_100g_ignited }) => sum + (theoreticalLosses(name).waterPct * per_100g_ignited!) / 100,
        0,
      );
      const bound = cell.find(({ name }) => name === "bound-water")!.index_step!;
      // 0.7 % of water that the specimen holds back leaves here too, some of it below 50 °C.
      expect(bound).toBeLessThan(water + 1.2);
      expect(bound).toBeGreaterThan(water * 0.97);
    }
  });
});

describe("truth", () => {
  interface Reference {
    sample_mg: number;
    reactions: Reaction[];
    ignited_mg: number;
    indices: Record<string, { step: number; area: number }>;
  }
  /** Adaptive quadrature, SciPy 1.10.1: test/reference/twentyFourRuns.py. */
  const { programme, runs } = readReference<{ programme: Programme; runs: Reference[] }>("twentyFourRuns");

  test.for(runs.map((one, i) => [i + 1, one] as const))(
    "of run %i of 24 is what quadrature gives",
    ([, { sample_mg, reactions, ignited_mg, indices }]) => {
      const truth = trueIndices({ sample_mg, reactions, programme });
      expect(Math.abs(truth.ignited_mg - ignited_mg)).toBeLessThan(1e-8);
      for (const { window, index_step, index_area } of truth.windows) {
        expect(Math.abs(index_step - indices[window]!.step), window).toBeLessThan(1e-7);
        expect(Math.abs(index_area - indices[window]!.area), window).toBeLessThan(1e-6);
      }
    },
  );

  test("is refused where the programme does not reach the ignition temperature", () => {
    const model: Model = {
      sample_mg: 10,
      reactions: [],
      programme: { start_C: 25, segments: [{ to_C: 600, rate_K_per_min: 10 }] },
    };
    expect(() => trueIndices(model)).toThrow(new RangeError("The programme does not reach 945 °C"));
  });
});

describe("through the pipeline", () => {
  const protocol = settle(protocols.csa);
  const results = sheet.rows.map((job) => {
    const bytes = small.files.find(({ name }) => name === job.file)!.bytes;
    return indexBytes(bytes, job, { protocol, mix: mixes.rows.find(({ mix }) => mix === job.mix) ?? null });
  });

  test("every run is read and complete", () => {
    expect(results.map(({ status }) => status)).toEqual(results.map(() => "done"));
  });

  test("one run starts warm and is flagged for it, no other has a flag of its own", () => {
    const flagged = (results as RunDone[]).filter(({ flags }) => flags.length > 0);
    expect(flagged.map(({ file, flags }) => [file, flags.map(({ code }) => code)])).toEqual([
      ["M1-cloth1d-28d-2.txt", ["starts-warm"]],
    ]);
  });

  test("indices of every run lie within four standard uncertainties of what was simulated", () => {
    for (const { file, windows } of results as RunDone[]) {
      const truth = trueIndices(
        small.models[file]!.programme.start_C > 45 ? cold(small.models[file]!) : small.models[file]!,
      );
      for (const { window, index, rule } of windows) {
        const { index_step, index_area } = truth.windows.find((one) => one.window === window)!;
        if ("missing" in index || index.u === null) throw new Error(`${file}, ${window}: no index`);
        const difference = index.value - (rule === "area" ? index_area : index_step);
        expect(Math.abs(difference), `${file}, ${window}`).toBeLessThan(4 * index.u);
      }
    }
  });

  test("specimens of a cell scatter by 2 to 4 %", () => {
    const bound = (run: RunDone) => {
      const { index } = run.windows.find(({ window }) => window === "bound-water")!;
      return "missing" in index ? Number.NaN : index.value;
    };
    const specimens = (results as RunDone[]).filter(({ role }) => role === "specimen");
    const cells = group(specimens, ({ mix, curing, curing_d, age_d }) => `${mix} ${curing} ${curing_d} ${age_d}`);
    const { deviation, df } = pooledDeviation(
      [...cells.values()].map((runs) => runs.map(bound)),
      { relative: true },
    )!;
    expect(df).toBe(24);
    expect(deviation).toBeGreaterThan(0.015);
    expect(deviation).toBeLessThan(0.045);
    expect(mean(specimens.map(bound))).toBeGreaterThan(30);
  });
});

/** The truth needs the band about 50 °C, which the warm run begins inside: a start at 25 °C leaves out nothing that counts there. */
function cold(model: Model): Model {
  return { ...model, programme: { ...model.programme, start_C: 25 } };
}
