import { ageWords } from "../campaign/ageWords.ts";
import type { ContrastRow, Decisions, GrowthRow } from "../campaign/decisions.ts";
import { regimeWords } from "../compare/words.ts";
import { decimalsFor, signed } from "./decisionWords.ts";
import { growthNotes } from "./growthNotes.ts";
import { textTable } from "./textTable.ts";

/** Growth: share of the value at the reference age, slope per tenfold age or per day of curing, and whether it is steady. */
export function growthText({ growth, contrasts, asked }: Decisions): string[] {
  if (growth.length === 0) return [];
  const ages = growth.filter(({ against }) => against === "age");
  const curing = growth.filter(({ against }) => against === "curing");
  return [
    "GROWTH",
    ...(ages.length === 0
      ? []
      : ["With age; slope: change per tenfold age (least squares; in brackets its 95 % interval)"]),
    ...slopes(ages, { contrasts, reference_age_d: asked.reference_age_d }),
    ...(curing.length === 0 ? [] : ["With the days of moist curing; slope: change per day of curing"]),
    ...slopes(curing, { contrasts: [], reference_age_d: null }),
    ...growthNotes({ growth, asked }),
  ];
}

function slopes(
  rows: readonly GrowthRow[],
  { contrasts, reference_age_d }: { contrasts: readonly ContrastRow[]; reference_age_d: number | null },
): string[] {
  if (rows.length === 0) return [];
  const columns = [
    { heading: "quantity" },
    { heading: "mix" },
    { heading: "regime" },
    { heading: "at" },
    { heading: "from–to" },
    { heading: reference_age_d === null ? "" : `share of ${ageWords(reference_age_d)}` },
    { heading: "slope", align: "right" },
    { heading: "interval" },
    { heading: "Theil–Sen", align: "right" },
    { heading: "steady" },
  ] as const;
  const cells = rows.map((row) => {
    const { slope, slope_lo95, slope_hi95, sen_slope, sen_lo95, sen_hi95, from_d, to_d } = row;
    const half = slope_lo95 === null || slope_hi95 === null ? (slope ?? 0) / 10 : (slope_hi95 - slope_lo95) / 2;
    const decimals = decimalsFor([Math.abs(half)]);
    const interval = (low: number | null, high: number | null) =>
      low === null ? "" : `[${signed(low, decimals)}, ${signed(high, decimals)}]`;
    return [
      `${row.quantity}, ${row.unit}`,
      row.mix ?? "-",
      row.against === "age" ? regimeWords(row) : (row.curing ?? "-"),
      row.against === "age" ? "" : ageWords(row.age_d),
      row.against === "age" ? `${ageWords(from_d)}–${ageWords(to_d)}` : `${from_d}–${to_d} d`,
      shares(row, contrasts),
      signed(slope, decimals),
      interval(slope_lo95, slope_hi95),
      `${signed(sen_slope, decimals)} ${interval(sen_lo95, sen_hi95)}`.trim(),
      row.verdict,
    ];
  });
  return textTable(columns, cells).map((line) => `  ${line}`);
}

/** `1 d 80 % lower, 7 d 95 %`. */
function shares(row: GrowthRow, contrasts: readonly ContrastRow[]): string {
  const own = contrasts.filter(
    (one) =>
      one.against === "age" &&
      one.quantity === row.quantity &&
      one.mix === row.mix &&
      one.curing === row.curing &&
      one.curing_d === row.curing_d &&
      one.ratio_pct !== null &&
      one.ratio_pct > 0,
  );
  return own
    .map(({ age_d, ratio_pct, difference_verdict: verdict }) => {
      const shown = verdict === "lower" || verdict === "higher" ? ` ${verdict}` : "";
      return `${ageWords(age_d)} ${ratio_pct!.toFixed(0)} %${shown}`;
    })
    .join(", ");
}
