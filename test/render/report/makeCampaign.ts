import { summarise } from "../../../src/campaign/summarise.ts";
import type { Campaign } from "../../../src/campaign/types.ts";
import { compare } from "../../../src/compare/compare.ts";
import { parseMargin } from "../../../src/compare/parseMargin.ts";
import { flag } from "../../../src/flags.ts";
import { makeFailure, makeResult, twoWindows } from "../../campaign/makeResult.ts";

/** Two regimes at two ages, three specimens each, and a run that failed; AH3 differs between the regimes. */
export function makeCampaign(names: { mix?: string; curing?: string } = {}): Campaign {
  const { mix = "M1", curing = "air" } = names;
  const runs = [7, 28].flatMap((age_d) =>
    ["moist", curing].flatMap((regime, i) =>
      [-0.1, 0, 0.1].map((off, k) => {
        const file = `${i === 0 ? "moist" : "other"}-${age_d}d-${k + 1}.txt`;
        const values = [30 + age_d / 14 + off, 5 - i + off / 5] as const;
        const flags = k === 0 && age_d === 7 ? [flag("starts-warm", "The run starts at 52 °C, above 45 °C.")] : [];
        return makeResult(file, values, {
          mix,
          curing: regime,
          curing_d: null,
          age_d,
          flags,
          sha256: `${age_d}${i}${k}`,
        });
      }),
    ),
  );
  const failed = makeFailure("broken.txt", { mix, curing: "moist", curing_d: null, age_d: 28 });
  return summarise([...runs, failed], { protocol: twoWindows });
}

/** The same, compared with the regime `moist`, with a margin and a property. */
export function makeCompared(names: { mix?: string; curing?: string } = {}): Campaign {
  const { mix = "M1", curing = "air" } = names;
  const campaign = makeCampaign({ mix, curing });
  const properties = [7, 28].flatMap((age_d) =>
    ["moist", curing].flatMap((regime, i) =>
      [0, 1, 2].map((k) => ({
        ...{ mix, curing: regime, curing_d: null, age_min: age_d * 1440, property: "strength", unit: "MPa", line: 2 },
        ...{ specimen: `${k + 1}`, value: 30 + age_d / 4 - 3 * i + k / 2 },
      })),
    ),
  );
  return {
    ...campaign,
    decisions: compare(campaign, { reference: "moist", margins: parseMargin("10%"), properties }),
  };
}
