import { resolve } from "node:path";
import { campaignFromJson } from "../campaign/campaignFromJson.ts";
import type { Campaign } from "../campaign/types.ts";
import { decodeBytes } from "../read/decodeBytes.ts";
import { detectEncoding } from "../read/detectEncoding.ts";
import { readBytes } from "./readBytes.ts";

/**
 * A campaign from the campaign.json that `index --out` wrote.
 *
 * @param options `cwd` that a relative path starts from. @default the process's
 * @throws FileError where the system refuses; UnreadableError for another document.
 *
 * @example
 * ```ts
 * import { indexFolder, loadCampaign, outputFiles, writeOutputs } from "tg-hydrates/node";
 * await writeOutputs("out/doc-example", outputFiles(await indexFolder("fixtures/example")));
 * if (loadCampaign("out/doc-example/campaign.json").ages.length === 0) throw new Error("the ages are there again");
 * ```
 */
export function loadCampaign(path: string, options: { cwd?: string } = {}): Campaign {
  const bytes = readBytes(resolve(options.cwd ?? "", path), { name: path });
  const { encoding, start } = detectEncoding(bytes);
  return campaignFromJson(decodeBytes(bytes.subarray(start), encoding), { name: path });
}
