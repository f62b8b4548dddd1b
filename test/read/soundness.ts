import type { UnreadableError } from "../../src/errors.ts";
import type { Run } from "../../src/read/types.ts";

const plainNumber = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3})?$/;

/** What is wrong with a run that was read from some bytes; empty where nothing is. */
export function faultsOf(run: Run, bytes: Uint8Array): string[] {
  const { temperature, mass, time, lines, reading, flags } = run;
  const count = reading.rows_read;
  const faults: string[] = [];
  const hold = (holds: boolean, fault: string): void => {
    if (!holds) faults.push(fault);
  };
  hold(
    [temperature, mass, lines, time ?? lines].every(({ length }) => length === count),
    "lengths differ",
  );
  hold(
    [temperature, mass, time ?? mass].every((values) => values.every(Number.isFinite)),
    "a number is not finite",
  );
  hold(time === null || time.every((value, i) => i === 0 || value >= time[i - 1]!), "time decreases");
  hold(
    lines.every((line, i) => i === 0 || line > lines[i - 1]!),
    "lines are out of order",
  );
  hold(Number.isFinite(run.massResolution + run.temperatureResolution), "a resolution is not finite");
  const dropped = reading.rows_dropped.reduce((sum, entry) => sum + entry.count, 0);
  const evident = evidentRows(bytes, run);
  hold(evident <= count + dropped, `${evident} evident rows, but only ${count} read and ${dropped} dropped`);
  const costly = reading.rows_dropped.some(({ reason }) => !/^text |heading/.test(reason));
  hold(!costly || flags.some(({ code }) => code === "rows-dropped"), "rows were dropped without a flag");
  for (const { sentence } of flags) hold(!/NaN|undefined|Infinity/.test(sentence), `sentence: ${sentence}`);
  return faults;
}

/** Lines that anybody would call complete rows of this table: as many plain numbers as it has columns. */
function evidentRows(bytes: Uint8Array, run: Run): number {
  const { encoding, delimiter, decimal_mark, columns } = run.reading;
  const text = new TextDecoder(encoding).decode(bytes);
  const isNumber = (cell: string): boolean => {
    const trimmed = cell.trim();
    const usual = decimal_mark === "," ? trimmed.replace(",", ".") : trimmed;
    return (
      !(decimal_mark === "," && trimmed.includes(".")) && plainNumber.test(usual) && Number.isFinite(Number(usual))
    );
  };
  return text.split(/\r\n|\n|\r/).filter((line) => {
    const cells = delimiter === " " ? line.trim().split(/[ \t]+/) : line.split(delimiter);
    return cells.length === columns.length && cells.every(isNumber);
  }).length;
}

/** What is wrong with an error's message. */
export function faultsOfError({ code, message }: UnreadableError, name: string): string[] {
  const faults: string[] = [];
  if (!/^[a-z-]+$/.test(code)) faults.push(`code ${code}`);
  if (!message.startsWith(name)) faults.push(`no file: ${message}`);
  if (/NaN|undefined|\[object/.test(message)) faults.push(`message: ${message}`);
  if (message.length > 20_000) faults.push(`message of ${message.length} characters`);
  return faults;
}
