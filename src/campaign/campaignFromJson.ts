import * as v from "valibot";
import { UnreadableError } from "../errors.ts";
import { checkProtocol } from "../protocol/checkProtocol.ts";
import { campaignSchema } from "./campaignSchema.ts";
import type { Campaign } from "./types.ts";

/** So many wrong fields are named; the rest of a broken file tells nothing more. */
const MOST_NAMED = 5;

/**
 * campaign.json → campaign, checked field by field, the protocol included.
 *
 * @param text What `campaignJson` wrote; fields that this version does not know are left out.
 * @param options `name` of the file for messages. @default "campaign.json"
 * @throws UnreadableError `not-json` or `not-a-campaign`, naming the first wrong fields; ProtocolError for a protocol that cannot
 * work.
 *
 * @example
 * ```ts
 * import { campaignFromJson, campaignJson, indexBytes, newJob, protocols, settle, summarise } from "tg-hydrates";
 * const protocol = settle(protocols.csa);
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`);
 * const bytes = new TextEncoder().encode(rows.join("\n"));
 * const campaign = summarise([indexBytes(bytes, newJob("a.txt", { mix: "M1", age_min: 1440 }), { protocol })], { protocol });
 * const again = campaignFromJson(campaignJson(campaign));
 * if (campaignJson(again) !== campaignJson(campaign)) throw new Error("read back, it is the same to the byte");
 * ```
 */
export function campaignFromJson(text: string, options: { name?: string } = {}): Campaign {
  const { name: source = "campaign.json" } = options;
  const document = parse(text, source);
  const result = v.safeParse(campaignSchema, document);
  if (!result.success) {
    const wrong = result.issues.slice(0, MOST_NAMED).map(explain).join("; ");
    const more = result.issues.length > MOST_NAMED ? `; and ${result.issues.length - MOST_NAMED} more` : "";
    const message = `this is not the campaign.json of this program: ${wrong}${more}. Index the folder again`;
    throw new UnreadableError("not-a-campaign", message, { source });
  }
  checkProtocol(result.output.protocol, { name: `${source}, protocol` });
  return result.output;
}

function parse(text: string, source: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    throw new UnreadableError("not-json", `this is no JSON (cut off?): ${error.message}`, { source });
  }
}

function explain(issue: v.BaseIssue<unknown>): string {
  const field = (issue.path ?? []).reduce(
    (path, { key }) => (typeof key === "number" ? `${path}[${key}]` : path ? `${path}.${key}` : String(key)),
    "",
  );
  if (issue.received === "undefined") return `${field} is missing`;
  const found = /Expected (.+?)(?: but received (.+))?$/s.exec(issue.message);
  const expected = (found?.[1] ?? issue.message).replaceAll(/[()]/g, "").replaceAll(" | ", ", ");
  const received = found?.[2] ?? issue.received;
  return `${field || "the document"} must be ${expected}, not ${received.slice(0, 60)}`;
}
