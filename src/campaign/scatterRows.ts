import type { Flag } from "../flags.ts";
import { mean } from "../numerics/mean.ts";
import type { RunResult, SettledProtocol } from "../protocol/types.ts";
import { ageWords } from "./ageWords.ts";
import { homogeneityFlags } from "./homogeneityFlags.ts";
import { scatterOf } from "./scatterOf.ts";
import { specimensOf } from "./specimensOf.ts";
import type { ScatterRow } from "./types.ts";

/** 1.96·√2: 95 % limit of the difference of two results (ISO 5725-6:1994, 4.1.4). */
const LIMIT = 1.959964 * Math.SQRT2;

/**
 * Pooled scatter of specimens in every window of the protocol; a window in which no cell has two specimens has no row.
 *
 * @param cells Runs of every cell.
 */
export function scatterRows(cells: readonly (readonly RunResult[])[], protocol: SettledProtocol): ScatterRow[] {
  return protocol.windows.flatMap(({ name }) => {
    const means = cells.map((runs) => specimensOf(indicesOf(runs, name)).map(({ value }) => value));
    const scatter = scatterOf(means);
    if (scatter === null) return [];
    const used = cells.filter((_, i) => means[i]!.length > 1);
    const at_index = mean(means.filter((values) => values.length > 1).map((values) => mean(values)));
    const sd = scatter.a + scatter.b * Math.abs(at_index);
    const kind = used.some(severalSessions) ? "intermediate precision" : "repeatability";
    return [{ window: name, ...scatter, at_index, sd, limit: LIMIT * sd, kind }];
  });
}

/** Findings about the scatter itself: cells that do not scatter like the others. */
export function scatterFlags(cells: readonly (readonly RunResult[])[], scatter: readonly ScatterRow[]): Flag[] {
  return scatter.flatMap((row) =>
    homogeneityFlags(
      cells.map((runs) => ({
        name: cellName(runs[0]!),
        values: specimensOf(indicesOf(runs, row.window)).map(({ value }) => value),
      })),
      row,
    ),
  );
}

function cellName({ mix, curing, curing_d, age_d }: RunResult): string {
  const days = curing_d === null ? "" : ` for ${curing_d} d`;
  const age = age_d === null ? "" : ` at ${ageWords(age_d)}`;
  return `${[mix, curing].filter((label) => label !== null).join(", ")}${days}${age}` || "the only cell";
}

function indicesOf(runs: readonly RunResult[], name: string) {
  return runs.flatMap((run) => {
    if (run.status === "failed") return [];
    const index = run.windows.find(({ window }) => window === name)?.index;
    if (index === undefined || "missing" in index) return [];
    return [{ specimen: run.specimen, value: index.value, terms: [] }];
  });
}

function severalSessions(runs: readonly RunResult[]): boolean {
  return new Set(runs.map(({ session }) => session)).size > 1;
}
