import { ageWords } from "../campaign/ageWords.ts";
import type { Decisions, PairRow, TogetherRow } from "../campaign/decisions.ts";
import { regimeWords } from "../compare/words.ts";
import { decimalsFor, fixed, probability } from "./decisionWords.ts";
import { textTable } from "./textTable.ts";

/** More cells than this stand in pairs.csv only. */
const MOST_CELLS = 40;

/** Whether properties follow the hydrates, and where they part ways. */
export function togetherText({ together, pairs, parted, properties }: Decisions): string[] {
  if (properties.length === 0) return [];
  if (together.length === 0) {
    return ["DO HYDRATES AND PROPERTIES GO TOGETHER?", "No cell has both a run and a property: nothing can be said."];
  }
  const told = together.filter(({ mix, r }) => r !== null && (mix !== null || severalMixes(together)));
  const adjusted = told.filter(({ adjusted_for }) => adjusted_for === "age");
  const pooled = told.filter(({ adjusted_for }) => adjusted_for === "none");
  const names = [...new Set(together.map(({ property }) => property))];
  return [
    "DO HYDRATES AND PROPERTIES GO TOGETHER?",
    "Correlation r: 1 they rise together, −1 one falls as the other rises, 0 nothing of the kind; straight, or by rank for any steady relation.",
    "p: how often chance pairing gives such an r (by permutation). A correlation is no cause; and not shown is not none: so few cells show strong ones only. Verdicts are each by itself, 5 %.",
    "",
    "Differences from the mean of each age, since everything grows with age:",
    ...(adjusted.length === 0 ? ["  No age has enough cells with both: nothing can be said."] : table(adjusted)),
    "",
    "Ages thrown together. This shows growth, not that one makes the other:",
    ...table(pooled),
    ...names.flatMap((property) => [
      "",
      `${property} and the indices, cell by cell`,
      ...scatter(pairs.filter((pair) => pair.property === property)),
    ]),
    "",
    ...(parted.length === 0
      ? ["Nowhere was a difference shown in the hydrates and not in the property, or the other way round."]
      : ["Where they part ways:", ...parted.map(({ sentence }) => `  ${sentence}`)]),
  ];
}

/** Whether more than one mix has cells enough for a correlation of its own. */
function severalMixes(rows: readonly TogetherRow[]): boolean {
  return new Set(rows.flatMap(({ mix, r }) => (mix === null || r === null ? [] : [mix]))).size > 1;
}

/** One line per property, index and mix, with both correlations. */
function table(rows: readonly TogetherRow[]): string[] {
  const columns = [
    { heading: "property" },
    { heading: "index" },
    { heading: "mix" },
    { heading: "cells", align: "right" },
    { heading: "r straight", align: "right" },
    { heading: "95 % interval" },
    { heading: "p", align: "right" },
    { heading: "r by rank", align: "right" },
    { heading: "95 % interval" },
    { heading: "p", align: "right" },
    { heading: "verdict (straight)" },
  ] as const;
  const numbers = (row: TogetherRow | undefined) => [
    fixed(row?.r ?? null, 2),
    row?.lo95 == null ? "" : `[${fixed(row.lo95, 2)}, ${fixed(row.hi95, 2)}]`,
    probability(row?.p ?? null),
  ];
  const cells = rows
    .filter(({ method }) => method === "pearson")
    .map((row) => {
      const ranked = rows.find(
        (one) =>
          one.method === "spearman" &&
          one.property === row.property &&
          one.quantity === row.quantity &&
          one.mix === row.mix,
      );
      const head = [row.property, row.quantity, row.mix ?? "all", `${row.n_cells}`];
      return [...head, ...numbers(row), ...numbers(ranked), row.verdict];
    });
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
