import type { Decisions, PairRow, TogetherRow } from "../campaign/decisions.ts";
import { ageWords, decimalsFor, fixed, probability, regimeWords } from "./decisionWords.ts";
import { textTable } from "./textTable.ts";

/** More cells than this stand in pairs.csv only. */
const MOST_CELLS = 40;

/** Whether properties follow the hydrates, and where they part ways. */
export function togetherText({ together, pairs, parted, properties }: Decisions): string[] {
  if (properties.length === 0) return [];
  if (together.length === 0) {
    return ["DO HYDRATES AND PROPERTIES GO TOGETHER?", "No cell has both a run and a property: nothing can be said."];
  }
  const adjusted = together.filter(({ adjusted_for }) => adjusted_for === "age");
  const pooled = together.filter(({ adjusted_for }) => adjusted_for === "none");
  const names = [...new Set(together.map(({ property }) => property))];
  return [
    "DO HYDRATES AND PROPERTIES GO TOGETHER?",
    "Correlation r: 1 rise together, −1 one rises as the other falls, 0 nothing. Differences from the mean of each age first, since everything grows with age:",
    ...table(adjusted),
    "Ages thrown together; this shows growth, not that one makes the other:",
    ...table(pooled),
    "p: the probability that chance pairing gives such an r (permutation). A correlation is no cause, and without one there may still be a relation that so few cells cannot show.",
    ...names.flatMap((property) => [
      "",
      `${property} and the hydrates, cell by cell`,
      ...scatter(pairs.filter((pair) => pair.property === property)),
    ]),
    ...(parted.length === 0
      ? [
          "",
          "Nowhere do hydrates and properties part ways: no cell has a difference shown in one and not in the other.",
        ]
      : ["", "Where they part ways:", ...parted.map(({ sentence }) => `  ${sentence}`)]),
  ];
}

function table(rows: readonly TogetherRow[]): string[] {
  const columns = [
    { heading: "property" },
    { heading: "index" },
    { heading: "mix" },
    { heading: "kind" },
    { heading: "cells", align: "right" },
    { heading: "r", align: "right" },
    { heading: "95 % interval" },
    { heading: "p", align: "right" },
    { heading: "" },
  ] as const;
  const kinds = { pearson: "straight", spearman: "by rank" } as const;
  const cells = rows.map((row) => [
    row.property,
    row.quantity,
    row.mix ?? "all",
    kinds[row.method],
    `${row.n_cells}`,
    fixed(row.r, 2),
    row.lo95 === null ? "" : `[${fixed(row.lo95, 2)}, ${fixed(row.hi95, 2)}]`,
    probability(row.p),
    row.verdict,
  ]);
  return textTable(columns, cells).map((line) => `  ${line}`);
}

/** One row per cell: the property and the index of every window. */
function scatter(pairs: readonly PairRow[]): string[] {
  const windows = [...new Set(pairs.map(({ quantity }) => quantity))];
  const cells = new Map<string, PairRow[]>();
  for (const pair of pairs) {
    const key = JSON.stringify([pair.mix, pair.curing, pair.curing_d, pair.age_d]);
    cells.set(key, [...(cells.get(key) ?? []), pair]);
  }
  if (cells.size > MOST_CELLS) return [`  ${cells.size} cells: they stand in pairs.csv (--out).`];
  const columns = [
    { heading: "mix" },
    { heading: "regime" },
    { heading: "age", align: "right" },
    ...windows.map((heading) => ({ heading, align: "right" }) as const),
    { heading: `${pairs[0]?.property ?? ""}, ${pairs[0]?.unit ?? ""}`, align: "right" },
  ] as const;
  const decimals = decimalsFor(pairs.map(({ value }) => Math.abs(value) / 50));
  const rows = [...cells.values()].map((own) => [
    own[0]!.mix ?? "-",
    regimeWords(own[0]!),
    ageWords(own[0]!.age_d),
    ...windows.map((window) => fixed(own.find(({ quantity }) => quantity === window)?.index ?? null, 2)),
    fixed(own[0]!.value, decimals),
  ]);
  return textTable(columns, rows).map((line) => `  ${line}`);
}
