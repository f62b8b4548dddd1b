import { spawnSync } from "node:child_process";
import { chmodSync, writeFileSync } from "node:fs";
import { delimiter, join } from "node:path";
import { expect, test } from "vitest";
import { tempFolder } from "../files/tempFolder.ts";
import { root } from "./root.ts";

const found = (counts: Record<string, number>, vulnerabilities = {}) =>
  JSON.stringify({ metadata: { vulnerabilities: counts }, vulnerabilities });

const high = { bad: { severity: "high", range: "<2", via: [{ title: "Runs what it reads" }] } };
const address = "https://registry.example/-/npm/v1/security";

test.skipIf(process.platform === "win32").for([
  ["nothing found", found({ high: 0 }), [], 0, "audited: 0 critical, 0 high, 0 moderate, 0 low, 0 info\n"],
  ["a moderate finding is told", found({ moderate: 2 }), [], 0, "audited: 0 critical, 0 high, 2 moderate"],
  ["a high finding fails", found({ high: 1 }, high), [], 1, "\nhigh: bad <2: Runs what it reads\n"],
  ["a critical finding fails", found({ critical: 1 }), [], 1, "audited: 1 critical"],
  ["no such service", `{"message":"405 - POST ${address}"}`, [], 0, "not audited: 405 - POST the registry\n"],
  ["no such service, for a release", '{"message":"404"}', ["--required"], 1, "not audited: 404\n"],
  ["no answer at all", "", [], 0, "not audited: npm said nothing\n"],
] as const)("the audit: %s", ([, answer, args, status, said]) => {
  const folder = tempFolder({ answer });
  // Stands for npm and its registry.
  writeFileSync(join(folder, "npm"), `#!/bin/sh\ncat "${folder}/answer"\n`);
  chmodSync(join(folder, "npm"), 0o755);
  const ended = spawnSync(process.execPath, [`${root}test/tools/audit.js`, ...args], {
    encoding: "utf8",
    env: { ...process.env, PATH: `${folder}${delimiter}${process.env.PATH}` },
  });
  expect(ended.status).toBe(status);
  expect(ended.stdout).toContain(said);
});
