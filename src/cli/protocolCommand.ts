import { loadProtocol } from "../files/loadProtocol.ts";
import { planFolder } from "../files/planFolder.ts";
import { schemaText } from "../files/schemaText.ts";
import { settleFolder } from "../files/settleFolder.ts";
import type { SettledProtocol } from "../protocol/types.ts";
import type { Io } from "./io.ts";
import { progressBar } from "./progressBar.ts";
import { say } from "./say.ts";

/** Options of the command `protocol` as commander hands them over. */
export interface ProtocolCommandOptions {
  settle?: string;
  sheet?: string;
  mixes?: string;
  schema?: "protocol" | "campaign";
}

/** Prints a protocol as JSON: a built-in one, one from a file, or one settled on the runs of a folder; or a JSON Schema. */
export async function protocolCommand(name: string, options: ProtocolCommandOptions, io: Io): Promise<number> {
  if (options.schema !== undefined) {
    io.stdout.write(schemaText(options.schema));
    return 0;
  }
  const protocol = loadProtocol(name, { cwd: io.cwd });
  const { settle: folder, schema: _, ...tables } = options;
  if (folder === undefined) return print(protocol);
  const plan = await planFolder(folder, { ...tables, cwd: io.cwd });
  const bar = progressBar(io, "runs");
  const settled = await settleFolder(folder, plan, {
    protocol,
    cwd: io.cwd,
    onProgress: (done, total) => bar.step(done, total),
    ...(io.signal ? { signal: io.signal } : {}),
  }).finally(() => bar.clear());
  say(io, ...findings(settled));
  return print(settled);

  function print(document: object): number {
    io.stdout.write(`${JSON.stringify(document, null, 2)}\n`);
    return 0;
  }
}

/** What became of every edge and every window that was to be parted, one sentence each. */
function findings({ settled }: SettledProtocol): string[] {
  const edges = (settled.edges ?? []).map(({ window, edge, fixed_C, placed_C, prominence }) => {
    const at = `${window}: the ${edge === "from" ? "lower" : "upper"} edge`;
    return placed_C === null
      ? `${at} stays at ${fixed_C} °C: no minimum of the mean DTG is prominent there`
      : `${at} moves from ${fixed_C} to ${placed_C} °C, a minimum ${prominence} standard deviations deep`;
  });
  const parts = (settled.resolved ?? []).map(({ window, at_C, prominence }) =>
    at_C === null
      ? `${window} stays one: its peaks are not resolved in this campaign`
      : `${window} is parted at ${at_C} °C, a minimum ${prominence} standard deviations deep`,
  );
  const smoothing = settled.smoothing
    ? [
        `smoothing: ${settled.smoothing.width_C} °C chosen from the runs; it lowers their sharpest peak by ${settled.smoothing.peak_bias_pct} %`,
      ]
    : [];
  return [`Settled by ${settled.by}`, ...smoothing, ...edges, ...parts];
}
