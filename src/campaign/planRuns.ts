import { nearestName } from "../nearestName.ts";
import type { Job } from "../protocol/types.ts";
import { checkBlanks } from "./checkBlanks.ts";
import { checkLabels } from "./checkLabels.ts";
import { checkSpecimens } from "./checkSpecimens.ts";
import { curingNamed } from "./curingNamed.ts";
import { filePath } from "./filePath.ts";
import { parseMixes } from "./parseMixes.ts";
import { parseSheet } from "./parseSheet.ts";
import type { Plan, Problem } from "./types.ts";

/** A small table as the caller read it. */
export interface NamedText {
  /** As it shall stand in messages. */
  name: string;
  text: string;
}

/** Names compared with one another when looking for similar ones: more would take seconds. */
const MOST_COMPARISONS = 100_000;

/**
 * Run sheet, mix table and the names in the folder → what is to be done. Every error of sheet and mixes is found here, before a
 * file is read; while there is one nothing should be run.
 *
 * @param input.sheet Run sheet, see `parseSheet`.
 * @param input.mixes Mix table, see `parseMixes`; without it mixes are only names.
 * @param input.files Names of the folder's files, relative to it; the sheet and the mix table may be among them.
 * @param input.waits Rows whose file, or whose blank run, is not there yet are left out and are no problem. @default false
 * @returns Jobs in the order of the sheet, with the folder's own spelling of each file; the files that the sheet leaves out;
 * problems (sheet first, by line) and remarks.
 *
 * @example
 * ```ts
 * import { planRuns } from "tg-hydrates";
 * const sheet = { name: "sheet.csv", text: "file,age_d\na.txt,7\n" };
 * const { problems } = planRuns({ sheet, files: ["b.txt"] });
 * if (problems[0]!.line !== 2) throw new Error("a.txt of line 2 is missing");
 * ```
 */
export function planRuns(input: {
  sheet: NamedText;
  mixes?: NamedText;
  files: readonly string[];
  waits?: boolean;
}): Plan {
  const { sheet, mixes, files, waits = false } = input;
  const parsed = parseSheet(sheet.text, { name: sheet.name });
  const fromSheet = waits ? { ...parsed, rows: presentRows(parsed.rows, files) } : parsed;
  const fromMixes = mixes ? parseMixes(mixes.text, { name: mixes.name }) : { rows: [], problems: [] };
  const faulty = new Set(fromSheet.problems.map(({ line }) => line));
  const found = findFiles(fromSheet.rows, files, sheet.name);
  const specimens = checkSpecimens(
    found.jobs.filter(({ line }) => !faulty.has(line)),
    sheet.name,
  );
  const problems = [
    ...fromSheet.problems,
    ...found.problems,
    ...checkBlanks(found.jobs, sheet.name),
    ...checkLabels(found.jobs, mixes ? fromMixes.rows : null, { sheet: sheet.name, mixes: mixes?.name ?? "" }),
    ...specimens.problems,
  ].sort((a, b) => (a.line ?? 0) - (b.line ?? 0));
  const listed = new Set(found.jobs.map(({ file }) => file));
  return {
    jobs: found.jobs,
    mixes: fromMixes.rows,
    unlisted: files.filter((file) => !listed.has(file) && file !== sheet.name && file !== mixes?.name).sort(),
    problems: [...problems, ...fromMixes.problems],
    remarks: [...curingNamed(found.jobs, sheet.name), ...specimens.remarks],
  };
}

/** Rows whose file and blank run are in the folder. */
function presentRows(rows: readonly Job[], files: readonly string[]): Job[] {
  const there = new Set(files.map(keyOf));
  return rows.filter(({ file, blank }) => there.has(keyOf(file)) && (blank === null || there.has(keyOf(blank))));
}

/** Gives every job the folder's spelling of its file. Sheets and file systems may compose accents differently. */
function findFiles(
  rows: readonly Job[],
  files: readonly string[],
  source: string,
): { jobs: Job[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const byName = new Map(files.map((file) => [keyOf(file), file]));
  // Two files may differ in how their accents are composed only: then the sheet's own spelling counts.
  const there = new Set(files);
  const spelling = (file: string): string => (there.has(file) ? file : (byName.get(keyOf(file)) ?? file));
  const firstLine = new Map<string, number>();
  let compared = 0;
  const jobs = rows.map((row) => {
    const { line } = row;
    const job = { ...row, file: spelling(row.file), blank: row.blank === null ? null : spelling(row.blank) };
    if (row.specimen === row.file) job.specimen = job.file;
    const wrong = (message: string): void => void problems.push({ source, line, column: "file", message });
    const shown = JSON.stringify(row.file);
    const before = firstLine.get(job.file);
    if (before !== undefined) wrong(`the file ${shown} stands in line ${before} already: keep one row for each file`);
    else firstLine.set(job.file, line);
    if (!byName.has(keyOf(row.file))) {
      compared += files.length;
      const nearest = nearestFile(row.file, compared > MOST_COMPARISONS ? [] : files);
      const help =
        nearest === null ? "correct the name or take the row out" : `did you mean ${JSON.stringify(nearest)}?`;
      wrong(`the file ${shown} is not in the folder: ${help}`);
    }
    return job;
  });
  return { jobs, problems };
}

function keyOf(file: string): string {
  const path = filePath(file);
  return ("file" in path ? path.file : file).normalize("NFC");
}

function nearestFile(file: string, files: readonly string[]): string | null {
  const capitals = files.find((other) => other.toLowerCase() === file.toLowerCase());
  return capitals ?? nearestName(file, files, { atMost: 3 });
}
