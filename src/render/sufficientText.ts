import type { Decisions, SufficientRow } from "../campaign/decisions.ts";
import { decimalsFor, fixed, probability } from "./decisionWords.ts";
import { textTable } from "./textTable.ts";

/** The shortest sufficient curing with its reasoning; never without its caution. */
export function sufficientText({ sufficient, asked }: Decisions): string[] {
  if (sufficient.length === 0) return [];
  const judged = sufficient.filter(({ margin, requirement }) => margin !== null || requirement !== null);
  const cautions = [...new Set(sufficient.map(({ caution }) => caution))];
  const heading = "HOW SHORT A CURING IS ENOUGH?";
  if (judged.length === 0) {
    const stated = asked.margins.length + asked.requirements.length;
    const help =
      stated === 0
        ? 'Not judged: say how much less than the longest curing would not matter (--margin strength=10%), or what must be reached (--require "strength>=24 MPa").'
        : "Not judged: no margin and no requirement was stated for a quantity that has several durations of curing.";
    return [heading, help, ...cautions];
  }
  return [
    heading,
    "From the longest duration down; the first that is not shown to hold ends the search. Each step at a risk of 5 % of calling too short a curing sufficient.",
    ...judged.flatMap((row) => ["", row.sentence, ...steps(row)]),
    "",
    ...cautions,
  ];
}

function steps({ steps, unit, requirement }: SufficientRow): string[] {
  const columns = [
    { heading: "days", align: "right" },
    { heading: "curing" },
    { heading: "n", align: "right" },
    { heading: `mean, ${unit}`, align: "right" },
    { heading: "of the longest", align: "right" },
    { heading: "at least (95 %)", align: "right" },
    { heading: "p", align: "right" },
    {
      heading: requirement === null ? "" : requirement.at === "least" ? "mean at least (95 %)" : "mean at most (95 %)",
      align: "right",
    },
    { heading: "" },
  ] as const;
  const decimals = decimalsFor(
    steps.flatMap(({ value, bound95 }) => (value === null || bound95 === null ? [] : [Math.abs(value - bound95)])),
  );
  const cells = steps.map((step) => [
    `${Number(step.curing_d.toPrecision(6))}`,
    step.curing ?? "-",
    `${step.n}`,
    fixed(step.value, decimals),
    step.share_pct === null ? "" : `${step.share_pct.toFixed(0)} %`,
    step.share_lower95 === null ? "" : `${step.share_lower95.toFixed(0)} %`,
    probability(step.p),
    requirement === null ? "" : fixed(step.bound95, decimals),
    step.verdict,
  ]);
  return textTable(columns, cells).map((line) => `  ${line}`);
}
