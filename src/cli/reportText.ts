import type { TableColumn, UnderstoodColumn } from "../read/types.ts";
import { terminalSafe } from "../render/terminalSafe.ts";
import type { FileReport, SegmentReport } from "./fileReport.ts";

const delimiters: Record<string, string> = {
  "\t": "tab",
  ";": "semicolon",
  ",": "comma",
  "|": "bar",
  " ": "blanks",
};

/** How a file was understood, as lines for a terminal. */
export function reportText(report: FileReport): string {
  const { encoding, delimiter, decimal_mark, columns, dropped, segments, flags, error } = report;
  const lines: [string, string][] = [];
  if (encoding !== null) lines.push(["encoding", encoding]);
  if (delimiter !== null) {
    const mark = decimal_mark === "," ? "decimal comma" : "decimal point";
    lines.push(["layout", `${delimiters[delimiter] ?? JSON.stringify(delimiter)}, ${mark}`]);
  }
  for (const column of columns) lines.push(["column", columnText(column)]);
  if (report.rows_read !== null) lines.push(["rows read", String(report.rows_read)]);
  for (const { reason, count, lines: where } of dropped) {
    lines.push([
      "rows dropped",
      `${count} (${reason}), ${where.length === 1 ? "line" : "lines"} ${someLines(where, count)}`,
    ]);
  }
  const { temperature_min_C: low, temperature_max_C: high, initial_mass_mg: mass } = report;
  if (low !== null && high !== null) lines.push(["temperature", `${low.toFixed(1)} to ${high.toFixed(1)} °C`]);
  if (low !== null) lines.push(["initial mass", mass === null ? "unknown" : `${round(mass)} mg`]);
  for (const segment of segments) lines.push(["segment", segmentText(segment)]);
  if (report.noise_ug !== null) lines.push(["noise", `${report.noise_ug.toPrecision(2)} µg`]);
  for (const { code, sentence, advice } of flags) lines.push(["flag", `${code}: ${sentence} ${advice}`]);
  // The sentence goes to stderr, as every message.
  if (error) lines.push(["error", error.code]);
  const width = Math.max(...lines.map(([label]) => label.length));
  return [report.file, ...lines.map(([label, text]) => `  ${label.padEnd(width)}  ${text}`)]
    .map((line) => `${terminalSafe(line)}\n`)
    .join("");
}

function columnText(column: UnderstoodColumn | TableColumn): string {
  const { number, name, unit } = column;
  const written = `${number}${name === "" ? "" : ` "${name}"`}${unit === "" ? "" : ` [${unit}]`}`;
  if (!("quantity" in column)) return written;
  const { quantity, by, reason, confidence } = column;
  if (by === "none") return `${written}: not used`;
  const guess = confidence === undefined ? "" : `, ${confidence} confidence`;
  return `${written}: ${quantity.replaceAll("-", " ")} (by ${by}${reason === undefined ? "" : `: ${reason}`}${guess})`;
}

function segmentText({ kind, from_C, to_C, duration_min, heating_rate_K_per_min: rate, rows }: SegmentReport): string {
  const range = kind === "heating" ? `${from_C.toFixed(1)} to ${to_C.toFixed(1)} °C` : `at ${from_C.toFixed(1)} °C`;
  const speed = kind === "heating" && rate !== null ? `, ${rate.toPrecision(3)} K/min` : "";
  const time = duration_min === null ? "" : `, ${duration_min.toFixed(1)} min`;
  return `${kind} ${range}${speed}${time}, ${rows} rows`;
}

function someLines(lines: readonly number[], count: number): string {
  return `${lines.join(", ")}${count > lines.length ? ", …" : ""}`;
}

function round(value: number): string {
  return String(Number(value.toPrecision(7)));
}
