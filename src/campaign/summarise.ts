import { type Flag, flag } from "../flags.ts";
import type { Mix } from "../phases/types.ts";
import type { RunResult, SettledProtocol } from "../protocol/types.ts";
import { version } from "../version.ts";
import { amountRows } from "./amountRows.ts";
import { compareKeys } from "./compareKeys.ts";
import { conditionFlags } from "./conditionFlags.ts";
import { findCarbonation } from "./findCarbonation.ts";
import { mixFlags } from "./mixFlags.ts";
import { netAmounts } from "./netAmounts.ts";
import { plausibilityRows } from "./plausibilityRows.ts";
import { scatterFlags, scatterRows } from "./scatterRows.ts";
import { summariseCell } from "./summariseCell.ts";
import type { AgeRow, Campaign } from "./types.ts";

/**
 * Runs → campaign: per cell (mix × curing × days of curing × age) and window the mean over specimens, its uncertainty and its
 * interval. The scatter of specimens is pooled over all cells of the campaign. Replicates of one specimen are averaged first; only runs with the role `specimen` are counted. A run without an
 * index is counted as missing and flagged, never as zero.
 *
 * @param results From `indexRun` or `indexFolder`, in any order: the outcome is the same to the byte.
 * @param options `protocol` under which they were taken; `mixes` of the mix table. @default no mixes
 * @returns Runs sorted by file name (code units); cells sorted by mix, curing, days of curing, age, windows in the order of the
 * protocol. The interval is mean ± t(0.975, ν)·u with u² = s²/n + u_shared² and ν by Welch–Satterthwaite (JCGM 100:2008, annex G);
 * null where no cell of the campaign has two specimens, so that their scatter is not known.
 *
 * @example
 * ```ts
 * import { indexRun, protocols, readRun, settle, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const run = readRun(new TextEncoder().encode(rows.join("\n")), { name: "a.txt" });
 * const { ages } = summarise([indexRun(run, protocol)], { protocol });
 * if (ages[0]!.n_specimens !== 1 || ages[0]!.index_lo95 !== null) throw new Error("one specimen has no interval");
 * ```
 */
export function summarise(
  results: readonly RunResult[],
  options: { protocol: SettledProtocol; mixes?: readonly Mix[] },
): Campaign {
  const { protocol, mixes = [] } = options;
  const given = [...results].sort(
    (a, b) => compareKeys([a.file], [b.file]) || compareKeys([JSON.stringify(a)], [JSON.stringify(b)]),
  );
  const runs = netAmounts(given, mixes);
  const cells = new Map<string, RunResult[]>();
  for (const run of runs) {
    if (run.role !== "specimen") continue;
    const key = JSON.stringify(cellKey(run));
    const cell = cells.get(key);
    if (cell) cell.push(run);
    else cells.set(key, [run]);
  }
  const sorted = [...cells.values()].sort((a, b) => compareKeys(cellKey(a[0]!), cellKey(b[0]!)));
  const scatter = scatterRows(sorted, protocol);
  const ages: AgeRow[] = sorted.flatMap((cell) => summariseCell(cell, { protocol, scatter }));
  const amounts = amountRows(sorted);
  const carbonation = findCarbonation(ages, { windows: protocol.windows, scatter, runs: sorted.flat() });
  return {
    schema: "tg-hydrates/campaign/1",
    version,
    protocol,
    mixes: [...mixes],
    runs,
    ages,
    amounts,
    plausibility: plausibilityRows(
      { ages, amounts },
      {
        mixes,
        carbonated: carbonation.flatMap(({ carbonated }) => carbonated),
        ends: new Map(protocol.windows.map(({ name, to_C }) => [name, to_C])),
      },
    ),
    scatter,
    flags: [
      ...conditionFlags(runs),
      ...scatterFlags(sorted, scatter),
      ...unresolvedFlags(protocol),
      ...sameFileFlags(runs),
      ...carbonation.map(({ sentence, window }) => flag("carbonated", sentence, window)),
      ...mixFlags(mixes, runs),
    ],
  };
}

/** One measurement under two names counts twice and scatters not at all. */
function sameFileFlags(runs: readonly RunResult[]): Flag[] {
  const names = new Map<string, string[]>();
  for (const { sha256, file, role } of runs) {
    if (sha256 !== null && role === "specimen") names.set(sha256, [...(names.get(sha256) ?? []), file]);
  }
  return [...names.values()]
    .filter((files) => files.length > 1)
    .map((files) => flag("same-file", `These files are the same to the byte: ${files.join(", ")}.`));
}

/** A window that was to be parted and could not be is one number for two hydrates. */
function unresolvedFlags({ settled }: SettledProtocol): Flag[] {
  return (settled.resolved ?? [])
    .filter(({ at_C }) => at_C === null)
    .map(({ window }) => {
      const sentence = `The peaks in the window ${window} are not resolved: no minimum of the campaign's mean DTG is prominent between them.`;
      return flag("unresolved", sentence, window);
    });
}

/** What makes a cell; ages as whole minutes and days of curing as written, so that rounding in a file changes nothing. */
function cellKey({ mix, curing, curing_d, age_d }: RunResult): (string | number | null)[] {
  return [
    mix,
    curing,
    curing_d === null ? null : Number(curing_d.toPrecision(9)),
    age_d === null ? null : Math.round(age_d * 1440),
  ];
}
