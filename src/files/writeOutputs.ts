import { randomBytes } from "node:crypto";
import type { BigIntStats } from "node:fs";
import { open, readdir, rename, stat, unlink } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { filePath } from "../campaign/filePath.ts";
import { FileError, fileError } from "./fileError.ts";
import { makeFolder } from "./makeFolder.ts";
import { refuseLinks } from "./refuseLinks.ts";
import { unfinishedMark } from "./unfinishedMark.ts";

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
/** Outputs stand in the folder itself and in this one. */
const FIGURES = "figures";

/**
 * Writes files into a folder, which is made where it is missing. Each is written completely under a temporary name in the same folder
 * and then renamed; all are written before the first is renamed. Whatever happens, no file under a final name is half
 * written, and temporary files are taken away again (those of a killed process by a later call, once they are an hour old; they are
 * hidden and never read as runs). Of two processes that write into one folder the last wins, file by file; if what stands
 * there in the end is of both, at least one of them throws.
 *
 * @param options `name` of the folder for messages, @default the folder; `signal` stops the writing until the first file is
 * renamed, and nothing is changed then.
 * @throws FileError where the system refuses, or another process wrote the same files at the same time; `outside` for a name that
 * leaves the folder, `is-a-link` where a folder below it is a link; the reason of the signal. A link under the name of an output is
 * replaced, what it leads to stays; the folder itself may be a link.
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
  options: { name?: string; signal?: AbortSignal } = {},
): Promise<void> {
  const { name: shown = folder, signal } = options;
  for (const { name } of files) {
    const path = filePath(name);
    if ("file" in path && path.file === name) continue;
    throw new FileError("outside", `${join(shown, name)}: An output must lie in its folder. Give it a plain name.`);
  }
  await makeFolder(folder, { name: shown });
  const parts = new Set([".", FIGURES, ...files.map(({ name }) => dirname(name))]);
  const written = new Set([".", ...files.map(({ name }) => dirname(name))]);
  await refuseLinks(folder, written, { name: shown });
  for (const part of written) {
    if (part !== ".") await makeFolder(join(folder, part), { name: join(shown, part) });
  }
  // The mark of outputs that a killed process left without campaign.json stays until ours is there.
  for (const part of parts) await removeAbandoned(join(folder, part), (name) => !unfinishedMark.test(name));
  for (const { name } of files) await refuseFolder(join(folder, name), join(shown, name));
  const temporary: { path: string; stats?: BigIntStats }[] = [];
  try {
    for (const { name, content } of files) {
      const path = join(folder, dirname(name), `.${basename(name)}.${randomBytes(6).toString("hex")}.tmp`);
      const one: (typeof temporary)[number] = { path };
      temporary.push(one);
      one.stats = await writeComplete(path, content, signal).catch((error: unknown) => {
        throw fileError(error, join(shown, name));
      });
    }
    signal?.throwIfAborted();
    for (const [i, { name }] of files.entries()) {
      await rename(temporary[i]!.path, join(folder, name)).catch((error: unknown) => {
        throw fileError(error, join(shown, name));
      });
    }
    for (const part of written) await syncFolder(join(folder, part));
  } finally {
    // After a rename the temporary name is gone: nothing is left to take away.
    for (const { path } of temporary) await unlink(path).catch(() => undefined);
  }
  for (const part of parts) await removeAbandoned(join(folder, part), () => true);
  for (const [i, { name }] of files.entries()) {
    if (await isOurs(join(folder, name), temporary[i]!.stats!)) continue;
    throw new FileError(
      "two-writers",
      `${join(shown, name)}: Another program wrote or removed this file at the same time: the files there may not belong together. Run this again.`,
    );
  }
}

/** Before anything is changed, so that no half of the files is new and the other old. */
async function refuseFolder(path: string, shown: string): Promise<void> {
  const isFolder = await stat(path).then(
    (stats) => stats.isDirectory(),
    () => false,
  );
  if (isFolder) throw new FileError("is-a-folder", `${shown}: This is a folder, not a file. Name a file.`);
}

/**
 * Whether the file is the one that was written. Whoever renames last sees the work of all, so that no mixture goes unseen. Some
 * network drives number their files anew at every look: only a file that also differs in size or time is another one.
 */
async function isOurs(path: string, { ino, size, mtimeMs }: BigIntStats): Promise<boolean> {
  const now = await stat(path, { bigint: true }).catch(() => null);
  return now !== null && (now.ino === ino || (now.size === size && now.mtimeMs === mtimeMs));
}

/** Writes a file that must not exist yet and waits until it is on the disk. */
async function writeComplete(
  path: string,
  content: OutputFile["content"],
  signal: AbortSignal | undefined,
): Promise<BigIntStats> {
  const file = await open(path, "wx");
  try {
    const write = async (bytes: Uint8Array): Promise<void> => {
      for (let written = 0; written < bytes.length; ) written += (await file.write(bytes, written)).bytesWritten;
    };
    const pieces = typeof content === "string" || content instanceof Uint8Array ? [content] : content;
    const gathered = Buffer.allocUnsafe(TOGETHER);
    let size = 0;
    const flush = async (): Promise<void> => {
      signal?.throwIfAborted();
      await write(gathered.subarray(0, size));
      size = 0;
    };
    for (const piece of pieces) {
      const length = typeof piece === "string" ? Buffer.byteLength(piece) : piece.length;
      if (size + length > TOGETHER) await flush();
      if (length > TOGETHER) {
        signal?.throwIfAborted();
        await write(typeof piece === "string" ? Buffer.from(piece) : piece);
      } else if (typeof piece === "string") size += gathered.write(piece, size);
      else {
        gathered.set(piece, size);
        size += length;
      }
    }
    await flush();
    await file.sync();
    return await file.stat({ bigint: true });
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

async function removeAbandoned(folder: string, which: (name: string) => boolean): Promise<void> {
  for (const name of await readdir(folder).catch(() => [])) {
    if (!temporaryName.test(name) || !which(name)) continue;
    const path = join(folder, name);
    const age = await stat(path).then(
      ({ mtimeMs }) => Date.now() - mtimeMs,
      () => 0,
    );
    if (age > ABANDONED) await unlink(path).catch(() => undefined);
  }
}
