import { lstat } from "node:fs/promises";
import { join, resolve } from "node:path";
import { parseProperties } from "../compare/parseProperties.ts";
import type { PropertyRow } from "../compare/types.ts";
import { PlanError } from "./planFolder.ts";
import { readText } from "./readText.ts";

/**
 * A table of properties.
 *
 * @param given Path of the table; without one properties.csv of the folder is taken, where it has one.
 * @param options `folder` of the runs, null for none; `cwd` that relative paths start from. @default the process's
 * @returns null where there is none.
 * @throws PlanError with every problem of the table; FileError where it cannot be read.
 *
 * @example
 * ```ts
 * import { readProperties } from "tg-hydrates/node";
 * const found = await readProperties(undefined, { folder: "fixtures/example" });
 * if (found === null || found.rows.length === 0) throw new Error("properties.csv of the folder");
 * ```
 */
export async function readProperties(
  given: string | undefined,
  options: { folder: string | null; cwd?: string },
): Promise<{ name: string; rows: PropertyRow[] } | null> {
  const { folder, cwd = "" } = options;
  const own = folder === null ? null : join(folder, "properties.csv");
  const name = given ?? (own !== null && (await isFile(resolve(cwd, own))) ? own : null);
  if (name === null) return null;
  const text = readText(resolve(cwd, name), { name, wanted: "table of properties" });
  const { rows, problems } = parseProperties(text, { name });
  if (problems.length > 0) throw new PlanError(problems);
  return { name, rows };
}

/** A link is not followed where nobody named it, as everywhere in a folder of runs. */
function isFile(path: string): Promise<boolean> {
  return lstat(path).then(
    (stats) => stats.isFile(),
    () => false,
  );
}
