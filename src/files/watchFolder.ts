import { stat } from "node:fs/promises";
import { join, resolve } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { ProtocolError } from "../protocol/checkProtocol.ts";
import { FileError } from "./fileError.ts";
import { type IndexedFolder, type IndexFolderOptions, indexFolder } from "./indexFolder.ts";
import { listRunFiles } from "./listRunFiles.ts";
import type { Remembered } from "./measureNew.ts";
import { PlanError } from "./planFolder.ts";

/** Options of {@link watchFolder}. */
export interface WatchOptions extends IndexFolderOptions {
  /** A file is complete once it has not changed for so long, s: longer than a balance pauses while it writes. @default 3 */
  still_s?: number;
  /** The folder is looked at this often, s. @default 0.5 */
  every_s?: number;
  /** Is given the campaign whenever files came, changed or went, or sheet or mixes did. */
  onCampaign: (indexed: IndexedFolder, news: WatchNews) => void | Promise<void>;
  /** Is told what keeps the campaign from being made or taken, once for each reason; it is tried again. */
  onTrouble: (message: string) => void;
  /** Ends the watch. */
  signal: AbortSignal;
}

/** What was new in a look at the folder: names of files. */
export interface WatchNews {
  added: string[];
  changed: string[];
  gone: string[];
}

/**
 * Indexes a folder while a balance fills it. The folder is looked at again and again (network drives send no events); a file that
 * still grows waits, and so do the rows of the sheet about files that are not there yet. Only what is new is measured; sheet and
 * mixes may be edited meanwhile. Ends when the signal is aborted.
 *
 * @returns How many runs the last campaign had that `onCampaign` took, and what kept a later one back.
 * @throws What the callbacks throw, but for the refusals of the file system: what could not be written is tried again.
 */
export async function watchFolder(
  folder: string,
  options: WatchOptions,
): Promise<{ runs: number; trouble: string | null }> {
  const { still_s = 3, every_s = 0.5, onCampaign, onTrouble, signal, cwd = "", ...rest } = options;
  const root = resolve(cwd, folder);
  const seen = new Map<string, { stamp: string; since: number }>();
  let indexed = new Map<string, string>();
  let state = "";
  let trouble: string | null = null;
  let runs = 0;
  const isStill = (file: string): boolean => {
    const one = seen.get(file);
    return one !== undefined && performance.now() - one.since >= 1000 * still_s;
  };
  const results: Remembered["results"] = new Map();
  const places = { root, folder, out: options.out === undefined ? undefined : resolve(cwd, options.out) };
  while (!signal.aborted) {
    let patience = 1;
    try {
      await look(seen, places);
      const complete = new Map([...seen].filter(([file]) => isStill(file)).map(([file, { stamp }]) => [file, stamp]));
      const tables = await Promise.all(
        [options.sheet ?? join(folder, "sheet.csv"), options.mixes ?? join(folder, "mixes.csv")].map((name) =>
          stampOf(resolve(cwd, name)),
        ),
      );
      const now = JSON.stringify([[...complete].sort(), tables]);
      if (complete.size > 0 && now !== state) {
        const made = await indexFolder(folder, {
          ...rest,
          cwd,
          signal,
          isComplete: (file) => complete.has(file),
          remembered: { results, stampOf: (file) => complete.get(file) ?? null },
        });
        // What changed while it was read was not complete after all: its turn comes when it stands still again.
        await look(seen, places);
        // Its result was remembered under the old stamp and is never asked for again.
        const stood = [...complete].every(([file, stamp]) => seen.get(file)?.stamp === stamp);
        if (stood) {
          const taken = new Map(made.campaign.runs.map(({ file }) => [file, complete.get(file) ?? ""]));
          const news = {
            added: [...taken.keys()].filter((file) => !indexed.has(file)),
            changed: [...taken]
              .filter(([file, stamp]) => indexed.has(file) && indexed.get(file) !== stamp)
              .map(([file]) => file),
            gone: [...indexed.keys()].filter((file) => !taken.has(file)),
          };
          // Drawing and writing are not to be tried twice in a second.
          patience = 10;
          await onCampaign(made, news);
          [state, indexed, runs, patience] = [now, taken, taken.size, 1];
        }
      }
      trouble = null;
    } catch (error) {
      if (signal.aborted) break;
      const known = error instanceof PlanError || error instanceof FileError || error instanceof ProtocolError;
      if (!known) throw error;
      if (error.message !== trouble) onTrouble(error.message);
      trouble = error.message;
    }
    await pause(1000 * every_s * patience, undefined, { signal }).catch(() => undefined);
  }
  return { runs, trouble };
}

/** Brings up to date what is known of the files; one that changed begins to wait anew. */
async function look(
  seen: Map<string, { stamp: string; since: number }>,
  { root, folder, out }: { root: string; folder: string; out: string | undefined },
): Promise<void> {
  const { runs, others } = await listRunFiles(root, { name: folder, ...(out === undefined ? {} : { out }) });
  const there = new Set([...runs, ...others]);
  for (const file of seen.keys()) if (!there.has(file)) seen.delete(file);
  for (const file of there) {
    const stamp = await stampOf(join(root, file));
    // An empty file has been opened and not yet written.
    if (stamp === null || stamp.startsWith("0 ")) seen.delete(file);
    else if (seen.get(file)?.stamp !== stamp) seen.set(file, { stamp, since: performance.now() });
  }
}

/** Size and times of the last change, of content and of name or owner (a file put in place of another); null for a file that is not there. */
function stampOf(path: string): Promise<string | null> {
  return stat(path).then(
    ({ size, mtimeMs, ctimeMs }) => `${size} ${mtimeMs} ${ctimeMs}`,
    () => null,
  );
}
