import { readdir } from "node:fs/promises";
import { FileError, fileError } from "./fileError.ts";

/**
 * Holds that a folder can be filled: it is missing or empty. Nobody's files are to be mixed with ours or overwritten.
 *
 * @param options `name` of the folder for messages. @default the folder
 * @throws FileError `not-empty`, `not-a-folder`, or what the system says.
 */
export async function checkEmpty(folder: string, options: { name?: string } = {}): Promise<void> {
  const { name = folder } = options;
  const entries = await readdir(folder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT") return [];
    if (error.code !== "ENOTDIR") throw fileError(error, name);
    throw new FileError("not-a-folder", `${name}: A file is in the way. Name a folder.`, { cause: error });
  });
  if (entries.length === 0) return;
  const count = entries.length === 1 ? "one file" : `${entries.length} files`;
  throw new FileError("not-empty", `${name}: The folder is not empty (${count}). Name a new or an empty one.`);
}
