import type { Campaign } from "../campaign/types.ts";
import { dataPackage } from "../render/dataPackage.ts";
import { sha256 } from "./sha256.ts";
import type { OutputFile } from "./writeOutputs.ts";

/**
 * datapackage.json for the files of an output folder. Files whose content is at hand are described with length and SHA-256;
 * one that is written piece by piece without.
 */
export function packageFile(campaign: Campaign, files: readonly OutputFile[]): OutputFile {
  const packaged = files.map(({ name, content }) => {
    if (typeof content !== "string" && !(content instanceof Uint8Array)) return { name };
    const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
    return { name, bytes: bytes.length, sha256: sha256(bytes) };
  });
  return { name: "datapackage.json", content: dataPackage(campaign, packaged) };
}
