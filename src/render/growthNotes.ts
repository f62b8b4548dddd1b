import { ageWords } from "../campaign/ageWords.ts";
import type { Decisions } from "../campaign/decisions.ts";

/** How to read slopes, shares and verdicts of growth, one sentence each. */
export function growthNotes({ growth, asked }: Pick<Decisions, "growth" | "asked">): string[] {
  const few = growth.filter(({ trend_smallest_p }) => trend_smallest_p !== null && trend_smallest_p > 0.05).length;
  const cannot = growth.filter(({ verdict }) => verdict === "cannot be shown").length;
  const same = growth.filter(({ verdict }) => verdict === "same-specimens").length;
  return [
    "Theil–Sen: the middle of the slopes of all pairs of specimens, hardly moved by single ones. rises, falls: shown by a test of order on the specimens (Jonckheere–Terpstra, 5 %, each by itself).",
    ...(asked.reference_age_d === null
      ? []
      : [
          `Shares: lower, higher where a difference from ${ageWords(asked.reference_age_d)} is shown, all ages and regimes of a mix judged together.`,
        ]),
    ...(few > 0
      ? [
          `The means alone could not show a trend in ${few} of ${growth.length} rows, whatever their values: that takes five ages or more (Mann–Kendall).`,
        ]
      : []),
    ...(cannot > 0 ? ["cannot be shown: so few specimens could not show it, whatever their values."] : []),
    ...(same > 0
      ? ["same-specimens: the same pieces were measured at every age; a test of order needs different ones."]
      : []),
  ];
}
