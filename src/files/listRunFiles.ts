import type { Dirent } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { join, resolve } from "node:path";
import { FileError, fileError } from "./fileError.ts";
import { outputNames } from "./outputNames.ts";
import { unfinishedMark } from "./unfinishedMark.ts";

/** What a folder holds; names are relative to it, with `/`, in code-unit order. */
export interface RunFiles {
  /** Files whose ending says text: the runs, unless a sheet says otherwise. */
  runs: string[];
  /** All other files; a sheet may name them. */
  others: string[];
  /** Left out: links (they may lead anywhere) and names with control characters (no sheet can name them). */
  unusable: string[];
  /** The folder's own run sheet and mix table, where it has them. */
  sheet: string | null;
  mixes: string | null;
}

/** Endings under which programs export tables of numbers as text. */
const textEndings = /\.(?:txt|text|csv|tsv|tab|dat|data|asc|ascii|prn|out|exp|xy)$/i;

/** Endings of the figures that an output folder holds in its folder `figures`. */
const pictures = /\.(?:svg|png)$/;

/** Tables that belong to a folder of runs and are no runs themselves. */
const tables = ["sheet.csv", "mixes.csv", "properties.csv", "truth.csv"];

/** More files than any campaign has: somebody named the wrong folder, perhaps the whole disk. */
const MOST_FILES = 100_000;

/**
 * Lists the files of a folder and of the folders in it. Hidden files and folders (`.name`) and `node_modules` are left out, and
 * so are outputs of this program: files with its output names, and figures, where a campaign.json stands beside them (or waits to be
 * renamed), or in `out`. The tables sheet, mixes, properties and truth (`.csv`) of the folder itself are no runs.
 *
 * @param options `name` of the folder for messages, @default the folder; `out`, the output folder.
 * @throws FileError `not-found`, `not-a-folder`, `no-permission`, `too-many-files`.
 */
export async function listRunFiles(folder: string, options: { name?: string; out?: string } = {}): Promise<RunFiles> {
  const { name = folder } = options;
  await checkFolder(folder, name);
  const out = options.out === undefined ? null : resolve(options.out);
  const found: RunFiles = { runs: [], others: [], unusable: [], sheet: null, mixes: null };
  const open = [""];
  const drawn = new Set<string>();
  let entered = 0;
  for (let below = open.pop(); below !== undefined; below = open.pop()) {
    const here = join(folder, below);
    const entries = await readdir(here, { withFileTypes: true }).catch((error: unknown) => {
      throw fileError(error, below === "" ? name : join(name, below));
    });
    const visible = entries.filter((entry) => !entry.name.startsWith(".") && entry.name !== "node_modules");
    const isOutput = ({ name: file }: Dirent): boolean => file === "campaign.json" || unfinishedMark.test(file);
    const hasOutputs = resolve(here) === out || entries.some(isOutput);
    const own = below === "" ? { sheet: ownTable(visible, "sheet.csv"), mixes: ownTable(visible, "mixes.csv") } : null;
    if (own) Object.assign(found, own);
    for (const entry of visible) {
      const path = below + entry.name;
      if (entry.isDirectory()) {
        open.push(`${path}/`);
        if (hasOutputs && entry.name === "figures") drawn.add(`${path}/`);
      } else if (drawn.has(below) && pictures.test(entry.name)) continue;
      else if (!entry.isFile() || /\p{Cc}/u.test(path)) found.unusable.push(path);
      else if (path === own?.sheet || path === own?.mixes) continue;
      else if (hasOutputs && outputNames.includes(entry.name)) continue;
      else (textEndings.test(path) && !tables.includes(path) ? found.runs : found.others).push(path);
    }
    entered += entries.length;
    if (entered > MOST_FILES) {
      throw new FileError(
        "too-many-files",
        `${name}: More than ${MOST_FILES} files are in this folder. Name the folder that holds the runs only.`,
      );
    }
  }
  for (const list of [found.runs, found.others, found.unusable]) list.sort();
  return found;
}

async function checkFolder(folder: string, name: string): Promise<void> {
  const stats = await stat(folder).catch((error: unknown) => {
    const known = fileError(error, name);
    if (!(known instanceof FileError && known.code === "not-found")) throw known;
    throw new FileError("not-found", `${name}: There is no such folder. Check the path.`, { cause: error });
  });
  if (!stats.isDirectory()) {
    throw new FileError("not-a-folder", `${name}: This is a file, not a folder. Name the folder that holds the runs.`);
  }
}

/** The name exactly, otherwise with other capitals. */
function ownTable(entries: readonly Dirent[], table: string): string | null {
  const names = entries.flatMap((entry) => (entry.isFile() ? [entry.name] : []));
  return names.find((name) => name === table) ?? names.find((name) => name.toLowerCase() === table) ?? null;
}
