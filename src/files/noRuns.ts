import { someNames } from "../campaign/someNames.ts";
import { FileError } from "./fileError.ts";
import type { RunFiles } from "./listRunFiles.ts";

/** The error for a folder without a run; says what it holds instead. */
export function noRuns(folder: string, { others, unusable }: Pick<RunFiles, "others" | "unusable">): FileError {
  const rest = [...others, ...unusable];
  const files = rest.length === 1 ? "one file of another kind" : `${rest.length} files of other kinds`;
  const what = rest.length === 0 ? "The folder holds no runs." : `The folder holds ${files} only (${someNames(rest)}).`;
  const advice = "Put the runs into it, exported as text (.txt, .csv, .tsv, .dat, .asc …).";
  return new FileError("no-runs", `${folder}: ${what} ${advice}`);
}
