import { lstat } from "node:fs/promises";
import { join } from "node:path";
import { FileError, fileError } from "./fileError.ts";

/**
 * Holds that folders below an output folder are no links: what is written there would land elsewhere. The output folder itself
 * may be one, since the user names it.
 *
 * @param parts Folders below `folder`, with `/`; those that are missing are fine.
 * @param options `name` of the folder for messages. @default the folder
 * @throws FileError `is-a-link`, or what the system says.
 */
export async function refuseLinks(
  folder: string,
  parts: Iterable<string>,
  options: { name?: string } = {},
): Promise<void> {
  const { name = folder } = options;
  const all = [...parts].flatMap((part) => {
    const steps = part.split("/");
    return steps.map((_, i) => steps.slice(0, i + 1).join("/"));
  });
  for (const below of new Set(all)) {
    if (below === ".") continue;
    const stats = await lstat(join(folder, below)).catch((error: NodeJS.ErrnoException) => {
      if (error.code === "ENOENT" || error.code === "ENOTDIR") return null;
      throw fileError(error, join(name, below));
    });
    if (!stats?.isSymbolicLink()) continue;
    const message = `${join(name, below)}: This is a link, and outputs would land where it leads. Take it away, or name another folder.`;
    throw new FileError("is-a-link", message);
  }
}
