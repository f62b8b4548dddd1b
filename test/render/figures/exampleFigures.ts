import type { Campaign } from "../../../src/campaign/types.ts";
import { compare } from "../../../src/compare/compare.ts";
import { parseMargin } from "../../../src/compare/parseMargin.ts";
import type { Sketch } from "../../../src/curve/sketch.ts";
import { indexFolder } from "../../../src/files/indexFolder.ts";
import { readProperties } from "../../../src/files/readProperties.ts";
import { root } from "../../house/root.ts";

/** The example, compared with its sealed specimens. */
export async function exampleFigures(): Promise<{ campaign: Campaign; sketches: (Sketch & { file: string })[] }> {
  const folder = `${root}fixtures/example`;
  const { campaign, sketches } = await indexFolder(folder, { jobs: 1 });
  const table = await readProperties(undefined, { folder, cwd: root });
  const decisions = compare(campaign, {
    reference: "sealed",
    properties: table?.rows ?? [],
    margins: parseMargin("10%"),
  });
  return { campaign: { ...campaign, decisions }, sketches };
}
