import { compareKeys } from "../campaign/compareKeys.ts";
import { scatterOf } from "../campaign/scatterOf.ts";
import { meanTerms, specimensOf } from "../campaign/specimensOf.ts";
import type { Campaign } from "../campaign/types.ts";
import { perRun } from "../campaign/uncertaintyOfCell.ts";
import type { Term } from "../measured.ts";
import { mean } from "../numerics/mean.ts";
import { combineTerms } from "../phases/combineTerms.ts";
import type { RunDone, WindowResult } from "../protocol/types.ts";
import { cellKey } from "./cellKey.ts";
import type { ComparedCell } from "./types.ts";

/** How an index is taken from a window of a run: by its own rule, or otherwise to see what the choice changes. */
export type PickIndex = (window: WindowResult) => { value: number; terms: readonly Term[] } | null;

const byItsRule: PickIndex = ({ index }) => ("missing" in index ? null : index);

/**
 * Indices of a campaign as cells to compare: one per cell and window of the protocol, specimens averaged over their replicates, the
 * scatter of specimens pooled over the campaign as in ages.csv.
 *
 * @param options `pick`: another index than that of the window's own rule; the scatter is then pooled anew. `windows` to take.
 * @default all
 * @returns Windows in the order of the protocol; cells sorted by mix, curing, days of curing, age.
 *
 * @example
 * ```ts
 * import { indexBytes, indexCells, newJob, protocols, settle, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const bytes = new TextEncoder().encode(rows.join("\n"));
 * const campaign = summarise([indexBytes(bytes, newJob("a.txt", { mix: "M1", age_min: 1440 }), { protocol })], { protocol });
 * const [cell] = indexCells(campaign, { windows: ["aft-afm"] });
 * if (cell!.specimens.length !== 1 || Math.abs(cell!.value! - 25) > 0.01) throw new Error("4 mg of 16 mg ignited");
 * ```
 */
export function indexCells(
  campaign: Pick<Campaign, "runs" | "protocol">,
  options: { pick?: PickIndex; windows?: readonly string[] } = {},
): ComparedCell[] {
  const { pick = byItsRule, windows = campaign.protocol.windows.map(({ name }) => name) } = options;
  const cells = new Map<string, RunDone[]>();
  // Sums depend on their order in the last digits.
  const runs = [...campaign.runs].sort((a, b) => compareKeys([a.file], [b.file]));
  for (const run of runs) {
    if (run.role !== "specimen") continue;
    const key = JSON.stringify(cellKey(run));
    const own = cells.get(key) ?? [];
    cells.set(key, own);
    if (run.status !== "failed") own.push(run);
  }
  const keys = new Map(runs.map((run) => [JSON.stringify(cellKey(run)), run]));
  const sorted = [...cells].sort(([a], [b]) => compareKeys(JSON.parse(a), JSON.parse(b)));
  return windows.flatMap((quantity) => {
    const taken = sorted.map(([key, own]) => ({ ...cellOf(own, quantity, pick), ...headOf(keys.get(key)!) }));
    const scatter = scatterOf(taken.map(({ specimens }) => specimens.map(({ value }) => value)));
    return taken.map((cell): ComparedCell => ({ ...cell, quantity, kind: "index", unit: "g/100 g", scatter }));
  });
}

function headOf({ mix, curing, curing_d, age_d }: Pick<RunDone, "mix" | "curing" | "curing_d" | "age_d">) {
  return { mix, curing, curing_d, age_d };
}

function cellOf(runs: readonly RunDone[], name: string, pick: PickIndex) {
  const flags = new Set<string>();
  const counted = runs.flatMap((run) => {
    const window = run.windows.find((one) => one.window === name);
    const index = window === undefined ? null : pick(window);
    if (window === undefined || index === null) return [];
    for (const { code, severity, window: of } of [...run.flags, ...window.flags]) {
      if (severity !== "note" && (of === undefined || of === name)) flags.add(code);
    }
    return [{ specimen: run.specimen, value: index.value, terms: index.terms }];
  });
  const specimens = specimensOf(counted);
  const terms = meanTerms(specimens.map((one) => one.terms));
  return {
    specimens: specimens.map(({ specimen, value }) => ({ specimen, value })),
    value: specimens.length === 0 ? null : mean(specimens.map(({ value }) => value)),
    shared: terms.filter(({ key }) => !perRun.test(key)),
    floor: combineTerms(terms.filter(({ key }) => perRun.test(key))),
    flags: [...flags].sort(),
  };
}
