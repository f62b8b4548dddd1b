import type { Run } from "../read/types.ts";
import { cellText } from "./cellText.ts";
import { flagLines } from "./flagLines.ts";
import { shortNumber } from "./shortNumber.ts";
import type { ShowOptions, View } from "./types.ts";

/** How a run was understood: its columns, its range, what the file states, what was found. */
export function runView(run: Run, { caption }: ShowOptions = {}): View {
  const { reading, temperature, mass, massUnit, time, initialMass } = run;
  const end = temperature.length - 1;
  const columns = reading.columns.map(({ number, name, unit, quantity, by }) => {
    const written = `${number}${name === "" ? "" : ` ${JSON.stringify(name)}`}${unit === "" ? "" : ` [${unit}]`}`;
    return ["column", `${written}: ${by === "none" ? "not used" : `${quantity.replaceAll("-", " ")} (by ${by})`}`];
  });
  const dropped = reading.rows_dropped.map(({ reason, count, lines }) => [
    "rows dropped",
    `${count} (${reason}), line ${lines.join(", ")}${count > lines.length ? ", …" : ""}`,
  ]);
  const duration = time === null || time.length === 0 ? [] : [["duration", `${shortNumber(time[end]! / 60)} min`]];
  const rows = [
    ["encoding", reading.encoding],
    ["decimal mark", reading.decimal_mark],
    ...columns,
    ["readings", cellText(temperature.length)],
    ...dropped,
    ["temperature", `${shortNumber(temperature[0]!)} to ${shortNumber(temperature[end]!)} °C`],
    ["mass", `${shortNumber(mass[0]!)} to ${shortNumber(mass[end]!)} ${massUnit}`],
    ["initial mass", initialMass === null ? "unknown" : `${shortNumber(initialMass)} mg`],
    ...duration,
  ];
  return [
    { caption: caption ?? `Run ${run.source.name}`, columns: [{ heading: "" }, { heading: "" }], rows, heads: 1 },
    ...flagLines(run.flags),
  ];
}
