import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { checkOverwrite } from "../files/checkOverwrite.ts";
import { makeFolder } from "../files/makeFolder.ts";
import { refuseLinks } from "../files/refuseLinks.ts";
import type { FolderOptions } from "./folderCampaign.ts";
import type { Io } from "./io.ts";

/**
 * Makes the output folder and holds that the outputs can be written there without loss: better known before the work than after it.
 *
 * @param source Folder of the runs; null where there is none.
 * @throws FileError where it cannot be made or written to, or an input would be overwritten, or its folder of figures is a link.
 */
export async function prepareOut(
  names: readonly string[],
  { source, out, sheet, mixes, protocol }: FolderOptions & { source: string | null },
  { cwd }: Io,
): Promise<void> {
  if (out === undefined) return;
  const folder = resolve(cwd, out);
  await makeFolder(folder, { name: out });
  await refuseLinks(folder, ["figures"], { name: out });
  const figures = join(folder, "figures");
  if (existsSync(figures)) await makeFolder(figures, { name: join(out, "figures") });
  const inputs = [sheet, mixes, protocol].flatMap((name) =>
    name === undefined ? [] : [{ path: resolve(cwd, name), name }],
  );
  await checkOverwrite(folder, names, { name: out, runs: source === null ? null : resolve(cwd, source), inputs });
}
