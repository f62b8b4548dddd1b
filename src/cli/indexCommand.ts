import { resolve } from "node:path";
import { problemText } from "../campaign/problemText.ts";
import { someNames } from "../campaign/someNames.ts";
import type { Plan } from "../campaign/types.ts";
import { indexFolder } from "../files/indexFolder.ts";
import { makeFolder } from "../files/makeFolder.ts";
import { outputFiles } from "../files/outputFiles.ts";
import { writeOutputs } from "../files/writeOutputs.ts";
import { agesTable } from "../render/agesTable.ts";
import { campaignJson } from "../render/campaignJson.ts";
import { columnsOption } from "./columnsOption.ts";
import type { Io } from "./io.ts";
import { printJson } from "./printJson.ts";
import { progressBar } from "./progressBar.ts";
import { runsToRepair } from "./runsToRepair.ts";
import { say } from "./say.ts";

/** Options of the command `index` as commander hands them over. */
export interface IndexCommandOptions {
  sheet?: string;
  mixes?: string;
  protocol: string;
  out?: string;
  figures: boolean;
  jobs?: number;
  columns?: string;
  json?: boolean;
}

/** The main job: a folder of runs → the per-age table on stdout and, with `--out`, the files of an output folder. */
export async function indexCommand(folder: string, options: IndexCommandOptions, io: Io): Promise<number> {
  const { columns, json = false, out, figures: _later, ...rest } = options;
  const bar = progressBar(io, "runs");
  let progress = "before the first run";
  const indexed = await indexFolder(folder, {
    ...rest,
    columns: columnsOption(columns),
    cwd: io.cwd,
    ...(out === undefined ? {} : { out }),
    ...(io.signal ? { signal: io.signal } : {}),
    async onPlan(plan) {
      say(io, ...remarksOf(plan, options.sheet ?? "the run sheet"));
      // A folder that cannot be made is better known before the work than after it.
      if (out !== undefined) await makeFolder(resolve(io.cwd, out), { name: out });
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
  if (indexed === null) {
    say(io, `Stopped ${progress}. Nothing was written.`);
    return 130;
  }
  const { campaign, stacks } = indexed;
  if (json) printJson(io, campaignJson(campaign));
  else io.stdout.write(agesTable(campaign));
  const broken = runsToRepair(campaign);
  say(io, ...broken.lines);
  if (io.env.TG_HYDRATES_DEBUG) say(io, ...stacks);
  if (out !== undefined) {
    const files = outputFiles(indexed);
    await writeOutputs(resolve(io.cwd, out), files, { name: out });
    say(io, `Wrote ${files.map(({ name }) => name).join(", ")} to ${out}`);
  }
  return broken.count > 0 ? 1 : 0;
}

function remarksOf({ remarks, unlisted }: Plan, sheet: string): string[] {
  const lines = remarks.map(problemText);
  if (unlisted.length > 0) {
    const files = unlisted.length === 1 ? "1 file" : `${unlisted.length} files`;
    lines.push(`Left out, since ${sheet} does not list them: ${files} (${someNames(unlisted, { most: 10 })})`);
  }
  return lines;
}
