import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import Papa from "papaparse/papaparse.min.js";

/** The tables below a folder: path with `/` → text; none if there is no such folder. */
export function tablesOf(folder: string): Map<string, string> {
  if (!existsSync(folder)) return new Map();
  const paths = readdirSync(folder, { recursive: true, encoding: "utf8" }).map((path) => path.replaceAll("\\", "/"));
  const tables = paths.filter((path) => path.endsWith(".csv")).sort();
  return new Map(tables.map((path) => [path, readFileSync(join(folder, path), "utf8")]));
}

/** Sixteen hexadecimal digits that stand for all names and bytes of some tables. */
export function digestOf(tables: ReadonlyMap<string, string>): string {
  const hash = createHash("sha256");
  for (const [path, text] of tables) hash.update(`${path}\n${text.length}\n${text}`);
  return hash.digest("hex").slice(0, 16);
}

/** What has changed between two sets of tables, a line per file and column, as the changelog wants to know it. */
export function changesOf(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): string[] {
  const changes: string[] = [];
  for (const path of new Set([...before.keys(), ...after.keys()])) {
    const [old, now] = [before.get(path), after.get(path)];
    if (old === undefined) changes.push(`${path}: is new`);
    else if (now === undefined) changes.push(`${path}: is gone`);
    else if (old !== now) changes.push(...changesIn(old, now).map((change) => `${path}: ${change}`));
  }
  return changes;
}

function changesIn(old: string, now: string): string[] {
  const [[headings = [], ...before], [renamed = [], ...after]] = [rowsOf(old), rowsOf(now)];
  if (headings.join() !== renamed.join()) return [`columns ${headings.join()} became ${renamed.join()}`];
  if (before.length !== after.length) return [`${before.length} rows became ${after.length}`];
  return headings.flatMap((heading, column) => {
    const pairs = before.map((row, i) => [row[column]!, after[i]![column]!] as const).filter(([a, b]) => a !== b);
    if (pairs.length === 0) return [];
    const relative = pairs.map(([a, b]) => (a === "" || b === "" ? Number.NaN : Math.abs(Number(b) / Number(a) - 1)));
    const most = Math.max(...relative);
    const [a, b] = pairs[0]!;
    const extent = Number.isFinite(most) ? `, by ${Number((100 * most).toPrecision(2))} % at most` : "";
    return [`${heading} in ${pairs.length} of ${before.length} rows${extent}, first ${a || "empty"} → ${b || "empty"}`];
  });
}

function rowsOf(text: string): string[][] {
  return Papa.parse(text.trimEnd(), { delimiter: ",", newline: "\n" }).data as string[][];
}
