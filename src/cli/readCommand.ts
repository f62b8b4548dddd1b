import { resolve } from "node:path";
import { UnreadableError } from "../errors.ts";
import { FileError } from "../files/fileError.ts";
import { readBytes } from "../files/readBytes.ts";
import type { ColumnOverride } from "../read/types.ts";
import type { KeyOrder } from "../render/keyOrder.ts";
import { toJson } from "../render/toJson.ts";
import { columnsOption } from "./columnsOption.ts";
import { type FileReport, fileReport, unreadReport } from "./fileReport.ts";
import type { Io } from "./io.ts";
import { printJson } from "./printJson.ts";
import { reportText } from "./reportText.ts";
import { say } from "./say.ts";

/** Shows how files are understood. One that cannot be read does not stop the others. */
export async function readCommand(
  files: readonly string[],
  options: { columns?: string; json?: boolean },
  io: Io,
): Promise<number> {
  const columns = columnsOption(options.columns);
  let failed = 0;
  const reports: FileReport[] = [];
  for (const file of files) {
    const report = readOne(file, columns, io);
    if (report.error) {
      failed++;
      say(io, report.error.message);
    }
    if (options.json) reports.push(report);
    else io.stdout.write(`${reportText(report)}\n`);
  }
  if (options.json) printJson(io, `[\n${reports.map((report) => toJson(report, keys)).join(",\n")}\n]`);
  return failed > 0 ? 1 : 0;
}

function readOne(file: string, columns: ColumnOverride[], io: Io): FileReport {
  try {
    return fileReport(readBytes(resolve(io.cwd, file), { name: file }), { name: file, columns });
  } catch (error) {
    if (error instanceof FileError || error instanceof UnreadableError) return unreadReport(file, error);
    throw error;
  }
}

const keys: Record<keyof FileReport, KeyOrder> = {
  file: true,
  encoding: true,
  delimiter: true,
  decimal_mark: true,
  columns: { number: true, name: true, unit: true, quantity: true, by: true, reason: true, confidence: true },
  rows_read: true,
  rows_dropped: true,
  dropped: { reason: true, count: true, lines: true },
  temperature_min_C: true,
  temperature_max_C: true,
  initial_mass_mg: true,
  heating_rate_K_per_min: true,
  noise_ug: true,
  segments: { kind: true, from_C: true, to_C: true, duration_min: true, heating_rate_K_per_min: true, rows: true },
  metadata: true,
  flags: { code: true, severity: true, sentence: true, advice: true },
  error: { code: true, message: true, line: true, column: true },
};
