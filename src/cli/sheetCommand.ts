import { resolve } from "node:path";
import { draftSheet } from "../campaign/draftSheet.ts";
import { isOutputTable } from "../files/isOutputTable.ts";
import { listRunFiles } from "../files/listRunFiles.ts";
import { noRuns } from "../files/noRuns.ts";
import { toJson } from "../render/toJson.ts";
import type { Io } from "./io.ts";
import { printJson } from "./printJson.ts";
import { say } from "./say.ts";

/** Drafts a run sheet: CSV on stdout, what was concluded and what was left blank on stderr. */
export async function sheetCommand(folder: string, options: { json?: boolean }, io: Io): Promise<number> {
  const listed = await listRunFiles(resolve(io.cwd, folder), { name: folder });
  const runs = listed.runs.filter((file) => !(file.endsWith(".csv") && isOutputTable(resolve(io.cwd, folder, file))));
  if (runs.length === 0) throw noRuns(folder, listed);
  const { rows, text, remarks } = draftSheet(runs);
  if (options.json) printJson(io, toJson({ rows, remarks }));
  else io.stdout.write(text);
  say(io, ...remarks);
  return 0;
}
