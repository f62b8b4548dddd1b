import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { summarise } from "../../src/campaign/summarise.ts";
import { indexBytes } from "../../src/protocol/indexBytes.ts";
import { newJob } from "../../src/protocol/newJob.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { campaignJson } from "../../src/render/campaignJson.ts";
import { exportBytes } from "../files/exportBytes.ts";
import type { Material } from "./fuzzCases.ts";

/** What fuzz cases are made from: the files of fixtures/read, and a campaign of six simulated runs and one that failed. */
export function material(root: string): Material {
  const files = ["accept", "refuse"].flatMap((folder) => {
    const path = join(root, "fixtures", "read", folder);
    return readdirSync(path)
      .filter((name) => name.endsWith(".txt"))
      .sort()
      .map((name) => new Uint8Array(readFileSync(join(path, name))));
  });
  const protocol = settle(protocols.csa);
  const runs = ["moist", "air"].flatMap((curing, i) =>
    [1, 2, 3].map((seed) => {
      const job = newJob(`${curing}-${seed}.txt`, { mix: "M1", curing, curing_d: 7, age_min: 40320 });
      return indexBytes(exportBytes({ aft: 10 - i, seed }), job, { protocol });
    }),
  );
  const failed = indexBytes(new TextEncoder().encode("no table"), newJob("bad.txt", { mix: "M1" }), { protocol });
  return { files, campaign: campaignJson(summarise([...runs, failed], { protocol })) };
}
