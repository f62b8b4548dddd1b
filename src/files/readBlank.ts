import { resolve } from "node:path";
import { readRun } from "../read/readRun.ts";
import type { ColumnOverride, Run } from "../read/types.ts";
import { readBytes } from "./readBytes.ts";

/** The last blank of this thread: a session has one for many runs. */
let last: { file: string; folder: string; run: Run } | null = null;

/**
 * The blank run that a row of the run sheet names.
 *
 * @param options `columns` from the blank's own row; always the same for one file.
 * @throws FileError or UnreadableError that names the blank: the run that needs it fails, since an uncorrected mass in its
 * place would be silently wrong.
 */
export function readBlank(file: string, options: { folder: string; columns: ColumnOverride[] }): Run {
  const { folder, columns } = options;
  if (last?.file === file && last.folder === folder) return last.run;
  const run = readRun(readBytes(resolve(folder, file), { name: file }), { name: file, columns });
  last = { file, folder, run };
  return run;
}
