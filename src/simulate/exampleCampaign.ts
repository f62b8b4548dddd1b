import { type SeededRandom, seededRandom } from "../numerics/seededRandom.ts";
import { encodeText } from "./encodeText.ts";
import {
  type ExampleBalance,
  type ExampleCuring,
  type ExampleMix,
  exampleBalances,
  exampleCurings,
  exampleMixes,
} from "./exampleDesign.ts";
import { exampleProperties, type PropertyCell } from "./exampleProperties.ts";
import { exampleReadme } from "./exampleReadme.ts";
import { exampleSpecimen } from "./exampleSpecimen.ts";
import { exampleTables } from "./exampleTables.ts";
import { asWeighed, exampleProgramme, exampleTruth, type TruthRow } from "./exampleTruth.ts";
import { formatExport } from "./formatExport.ts";
import { type PhaseAmounts, phaseReactions } from "./phaseReactions.ts";
import { simulateRun } from "./simulateRun.ts";
import type { Model } from "./types.ts";
import { withPreamble } from "./withPreamble.ts";

/** A file of the example. */
export interface ExampleFile {
  /** Name inside the folder. */
  name: string;
  bytes: Uint8Array<ArrayBuffer>;
}

/** An invented campaign with its known truth. */
export interface ExampleCampaign {
  /** Runs, `sheet.csv`, `mixes.csv`, `properties.csv`, `truth.csv` and `README.md`, in code-unit order of their names. */
  files: ExampleFile[];
  /** What was simulated for each run, by file name. */
  models: Record<string, Model>;
  /** What is true of each cell: the rows of `truth.csv`. */
  truth: TruthRow[];
}

/** Extent of an example. */
export interface ExampleOptions {
  /**
   * `small`: one mix in two regimes at four ages, in two more once or twice, and a second mix once; `full`: two mixes, six regimes, up
   * to five ages. @default "full"
   */
  size?: "small" | "full";
  /** Specimens per cell. @default 3 */
  specimens?: number;
  /** Readings per run. @default 1000 small, 3000 full */
  rows?: number;
}

/**
 * Invents a campaign: mixes, curing regimes, ages and specimens of calcium sulfoaluminate paste whose hydrates are known,
 * simulated on three balances that write in three ways, with the run sheet, the mix table and the strength and length change that
 * belong to them, and the truth in a file of its own. Specimens scatter by about 3 %; one run starts warm and deserves its flag.
 *
 * @param seed The same seed gives the same bytes.
 * @returns Files to be written to one folder, and what was simulated.
 * @example
 * ```ts
 * import { exampleCampaign } from "tg-hydrates";
 * const { files, truth } = exampleCampaign(7, { size: "small", rows: 50 });
 * if (!files.some(({ name }) => name === "sheet.csv")) throw new Error("the run sheet is among the files");
 * if (!truth.some(({ name }) => name === "ettringite")) throw new Error("the truth knows the phases");
 * ```
 */
export function exampleCampaign(seed: number | string, options: ExampleOptions = {}): ExampleCampaign {
  const { size = "full", specimens = 3, rows = size === "small" ? 1000 : 3000 } = options;
  const cells = size === "small" ? smallDesign() : fullDesign();
  const warmCell = size === "small" ? 7 : cells.length - 2;
  const models: Record<string, Model> = {};
  const files: ExampleFile[] = [];
  const sheet = [sheetColumns];

  const add = (
    run: { name: string; amounts: PhaseAmounts; balance: ExampleBalance; warm?: boolean },
    row: SheetRow,
  ) => {
    const { balance, warm = false } = run;
    const file = `${run.name}.${balance.ending}`;
    const random = seededRandom(`${seed}/${file}/mass`);
    const sample_mg = Math.round((28 + 6 * random.uniform()) * 1000) / 1000;
    const programme = warm ? { ...exampleProgramme, start_C: 49 } : exampleProgramme;
    const model: Model = { sample_mg, reactions: phaseReactions(asWeighed(run.amounts)), programme };
    const { layout, ending: _, balance: name, ...errors } = balance;
    const simulated = simulateRun(model, { rows, seed: `${seed}/${file}`, temperature_noise_C: 0.03, ...errors });
    models[file] = model;
    files.push({ name: file, bytes: formatExport(simulated, withPreamble(layout, run.name, sample_mg)) });
    sheet.push([file, ...row, name, sample_mg.toFixed(2), "nitrogen", "alumina", warm ? "furnace was still warm" : ""]);
  };

  cells.forEach(({ mix, curing, age_d }, c) => {
    const regime = curing.curing_d === null ? curing.curing : `${curing.curing}${curing.curing_d}d`;
    const cell = `${mix.mix}-${regime}-${ageName(age_d)}`;
    for (let s = 1; s <= specimens; s++) {
      const name = `${cell}-${s}`;
      const scatter = scatterOf(seededRandom(`${seed}/${name}/specimen`));
      // Every cell is spread over the balances, so that their errors do not pass for differences between cells.
      const balance = exampleBalances[(s + c) % exampleBalances.length]!;
      const session = `S${String(1 + Math.floor(c / 4)).padStart(2, "0")}`;
      const row: SheetRow = [
        mix.mix,
        curing.curing,
        `${curing.curing_d ?? ""}`,
        `${age_d}`,
        `${cell}-${s}`,
        "specimen",
        session,
      ];
      const warm = c === warmCell && s === 2;
      add({ name, amounts: exampleSpecimen(mix, curing, { age_d, scatter }), balance, warm }, row);
    }
  });
  const mixes = exampleMixes.filter((mix) => cells.some((cell) => cell.mix === mix));
  mixes.forEach((mix, m) => {
    const balance = exampleBalances[m % exampleBalances.length]!;
    add({ name: `${mix.mix}-binder`, amounts: binderOf(mix), balance }, [mix.mix, "", "", "", "", "binder", "S01"]);
  });

  const properties = exampleProperties(size === "small" ? smallProperties() : cells, { seed, specimens });
  const truth = [...cells.flatMap(({ mix, curing, age_d }) => exampleTruth(mix, curing, age_d)), ...properties.truth];
  for (const [name, text] of Object.entries({
    ...exampleTables({ sheet, mixes, properties: properties.rows, truth }),
    "README.md": exampleReadme({ specimens, rows }),
  })) {
    files.push({ name, bytes: encodeText(text, "utf-8") });
  }
  files.sort((a, b) => (a.name < b.name ? -1 : 1));
  return { files, models, truth };
}

function smallDesign(): PropertyCell[] {
  const [first, second] = exampleMixes as [ExampleMix, ExampleMix];
  const [sealed, ponded, cloth1, , cloth7] = exampleCurings as [
    ExampleCuring,
    ExampleCuring,
    ExampleCuring,
    ExampleCuring,
    ExampleCuring,
  ];
  const of = (curing: ExampleCuring, ages: number[]) => ages.map((age_d) => ({ mix: first, curing, age_d }));
  return [
    ...of(sealed, [1, 3, 7, 28]),
    ...of(cloth1, [1, 3, 7, 28]),
    { mix: second, curing: sealed, age_d: 28 },
    ...of(ponded, [7, 28]),
    ...of(cloth7, [28]),
  ];
}

/** Specimens are broken more often than a balance is run: every regime at every age from one day on. */
function smallProperties(): PropertyCell[] {
  const [first, second] = exampleMixes as [ExampleMix, ExampleMix];
  const cells = exampleCurings.flatMap((curing) =>
    curing.ages_d.filter((age_d) => age_d >= 1).map((age_d) => ({ mix: first, curing, age_d })),
  );
  return [...cells, { mix: second, curing: exampleCurings[0]!, age_d: 28 }];
}

function fullDesign(): PropertyCell[] {
  return exampleMixes.flatMap((mix) =>
    exampleCurings.flatMap((curing) => curing.ages_d.map((age_d) => ({ mix, curing, age_d }))),
  );
}

/** Content and progress of one specimen: together about 3 % on an index. */
function scatterOf(random: SeededRandom): { content: number; progress: number } {
  const bounded = (z: number) => Math.min(Math.max(z, -3), 3);
  return { content: 1 + 0.025 * bounded(random.normal()), progress: 1 + 0.015 * bounded(random.normal()) };
}

function binderOf({ yeelimite, belite, gypsum, anhydrite, inert, limestone }: ExampleMix): PhaseAmounts {
  return { yeelimite, belite, gypsum, anhydrite, inert, calcite: limestone };
}

function ageName(age_d: number): string {
  return age_d < 1 ? `${Math.round(age_d * 24)}h` : `${age_d}d`;
}

/** mix, curing, curing_d, age_d, specimen, role, session. */
type SheetRow = [string, string, string, string, string, string, string];

const sheetColumns = [
  "file",
  "mix",
  "curing",
  "curing_d",
  "age_d",
  "specimen",
  "role",
  "session",
  "balance",
  "initial_mass_mg",
  "gas",
  "crucible",
  "note",
];
