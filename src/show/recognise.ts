import type { Decisions } from "../campaign/decisions.ts";
import type { Campaign } from "../campaign/types.ts";
import type { Sketch } from "../curve/sketch.ts";
import type { Curve } from "../curve/types.ts";
import type { IndexedFolder } from "../files/indexFolder.ts";
import type { Protocol, RunResult } from "../protocol/types.ts";
import type { Run, Table } from "../read/types.ts";
import type { Figure } from "../render/figures/types.ts";
import type { Row } from "./gridOf.ts";

/** A value with the name of what it is. */
export type Recognised =
  | { kind: "text"; value: string }
  | { kind: "figures"; value: readonly Figure[] }
  | { kind: "curve"; value: Curve }
  | { kind: "sketch"; value: Sketch & { file?: string } }
  | { kind: "run"; value: Run }
  | { kind: "table"; value: Table }
  | { kind: "result"; value: RunResult }
  | { kind: "results"; value: readonly RunResult[] }
  | { kind: "campaign"; value: Campaign }
  | { kind: "folder"; value: IndexedFolder }
  | { kind: "decisions"; value: Decisions }
  | { kind: "protocol"; value: Protocol }
  | { kind: "rows"; value: readonly Row[] };

/** What each of our objects has that no other has. */
const marks = {
  figures: ["spec", "alt", "title"],
  curve: ["run", "dtg", "pieces"],
  sketch: ["temperature_C", "mass_pct", "dtg_pct_per_C"],
  run: ["temperature", "massUnit", "reading"],
  table: ["columns", "values", "decimalMark", "lines"],
  folder: ["campaign", "plan", "sketches"],
  decisions: ["asked", "contrasts", "sufficient"],
} as const;

/**
 * Tells what a value is.
 *
 * @throws TypeError for anything that cannot be shown, with what can be done instead.
 */
export function recognise(value: unknown): Recognised {
  if (typeof value === "string") return { kind: "text", value };
  if (Array.isArray(value)) return listOf(value);
  if (typeof value !== "object" || value === null) throw notShown(nameOf(value));
  for (const [kind, keys] of Object.entries(marks)) {
    if (!keys.every((key) => key in value)) continue;
    return { kind, value: kind === "figures" ? [value] : value } as Recognised;
  }
  if (isResult(value)) return { kind: "result", value };
  const schema = "schema" in value && typeof value.schema === "string" ? value.schema : "";
  if (schema.startsWith("tg-hydrates/campaign/")) return { kind: "campaign", value: value as Campaign };
  if (schema.startsWith("tg-hydrates/protocol/")) return { kind: "protocol", value: value as Protocol };
  if (ArrayBuffer.isView(value))
    throw notShown(nameOf(value), "bytes of a file become a run by readRun(bytes, { name })");
  throw notShown(nameOf(value), "put a single row into a list: show([row])");
}

function listOf(list: readonly unknown[]): Recognised {
  const odd = list.findIndex((item) => typeof item !== "object" || item === null || !isRow(item));
  if (odd >= 0) {
    throw notShown(`a list whose item ${odd} is ${nameOf(list[odd])}`, "a table is a list of objects, one per row");
  }
  if (list.length > 0 && list.every((item) => has(item, marks.figures))) {
    return { kind: "figures", value: list as readonly Figure[] };
  }
  if (list.length > 0 && list.every(isResult)) return { kind: "results", value: list };
  return { kind: "rows", value: list as readonly Row[] };
}

function isRow(item: object): boolean {
  return !Array.isArray(item) && !ArrayBuffer.isView(item) && !(item instanceof Promise);
}

function has(item: unknown, keys: readonly string[]): boolean {
  return typeof item === "object" && item !== null && keys.every((key) => key in item);
}

function isResult(item: unknown): item is RunResult {
  return has(item, ["file", "status", "specimen"]) && (has(item, ["windows"]) || has(item, ["error"]));
}

function nameOf(value: unknown): string {
  if (value === undefined) return "nothing (undefined)";
  if (value === null) return "nothing (null)";
  if (typeof value === "number" || typeof value === "boolean" || typeof value === "bigint") return `${value}`;
  if (typeof value === "function") return `the function ${value.name === "" ? "without a name" : value.name}`;
  if (typeof value === "symbol") return "a symbol";
  if (Array.isArray(value)) return "a list";
  if (value instanceof Promise) return "a promise (await it first)";
  if (ArrayBuffer.isView(value))
    return `a ${value.constructor.name} of ${(value as { length?: number }).length ?? value.byteLength}`;
  const keys = Object.keys(value);
  const some = `${keys.slice(0, 5).join(", ")}${keys.length > 5 ? ", …" : ""}`;
  return keys.length === 0 ? "an object without keys" : `an object with ${some}`;
}

function notShown(what: string, instead?: string): TypeError {
  const can =
    "show takes a run, its result, a curve, a sketch, a table (a list of objects, a CSV text), a figure, a campaign, an indexed folder, decisions or a protocol";
  return new TypeError(`${can}, not ${what}${instead === undefined ? "" : `; ${instead}`}`);
}
