import { resolve } from "node:path";
import { checkEmpty } from "../files/checkEmpty.ts";
import { writeOutputs } from "../files/writeOutputs.ts";
import { exampleCampaign } from "../simulate/exampleCampaign.ts";
import type { Io } from "./io.ts";
import { say } from "./say.ts";

/** Writes the invented campaign into a folder of its own. */
export async function exampleCommand(
  dir: string,
  options: { seed: number; size: "small" | "full" },
  io: Io,
): Promise<number> {
  const { seed, size } = options;
  const folder = resolve(io.cwd, dir);
  await checkEmpty(folder, { name: dir });
  const { files } = exampleCampaign(seed, { size });
  await writeOutputs(
    folder,
    files.map(({ name, bytes }) => ({ name, content: bytes })),
    { name: dir, ...(io.signal ? { signal: io.signal } : {}) },
  );
  const shown = /^[\w./-]+$/.test(dir) ? dir : JSON.stringify(dir);
  say(
    io,
    `Wrote ${files.length} files to ${dir}: an invented campaign with sheet.csv and mixes.csv; its truth is in truth.csv`,
    `Next: tg-hydrates index ${shown} --out results`,
    `then: tg-hydrates compare ${shown} --reference sealed --margin 10% --out results`,
  );
  return 0;
}
