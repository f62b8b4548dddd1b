import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { outputNames } from "./outputNames.ts";

/**
 * Tables, page and figures that stand in an output folder from before and were not written this time: they may be of other runs.
 *
 * @param written Names that were written.
 * @returns Names as `writeOutputs` takes them.
 */
export async function leftFiles(folder: string, written: readonly string[]): Promise<string[]> {
  const list = (path: string): Promise<string[]> => readdir(path).catch(() => []);
  const tables = new Set(await list(folder));
  const figures = (await list(join(folder, "figures"))).filter((name) => /\.(?:svg|png)$/.test(name)).sort();
  return [...outputNames.filter((name) => tables.has(name)), ...figures.map((name) => `figures/${name}`)].filter(
    (name) => !written.includes(name),
  );
}
