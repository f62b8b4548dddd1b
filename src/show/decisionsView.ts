import type { Decisions } from "../campaign/decisions.ts";
import { glanceText } from "../render/glanceText.ts";
import type { Lines, View } from "./types.ts";

/**
 * What is shown about the curing regimes, in sentences, with the caution that goes with them. The single comparisons are
 * tables of their own (`decisions.contrasts` and the like); everything as text is `decisionsText`.
 */
export function decisionsView(decisions: Decisions, { caption }: { caption?: string } = {}): View {
  const { asked, sufficient, parted, remarks } = decisions;
  const [, ...findings] = glanceText(decisions);
  const judged = sufficient.filter(({ margin, requirement }) => margin !== null || requirement !== null);
  const part = (heading: string, lines: readonly string[]): Lines[] => (lines.length === 0 ? [] : [{ heading, lines }]);
  return [
    {
      heading: caption ?? `Curing compared with ${asked.reference}`,
      lines: ['"Not shown" means that these data cannot tell; it does not mean "the same".'],
    },
    ...part("What is shown (in brackets: share of the reference)", findings),
    ...part(
      "Where hydrate and property say different things",
      parted.map(({ sentence }) => sentence),
    ),
    ...part(
      "How short a curing is enough?",
      judged.map(({ sentence }) => sentence),
    ),
    ...part("Caution", [...new Set(sufficient.map(({ caution }) => caution))]),
    ...part("What could not be judged", remarks),
  ];
}
