import { problemText } from "../campaign/problemText.ts";
import { someNames } from "../campaign/someNames.ts";
import type { Plan } from "../campaign/types.ts";
import { type IndexedFolder, indexFolder } from "../files/indexFolder.ts";
import { columnsOption } from "./columnsOption.ts";
import type { Io } from "./io.ts";
import { progressBar } from "./progressBar.ts";
import { say } from "./say.ts";

/** Options of a command that indexes a folder. */
export interface FolderOptions {
  sheet?: string;
  mixes?: string;
  protocol?: string;
  out?: string;
  jobs?: number;
  columns?: string;
}

/**
 * Indexes a folder with progress and remarks on stderr.
 *
 * @param options `onPlan` is told what will be done, before a run is read.
 * @returns null where the user stopped it, which is said.
 */
export async function folderCampaign(
  folder: string,
  options: FolderOptions & { onPlan?: (plan: Plan) => Promise<void> },
  io: Io,
): Promise<IndexedFolder | null> {
  const { columns, onPlan, ...rest } = options;
  const bar = progressBar(io, "runs");
  let progress = "before the first run";
  const indexed = await indexFolder(folder, {
    ...rest,
    columns: columnsOption(columns),
    cwd: io.cwd,
    ...(io.signal ? { signal: io.signal } : {}),
    async onPlan(plan) {
      say(io, ...remarksOf(plan, options.sheet ?? "the run sheet"));
      await onPlan?.(plan);
    },
    onProgress(count, total) {
      progress = `after ${count} of ${total} runs`;
      bar.step(count, total);
    },
  })
    .catch((error: unknown) => {
      if (!io.signal?.aborted) throw error;
      return null;
    })
    .finally(() => bar.clear());
  if (indexed === null) say(io, `Stopped ${progress}. Nothing was written.`);
  else if (io.env.TG_HYDRATES_DEBUG) say(io, ...indexed.stacks);
  return indexed;
}

function remarksOf({ remarks, unlisted }: Plan, sheet: string): string[] {
  const lines = remarks.map(problemText);
  if (unlisted.length > 0) {
    const files = unlisted.length === 1 ? "1 file" : `${unlisted.length} files`;
    lines.push(`Left out, since ${sheet} does not list them: ${files} (${someNames(unlisted, { most: 10 })})`);
  }
  return lines;
}
