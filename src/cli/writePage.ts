import { resolve } from "node:path";
import type { Campaign } from "../campaign/types.ts";
import { type OutputFile, writeOutputs } from "../files/writeOutputs.ts";
import type { Io } from "./io.ts";
import type { FigureChoice, PageInput } from "./pageFiles.ts";
import { progressBar } from "./progressBar.ts";
import { say } from "./say.ts";
import { wroteText } from "./wroteText.ts";

/**
 * Draws the figures, makes the page and writes an output folder, and says so.
 *
 * @param options `files` of the folder, given figures and page.
 * @returns Names of what was written; null where the user stopped it before anything was written, which is said.
 */
export async function writePage(
  campaign: Campaign,
  out: string,
  options: { choice: FigureChoice; page: PageInput; files: (further: OutputFile[]) => OutputFile[]; io: Io },
): Promise<string[] | null> {
  const { choice, page: input, files: all, io } = options;
  const signal = io.signal ? { signal: io.signal } : {};
  try {
    const { pageFiles } = await import("./pageFiles.ts");
    const bar = progressBar(io, "figures");
    const page = await pageFiles(campaign, choice, { ...input, ...signal, onProgress: bar.step }).finally(bar.clear);
    if (page.missing !== null) say(io, page.missing);
    const files = all(page.files);
    await writeOutputs(resolve(io.cwd, out), files, { name: out, ...signal });
    const names = files.map(({ name }) => name);
    say(io, `Wrote ${wroteText(names)} to ${out}`);
    return names;
  } catch (error) {
    if (!io.signal?.aborted || error !== io.signal.reason) throw error;
    const { length } = campaign.runs;
    say(io, `Stopped after all ${length} runs, before ${out} was written. Nothing there was changed.`);
    return null;
  }
}
