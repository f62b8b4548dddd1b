import { ageWords } from "../campaign/ageWords.ts";
import type { ContrastRow, Decisions } from "../campaign/decisions.ts";
import { regimeWords } from "../compare/words.ts";
import { contrastsLegend } from "./contrastsLegend.ts";
import { decimalsFor, fixed, probability, signed } from "./decisionWords.ts";
import { textTable } from "./textTable.ts";

/** More rows than this nobody reads on a terminal. */
const MOST_ROWS = 80;

/** The comparisons with the reference, one table per quantity and mix. */
export function contrastsText({ contrasts, asked, families }: Decisions): string[] {
  const rows = contrasts.filter(({ against }) => against === "regime");
  if (rows.length === 0) return [];
  const heading = `EACH COMPARISON WITH ${asked.reference}`;
  if (rows.length > MOST_ROWS) {
    return [heading, `${rows.length} comparisons: they stand in contrasts.csv (--out), one per row.`];
  }
  const groups = new Map<string, ContrastRow[]>();
  for (const row of rows) {
    const key = JSON.stringify([row.quantity, row.mix]);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return [
    heading,
    ...contrastsLegend(rows),
    ...[...groups.values()].flatMap((own) => ["", ...oneTable(own, families)]),
  ];
}

function oneTable(rows: readonly ContrastRow[], families: Decisions["families"]): string[] {
  const { quantity, unit, mix } = rows[0]!;
  const size = families.find((one) => rows.some(({ family }) => family === one.family))?.size ?? 0;
  const halves = rows.flatMap(({ lo95, hi95 }) => (lo95 === null || hi95 === null ? [] : [(hi95 - lo95) / 2]));
  const decimals = decimalsFor(halves);
  const judged = size === 0 ? "" : `, ${size} ${size === 1 ? "comparison" : "comparisons"} judged together`;
  const cells = rows.map((row) => {
    const { difference, lo95, hi95, ratio_pct, ratio_lo95, ratio_hi95, robust, sensitive_to, flags } = row;
    const interval = lo95 === null ? "" : `[${signed(lo95, decimals)}, ${signed(hi95, decimals)}]`;
    const ratio = ratio_pct === null ? "" : `${ratio_pct.toFixed(0)} %`;
    const ratios = ratio_lo95 === null ? "" : `[${ratio_lo95.toFixed(0)}, ${ratio_hi95!.toFixed(0)}]`;
    return [
      regimeWords(row),
      ageWords(row.age_d),
      `${row.n}/${row.n_reference}`,
      fixed(row.value, decimals),
      fixed(row.value_reference, decimals),
      signed(difference, decimals),
      interval,
      ratio,
      ratios,
      probability(row.p_adjusted),
      row.difference_verdict,
      marginWords(row, decimals),
      row.smallest_margin === null ? "" : `±${fixed(row.smallest_margin, decimals)}`,
      robust === "no" ? `no: ${sensitive_to.join(", ")}` : (robust ?? ""),
      flags.join(", "),
    ];
  });
  return [
    `${quantity} of ${mix ?? "-"}, ${unit}${judged}`,
    ...textTable(
      [
        { heading: "regime" },
        { heading: "age", align: "right" },
        { heading: "n" },
        { heading: "value", align: "right" },
        { heading: "reference", align: "right" },
        { heading: "difference", align: "right" },
        { heading: "interval" },
        { heading: "ratio", align: "right" },
        { heading: "interval" },
        { heading: "p", align: "right" },
        { heading: "verdict" },
        { heading: "margin" },
        { heading: "could show", align: "right" },
        { heading: "robust" },
        { heading: "flags" },
      ],
      cells,
    ).map((line) => `  ${line}`),
  ];
}

/** `within margin (±2.9)`. */
function marginWords({ equivalence_verdict, margin, p }: ContrastRow, decimals: number): string {
  if (equivalence_verdict === "no margin given" || p === null) return "";
  return margin === null ? equivalence_verdict : `${equivalence_verdict} (±${fixed(margin, decimals)})`;
}
