import { join, relative, resolve, sep } from "node:path";
import { draftJobs } from "../campaign/draftJobs.ts";
import { draftSheet } from "../campaign/draftSheet.ts";
import { parseMixes } from "../campaign/parseMixes.ts";
import { type NamedText, planRuns } from "../campaign/planRuns.ts";
import { problemText } from "../campaign/problemText.ts";
import { someNames } from "../campaign/someNames.ts";
import type { Plan, Problem } from "../campaign/types.ts";
import type { ColumnOverride } from "../read/types.ts";
import { isOutputTable } from "./isOutputTable.ts";
import { listRunFiles } from "./listRunFiles.ts";
import { noRuns } from "./noRuns.ts";
import { readText } from "./readText.ts";

/** Errors of a run sheet or a mix table: nothing was run. One line of the message for each. */
export class PlanError extends RangeError {
  override name = "PlanError";
  readonly problems: Problem[];

  constructor(problems: Problem[]) {
    super(problems.map(problemText).join("\n"));
    this.problems = problems;
  }
}

/** Options of {@link planFolder}. Relative paths start from `cwd`. */
export interface PlanOptions {
  /** Run sheet. @default sheet.csv of the folder; without one a sheet is drafted from the file names */
  sheet?: string;
  /** Mix table. @default mixes.csv of the folder, where it has one */
  mixes?: string;
  /** Columns of every file whose row in the sheet names none. @default inferred */
  columns?: ColumnOverride[];
  /** Output folder: its outputs are no runs. */
  out?: string;
  /** @default the process's */
  cwd?: string;
  /**
   * Whether a file is complete, while the folder still fills: others are as if they were not there, and rows of the sheet about
   * them wait. @default all are
   */
  isComplete?: (file: string) => boolean;
}

/**
 * What is to be done with a folder: its files, its run sheet and its mix table, read and checked before any run is.
 *
 * @returns A plan without problems; its remarks say what was drafted, left out or concluded.
 * @throws PlanError with every problem of sheet and mixes; FileError for a folder or table that cannot be read, or holds no run.
 */
export async function planFolder(folder: string, options: PlanOptions = {}): Promise<Plan> {
  const { columns = [], cwd = "", isComplete } = options;
  const root = resolve(cwd, folder);
  const listed = await listRunFiles(root, {
    name: folder,
    ...(options.out === undefined ? {} : { out: resolve(cwd, options.out) }),
  });
  const table = (given: string | undefined, own: string | null, wanted: string): NamedText | null => {
    const name = given ?? (own === null ? null : join(folder, own));
    return name === null ? null : { name, text: readText(resolve(cwd, name), { name, wanted }) };
  };
  const sheet = table(options.sheet, listed.sheet, "run sheet");
  const mixes = table(options.mixes, listed.mixes, "mix table");
  const tables = [sheet, mixes].flatMap((one) => (one ? [relative(root, resolve(cwd, one.name))] : []));
  const isRun = (file: string): boolean => !tables.includes(file.replaceAll("/", sep));
  const isThere = (file: string): boolean => isRun(file) && (isComplete?.(file) ?? true);
  const there = listed.runs.filter(isThere);
  // A sheet says itself what is a run; without one a copy of our own tables is none.
  const ours = sheet === null ? there.filter((file) => file.endsWith(".csv") && isOutputTable(join(root, file))) : [];
  const runs = ours.length === 0 ? there : there.filter((file) => !ours.includes(file));
  if (sheet === null && runs.length === 0) throw noRuns(folder, { ...listed, others: [...listed.others, ...ours] });
  const plan = sheet
    ? planRuns({
        sheet,
        ...(mixes ? { mixes } : {}),
        files: [...runs, ...listed.others.filter(isThere)],
        waits: isComplete !== undefined,
      })
    : drafted(runs, mixes, folder);
  if (plan.problems.length > 0) throw new PlanError(plan.problems);
  const leftOut = listed.unusable.filter((file) => !plan.jobs.some((job) => job.file === file));
  return {
    ...plan,
    jobs: plan.jobs.map((job) => (job.columns.length > 0 ? job : { ...job, columns })),
    // Pictures, notes and spreadsheets beside the runs are nobody's mistake.
    unlisted: plan.unlisted.filter((file) => runs.includes(file)),
    remarks: [
      ...plan.remarks,
      ...(ours.length === 0 ? [] : [oursLeftOut(ours, folder)]),
      ...(leftOut.length === 0 ? [] : [unusable(leftOut, folder)]),
    ],
  };
}

/** A plan from the file names alone. */
function drafted(files: readonly string[], mixes: NamedText | null, folder: string): Plan {
  const draft = draftSheet(files);
  const jobs = draftJobs(draft.rows);
  const table = mixes ? parseMixes(mixes.text, { name: mixes.name }) : { rows: [], problems: [] };
  const known = new Set(table.rows.map(({ mix }) => mix));
  const strange = [...new Set(jobs.flatMap(({ mix }) => (mix === null || known.has(mix) ? [] : [mix])))];
  const remarks = [
    "the folder has no sheet.csv: a run sheet was drafted from the file names; print it with the command sheet, finish it and save it as sheet.csv",
    ...draft.remarks,
    ...(mixes && strange.length > 0 ? [`${mixes.name} has no row for ${someNames(strange)}.`] : []),
  ];
  return {
    jobs,
    mixes: table.rows,
    unlisted: [],
    problems: table.problems,
    remarks: remarks.map((message) => ({ source: folder, message })),
  };
}

function oursLeftOut(files: readonly string[], folder: string): Problem {
  const message = `left out, since they are tables that this program wrote: ${someNames(files)}; name them in a run sheet if they are runs`;
  return { source: folder, message };
}

function unusable(files: readonly string[], folder: string): Problem {
  const message = `left out, since they are links or have control characters in their names: ${someNames(files)}; copy or rename them`;
  return { source: folder, message };
}
