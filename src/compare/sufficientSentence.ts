import { ageWords } from "../campaign/ageWords.ts";
import type { SufficientRow, SufficientStep } from "../campaign/decisions.ts";

/**
 * The result of a search for the shortest sufficient curing in words that claim no more than was shown.
 *
 * @param options `undirected`: a margin was stated, but nobody said whether more of the quantity is better.
 */
export function sufficientSentence(row: Omit<SufficientRow, "sentence">, options: { undirected: boolean }): string {
  const { undirected } = options;
  const { quantity, mix, curing, age_d, longest_d, margin, requirement, sufficient_d, steps, unit } = row;
  const what = `${quantity} of ${mix ?? "-"} at ${ageWords(age_d)}, ${curing ?? "-"}`;
  const days = (count: number) => `${Number(count.toPrecision(6))} d`;
  const number = (value: number) => Number(value.toPrecision(6));
  if (margin === null && requirement === null) {
    return undirected
      ? `${what}: not judged: whether more of it is better was not said, so that worse has no direction; state a requirement.`
      : `${what}: not judged: no margin and no requirement was stated.`;
  }
  const size = margin?.kind === "share" ? `${number(100 * margin.size)} %` : `${number(margin?.size ?? 0)} ${unit}`;
  const judged = [
    ...(margin === null ? [] : [`lose no more than ${size} against ${days(longest_d)}`]),
    ...(requirement === null
      ? []
      : [
          requirement.at === "least"
            ? `reach at least ${number(requirement.value)} ${requirement.unit} (95 % bound)`
            : `stay at ${number(requirement.value)} ${requirement.unit} or below (95 % bound)`,
        ]),
  ].join(" and to ");
  if (sufficient_d === null) return `${what}: not even ${days(longest_d)} is shown to ${judged}.`;
  const stop = steps.find(({ verdict }) => verdict !== "longest" && verdict !== "holds");
  const end =
    stop === undefined
      ? "Every shorter duration that was tested holds."
      : `${days(stop.curing_d)} is not shown to hold${reasons[stop.verdict] ?? ""}; that is not to say that it fails.`;
  const held =
    sufficient_d === longest_d
      ? `no duration shorter than ${days(longest_d)} is shown to ${judged}`
      : `${days(sufficient_d)} is the shortest shown to ${judged}`;
  return `${what}: ${held}. ${end}`;
}

const reasons: Partial<Record<SufficientStep["verdict"], string>> = {
  "one-specimen": ", since one specimen has no verdict",
  "too-few-specimens": ", since it has too few specimens for a test on their own scatter",
  "no-value": ", since no specimen of it has a value",
  "no-scatter": ", since its specimens do not scatter at all",
};
