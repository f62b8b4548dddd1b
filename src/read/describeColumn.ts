import type { TableColumn } from "./types.ts";

/** Of a longer name the beginning is shown. */
const longest = 60;

/** A column as a person would point at it: `2 "Temp." [°C]`. */
export function describeColumn({ number, name, unit }: TableColumn): string {
  const title = name.length > longest ? `${name.slice(0, longest)}…` : name;
  return `${number}${title === "" ? "" : ` "${title}"`}${unit === "" ? "" : ` [${unit}]`}`;
}
