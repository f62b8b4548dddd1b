import type { NoVerdict } from "../campaign/decisions.ts";

/** What stands in place of a verdict. */
export const noVerdictWords: Readonly<Record<NoVerdict, true>> = {
  "one-specimen": true,
  "no-value": true,
  "no-reference": true,
  "too-few-specimens": true,
  "no-scatter": true,
};
