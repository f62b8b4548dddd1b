import { randomBytes } from "node:crypto";
import { open, readdir, rename, stat, unlink } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { filePath } from "../campaign/filePath.ts";
import { FileError, fileError } from "./fileError.ts";
import { makeFolder } from "./makeFolder.ts";
import { refuseLinks } from "./refuseLinks.ts";

/** A file to be written. */
export interface OutputFile {
  /** Name in the output folder; with `/` in a folder below it. */
  name: string;
  /** Text, bytes, or pieces of text one after another. */
  content: string | Uint8Array | Iterable<string | Uint8Array>;
}

/** A temporary file this old was left by a process that died, ms. */
const ABANDONED = 3_600_000;
/** Small pieces are written together, bytes. */
const TOGETHER = 1 << 20;
const temporaryName = /^\..+\.[0-9a-f]{12}\.tmp$/;

/**
 * Writes files into a folder, which is made where it is missing. Each is written completely under a temporary name in the same folder
 * and then renamed; all are written before the first is renamed. Whatever happens, no file under a final name is half
 * written, and temporary files are taken away again (those of a killed process by the next call, an hour later).
 *
 * @param options `name` of the folder for messages. @default the folder
 * @throws FileError where the system refuses; `outside` for a name that leaves the folder, `is-a-link` where a folder below it is a
 * link. A link under the name of an output is replaced, what it leads to stays; the folder itself may be a link.
 *
 * @example
 * ```ts
 * import { writeOutputs } from "tg-hydrates/node";
 * await writeOutputs("out/doc-example", [{ name: "note.txt", content: "complete or not at all\n" }]);
 * ```
 */
export async function writeOutputs(
  folder: string,
  files: readonly OutputFile[],
  options: { name?: string } = {},
): Promise<void> {
  const { name: shown = folder } = options;
  for (const { name } of files) {
    const path = filePath(name);
    if ("file" in path && path.file === name) continue;
    throw new FileError("outside", `${join(shown, name)}: An output must lie in its folder. Give it a plain name.`);
  }
  await makeFolder(folder, { name: shown });
  const parts = new Set(files.map(({ name }) => dirname(name)));
  await refuseLinks(folder, parts, { name: shown });
  parts.add(".");
  for (const part of parts) {
    if (part !== ".") await makeFolder(join(folder, part), { name: join(shown, part) });
    await removeAbandoned(join(folder, part));
  }
  const temporary: string[] = [];
  try {
    for (const { name, content } of files) {
      const path = join(folder, dirname(name), `.${basename(name)}.${randomBytes(6).toString("hex")}.tmp`);
      temporary.push(path);
      await writeComplete(path, content).catch((error: unknown) => {
        throw fileError(error, join(shown, name));
      });
    }
    for (const [i, { name }] of files.entries()) {
      await rename(temporary[i]!, join(folder, name)).catch((error: unknown) => {
        throw fileError(error, join(shown, name));
      });
    }
    for (const part of parts) await syncFolder(join(folder, part));
  } finally {
    // After a rename the temporary name is gone: nothing is left to take away.
    for (const path of temporary) await unlink(path).catch(() => undefined);
  }
}

/** Writes a file that must not exist yet and waits until it is on the disk. */
async function writeComplete(path: string, content: OutputFile["content"]): Promise<void> {
  const file = await open(path, "wx");
  try {
    const write = async (bytes: Uint8Array): Promise<void> => {
      for (let written = 0; written < bytes.length; ) written += (await file.write(bytes, written)).bytesWritten;
    };
    const pieces = typeof content === "string" || content instanceof Uint8Array ? [content] : content;
    let waiting: Uint8Array[] = [];
    let size = 0;
    for (const piece of pieces) {
      const bytes = typeof piece === "string" ? Buffer.from(piece) : piece;
      waiting.push(bytes);
      size += bytes.length;
      if (size < TOGETHER) continue;
      await write(Buffer.concat(waiting));
      [waiting, size] = [[], 0];
    }
    await write(Buffer.concat(waiting));
    await file.sync();
  } finally {
    await file.close();
  }
}

/** So that the renaming itself outlives a power cut; some systems cannot do it to a folder. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, "r").catch(() => null);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}

async function removeAbandoned(folder: string): Promise<void> {
  for (const name of await readdir(folder).catch(() => [])) {
    if (!temporaryName.test(name)) continue;
    const path = join(folder, name);
    const age = await stat(path).then(
      ({ mtimeMs }) => Date.now() - mtimeMs,
      () => 0,
    );
    if (age > ABANDONED) await unlink(path).catch(() => undefined);
  }
}
