// Writes fixtures/example: the small invented campaign. From the project's folder, after `npm run build`:
//
//     node test/reference/makeExample.mjs
//
// test/simulate/exampleCampaign.test.ts holds the folder against the generator, byte by byte.
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { exampleCampaign } from "../../dist/index.js";

const folder = new URL("../../fixtures/example/", import.meta.url);
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
for (const { name, bytes } of exampleCampaign(7, { size: "small" }).files) writeFileSync(new URL(name, folder), bytes);
