import { resolve } from "node:path";
import { outputFiles } from "../files/outputFiles.ts";
import { indexOutputs } from "../files/outputNames.ts";
import { watchFolder } from "../files/watchFolder.ts";
import { writeOutputs } from "../files/writeOutputs.ts";
import { agesTable } from "../render/agesTable.ts";
import { columnsOption } from "./columnsOption.ts";
import type { IndexCommandOptions } from "./indexCommand.ts";
import type { Io } from "./io.ts";
import { prepareOut } from "./prepareOut.ts";
import { runsToRepair } from "./runsToRepair.ts";
import { say } from "./say.ts";
import { UsageError } from "./usageError.ts";

/** `index --watch`: the main job again and again while a balance fills the folder, until the user stops it. */
export async function watchCommand(folder: string, options: IndexCommandOptions, io: Io): Promise<number> {
  const { out, columns, figures, png, json, ndjson, watch: _, still, ...rest } = options;
  if (json || ndjson)
    throw new UsageError("--watch: The table is printed when the watch ends. Leave out --json and --ndjson.");
  const still_s = still === undefined ? 3 : Number(still);
  if (!(still_s > 0 && still_s <= 3600)) throw new UsageError(`--still ${still}: Give seconds above 0 and up to 3600.`);
  await prepareOut(indexOutputs, { ...options, source: folder }, io);
  const signal = io.signal ?? new AbortController().signal;
  say(io, `Watching ${folder}. A file is read once it has not changed for ${still_s} s. End with Ctrl+C.`);
  let table = "";
  let repair: string[] = [];
  const { runs, trouble } = await watchFolder(folder, {
    ...rest,
    ...(out === undefined ? {} : { out }),
    columns: columnsOption(columns),
    cwd: io.cwd,
    still_s,
    signal,
    async onCampaign(indexed, { added, changed, gone }) {
      const { campaign, plan } = indexed;
      if (out !== undefined) {
        const { pageFiles } = await import("./pageFiles.ts");
        const page = await pageFiles(
          campaign,
          { figures: figures ?? "campaign", png: png ?? false },
          { sketches: () => indexed.sketches, source: folder, plan, signal },
        );
        if (page.missing !== null) say(io, page.missing);
        await writeOutputs(resolve(io.cwd, out), outputFiles(indexed, page.files), { name: out, signal });
      }
      // Said and counted once it is written.
      const failed = new Map(
        campaign.runs.flatMap((run) => (run.status === "failed" ? [[run.file, run.error.message]] : [])),
      );
      for (const [word, files] of Object.entries({ Indexed: added, "Indexed again": changed, Gone: gone })) {
        for (const file of files) say(io, failed.has(file) ? `Failed: ${failed.get(file)}` : `${word}: ${file}`);
      }
      table = agesTable(campaign);
      const broken = runsToRepair(campaign);
      repair = broken.count > 0 ? broken.lines : [];
    },
    onTrouble: (message) => say(io, `Waiting: ${message}`),
  });
  io.stdout.write(table);
  const written = out === undefined || runs === 0 ? "." : `; ${out} is complete.`;
  const waits = trouble === null ? written : `; what came after them waits: ${trouble}`;
  if (trouble !== null && runs === 0) {
    say(io, `Stopped before any run was indexed: ${trouble}`);
    return 2;
  }
  say(io, ...repair, `Stopped with ${runs} runs indexed${waits}`);
  return trouble !== null || repair.length > 0 ? 1 : 0;
}
