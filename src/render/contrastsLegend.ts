import type { ContrastRow } from "../campaign/decisions.ts";

/** What the columns of a table of comparisons hold, one sentence each. */
export function contrastsLegend(rows: readonly ContrastRow[]): string[] {
  return [
    "n: specimens of the cell / of the reference. p: the risk of so large a difference by chance, counted for all comparisons judged together.",
    ...(rows.some(({ margin }) => margin !== null)
      ? ["margin: the verdict on the stated margin, and in brackets what the margin is here."]
      : []),
    "could show: the smallest margin that this comparison would have shown four times out of five (80 % power), were there no difference.",
    ...(rows.some(({ robust }) => robust !== null)
      ? [
          "robust: whether the verdicts stay what they are when an edge of the window moves by 5 °C or another rule counts; else what changes them.",
        ]
      : []),
  ];
}
