import { resolve } from "node:path";
import { summarise } from "../campaign/summarise.ts";
import type { Campaign, Plan } from "../campaign/types.ts";
import type { Sketch } from "../curve/sketch.ts";
import { checkProtocol } from "../protocol/checkProtocol.ts";
import { protocols } from "../protocol/protocols.ts";
import type { Protocol, RunResult } from "../protocol/types.ts";
import { chooseThreads } from "./chooseThreads.ts";
import { FileError } from "./fileError.ts";
import { holdFolder } from "./holdFolder.ts";
import { loadProtocol } from "./loadProtocol.ts";
import type { FileJob } from "./measureFile.ts";
import { measureNew, type Remembered } from "./measureNew.ts";
import { type PlanOptions, planFolder } from "./planFolder.ts";
import { settleFolder } from "./settleFolder.ts";

/** Options of {@link indexFolder}. */
export interface IndexFolderOptions extends PlanOptions {
  /** A protocol, the name of a built-in one, or the path of a JSON file. @default "csa" */
  protocol?: Protocol | string;
  /** Worker threads; 1 for none. @default by the size of the work, at most one per core */
  jobs?: number;
  /** Results that are taken again where file, row, mix and protocol are the same: {@link Remembered}. @default none */
  remembered?: Remembered;
  /** Is told what will be done, before a run is read; what it throws stops everything. */
  onPlan?: (plan: Plan) => void | Promise<void>;
  /** Is told after every run how many are done. */
  onProgress?: (done: number, total: number) => void;
  /** Stops the work; the promise is then rejected with the signal's reason. */
  signal?: AbortSignal;
}

/** What a folder gave. */
export interface IndexedFolder {
  campaign: Campaign;
  plan: Plan;
  /** TG and DTG of every run for the eye, in the order of the campaign's runs; failed runs have none. Made anew at each use. */
  readonly sketches: (Sketch & { file: string })[];
  /** Lines of campaign.json and of curves.ndjson, UTF-8, as the workers have written them. */
  written: { runs: ReadonlyMap<RunResult, Uint8Array>; curves: readonly Uint8Array[] };
  /** Where unexpected errors of this program came from. */
  stacks: string[];
}

/**
 * A folder of runs → campaign: plans, measures every file and averages the cells. Files that cannot be read are failed runs of
 * the campaign; the others are complete. Nothing is written.
 *
 * @param folder Holds the runs, and usually sheet.csv and mixes.csv; relative to `cwd`.
 * @returns The same to the byte for any number of jobs.
 * @throws PlanError, ProtocolError or FileError where nothing could be done; RangeError for a number of jobs below 1.
 *
 * @example
 * ```ts
 * import { agesTable, indexFolder } from "tg-hydrates/node";
 * const { campaign } = await indexFolder("fixtures/example");
 * if (campaign.ages.length === 0 || agesTable(campaign) === "") throw new Error("the example has ages");
 * ```
 */
export async function indexFolder(folder: string, options: IndexFolderOptions = {}): Promise<IndexedFolder> {
  const { jobs, cwd = "" } = options;
  if (jobs !== undefined && !(Number.isInteger(jobs) && jobs >= 1)) {
    throw new RangeError(`Give a whole number of jobs from 1 on, not ${jobs}`);
  }
  const held = await holdFolder(resolve(cwd, folder));
  try {
    const indexed = await indexHeld(folder, options);
    if (await held.isThere()) return indexed;
  } finally {
    await held.release();
  }
  const message = `${folder}: The folder was removed, moved or replaced while it was read. Run this again.`;
  throw new FileError("replaced", message);
}

async function indexHeld(folder: string, options: IndexFolderOptions): Promise<IndexedFolder> {
  const { protocol = protocols.csa, jobs, remembered, onPlan, onProgress, signal, cwd = "" } = options;
  const asked = checkProtocol(typeof protocol === "string" ? loadProtocol(protocol, { cwd }) : protocol);
  const plan = await planFolder(folder, options);
  await onPlan?.(plan);
  const settled = await settleFolder(folder, plan, {
    protocol: asked,
    cwd,
    ...(onProgress ? { onProgress } : {}),
    ...(signal ? { signal } : {}),
  });
  const root = resolve(cwd, folder);
  const mixes = new Map(plan.mixes.map((mix) => [mix.mix, mix]));
  const threads =
    jobs ??
    (await chooseThreads(
      plan.jobs.map(({ file }) => file),
      root,
    ));
  const columnsOf = new Map(plan.jobs.map((job) => [job.file, job.columns]));
  const fileJobs = plan.jobs.map(
    (job): FileJob => ({
      job,
      mix: (job.mix === null ? null : mixes.get(job.mix)) ?? null,
      blankColumns: (job.blank === null ? null : columnsOf.get(job.blank)) ?? [],
    }),
  );
  const measured = await measureNew(fileJobs, {
    ...(remembered ? { remembered } : {}),
    folder: root,
    protocol: settled,
    threads,
    ...(onProgress ? { onProgress } : {}),
    ...(signal ? { signal } : {}),
  });
  const campaign = summarise(
    measured.map(({ result }) => result),
    { protocol: settled, mixes: plan.mixes },
  );
  const drawn = new Map(measured.map(({ result, curve }) => [result.file, curve]));
  const curves = campaign.runs.flatMap(({ file }) => drawn.get(file) ?? []);
  return {
    campaign,
    plan,
    get sketches() {
      const text = new TextDecoder();
      return curves.map((line): Sketch & { file: string } => JSON.parse(text.decode(line)));
    },
    written: { runs: new Map(measured.map(({ result, line }) => [result, line])), curves },
    stacks: measured.flatMap(({ stack }) => stack ?? []),
  };
}
