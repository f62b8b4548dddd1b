import { existsSync } from "node:fs";
import { readdir, readFile, realpath } from "node:fs/promises";
import { join, relative, sep } from "node:path";
import { FileError } from "./fileError.ts";
import { unfinishedMark } from "./unfinishedMark.ts";

/** What must not be lost. Paths are absolute. */
export interface Precious {
  /** Folder of the runs; null where there is none. */
  runs: string | null;
  /** Files that are read, such as the run sheet: path and the name that the user gave. */
  inputs: readonly { path: string; name: string }[];
}

/**
 * Holds that no output will be written over what is read: over a file that was named as an input, or, inside the folder of the
 * runs, over a file that nothing shows to be an output of ours (no campaign.json and no datapackage.json of ours stands beside it).
 *
 * @param out The output folder; it exists.
 * @param names Names of the outputs.
 * @param options `name` of the output folder for messages.
 * @throws FileError `would-overwrite`.
 */
export async function checkOverwrite(
  out: string,
  names: readonly string[],
  { name: shown, runs, inputs }: Precious & { name: string },
): Promise<void> {
  const folder = await realpath(out);
  for (const { path, name } of inputs) {
    const real = await realpath(path).catch(() => null);
    const over = names.find((output) => real === join(folder, output));
    if (over === undefined) continue;
    throw new FileError("would-overwrite", `--out ${shown}: ${over} would overwrite ${name}. Name another folder.`);
  }
  const root = runs === null ? null : await realpath(runs).catch(() => null);
  if (root === null || !isWithin(root, folder)) return;
  const there = await readdir(folder);
  if (there.some((file) => file === "campaign.json" || unfinishedMark.test(file))) return;
  if (/"program":\s*"tg-hydrates"/.test(await readFile(join(folder, "datapackage.json"), "utf8").catch(() => "")))
    return;
  const over = names.find((output) => existsSync(join(folder, output)));
  if (over === undefined) return;
  const sentence = `${join(shown, over)} stands in the folder of the runs and may be an input; it would be overwritten.`;
  throw new FileError("would-overwrite", `--out ${shown}: ${sentence} Name another folder, or move that file.`);
}

function isWithin(root: string, folder: string): boolean {
  const way = relative(root, folder);
  return way === "" || !(way === ".." || way.startsWith(`..${sep}`) || way.includes(":"));
}
