import { access, constants, mkdir } from "node:fs/promises";
import { FileError, fileError } from "./fileError.ts";

/**
 * Makes a folder and those above it, where they are missing, and holds that files can be made in it.
 *
 * @param options `name` of the folder for messages. @default the folder
 * @throws FileError where a file is in the way or the system refuses.
 */
export async function makeFolder(folder: string, options: { name?: string } = {}): Promise<void> {
  const { name = folder } = options;
  await mkdir(folder, { recursive: true }).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== "EEXIST" && error.code !== "ENOTDIR") throw fileError(error, name);
    throw new FileError("not-a-folder", `${name}: A file is in the way. Name a folder.`, { cause: error });
  });
  await access(folder, constants.W_OK).catch((error: unknown) => {
    throw fileError(error, name);
  });
}
