import { resolve } from "node:path";
import { leftFiles } from "../files/leftFiles.ts";
import { outputFiles } from "../files/outputFiles.ts";
import { indexOutputs } from "../files/outputNames.ts";
import { agesTable } from "../render/agesTable.ts";
import { campaignJson } from "../render/campaignJson.ts";
import { runsNdjson } from "../render/runsNdjson.ts";
import { type FolderOptions, folderCampaign } from "./folderCampaign.ts";
import type { Io } from "./io.ts";
import { prepareOut } from "./prepareOut.ts";
import { printJson } from "./printJson.ts";
import { runsToRepair } from "./runsToRepair.ts";
import { say } from "./say.ts";
import { UsageError } from "./usageError.ts";
import { writePage } from "./writePage.ts";
import { wroteText } from "./wroteText.ts";

/** Options of the command `index` as commander hands them over. */
export interface IndexCommandOptions extends FolderOptions {
  protocol: string;
  figures?: string | false;
  png?: boolean;
  json?: boolean;
  ndjson?: boolean;
  watch?: boolean;
  still?: string;
}

/** The main job: a folder of runs → the per-age table on stdout and, with `--out`, the files of an output folder. */
export async function indexCommand(folder: string, options: IndexCommandOptions, io: Io): Promise<number> {
  if (options.still !== undefined && !options.watch) {
    throw new UsageError("--still: It says how long a watched file must stand still. Add --watch, or leave it out.");
  }
  if (options.png || options.figures) await (await import("./pageFiles.ts")).checkFigures(options);
  if (options.watch) return (await import("./watchCommand.ts")).watchCommand(folder, options, io);
  const { json = false, ndjson = false, figures, png, watch: _watch, still: _still, ...rest } = options;
  const { out } = options;
  const indexed = await folderCampaign(
    folder,
    {
      ...rest,
      async onPlan() {
        await prepareOut(indexOutputs, { ...rest, source: folder }, io);
      },
    },
    io,
  );
  if (indexed === null) return 130;
  const { campaign } = indexed;
  if (json) printJson(io, campaignJson(campaign));
  else if (ndjson) for (const line of runsNdjson(campaign)) printJson(io, line);
  else io.stdout.write(agesTable(campaign));
  const broken = runsToRepair(campaign);
  say(io, ...broken.lines);
  if (out !== undefined) {
    const { plan } = indexed;
    const written = await writePage(campaign, out, {
      choice: { figures: figures ?? "campaign", png: png ?? false },
      page: { sketches: () => indexed.sketches, source: folder, plan },
      files: (further) => outputFiles(indexed, further),
      io,
    });
    if (written === null) return 130;
    const left = await leftFiles(resolve(io.cwd, out), written);
    if (left.length > 0) say(io, `Left in ${out} from before, not written now: ${wroteText(left)}`);
  }
  return broken.count > 0 ? 1 : 0;
}
