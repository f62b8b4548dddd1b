import type { Measured } from "../measured.ts";
import { decimalsFor, fixed } from "../render/decisionWords.ts";
import { shortNumber } from "./shortNumber.ts";

/** Numbers of a list that are written out; more of them nobody reads in a cell. */
const MOST = 6;
/** Characters of an object that are written out. */
const LONGEST = 80;

/**
 * A value of a row as a person reads it: numbers in 4 digits, a measured number with its standard uncertainty, a missing one
 * with its reason, flags by their codes. What is missing altogether is an empty cell.
 */
export function cellText(value: unknown): string {
  if (value === null || value === undefined) return "";
  if (typeof value === "number") return shortNumber(value);
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "string") return value;
  if (value instanceof Date) return Number.isNaN(value.getTime()) ? "" : value.toISOString();
  if (Array.isArray(value) || (ArrayBuffer.isView(value) && !(value instanceof DataView))) {
    const items = [...(value as ArrayLike<unknown> & Iterable<unknown>)];
    const shown = items.slice(0, MOST).map(cellText).join("; ");
    return items.length > MOST ? `${shown}; … (${items.length})` : shown;
  }
  if (typeof value !== "object") return String(value);
  if (isMeasured(value)) return measuredText(value);
  if ("code" in value && typeof value.code === "string") return value.code;
  return shortJson(value);
}

function isMeasured(value: object): value is Measured {
  if ("missing" in value) return typeof value.missing === "string";
  return "value" in value && typeof value.value === "number" && "u" in value && "terms" in value;
}

function measuredText(measured: Measured): string {
  if ("missing" in measured) return `— (${measured.missing})`;
  const { value, u } = measured;
  if (u === null) return shortNumber(value);
  const decimals = decimalsFor([u]);
  return `${fixed(value, decimals)} ± ${fixed(u, decimals)}`;
}

function shortJson(value: object): string {
  let text: string;
  try {
    text = JSON.stringify(value) ?? "";
  } catch {
    // Rings and numbers without end have no JSON.
    text = "(an object)";
  }
  return text.length > LONGEST ? `${text.slice(0, LONGEST - 1)}…` : text;
}
