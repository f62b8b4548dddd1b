// Writes fixtures/read: text tables of invented runs, and beside each what a reader must understand. The expectation comes
// from the numbers that were written and from how they were written, never from reading the file back.
//
//   node test/read/writeFixtures.mjs
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { acceptCases } from "./fixtureCases/accept.mjs";
import { refuseCases } from "./fixtureCases/refuse.mjs";

const root = new URL("../../fixtures/read/", import.meta.url);

for (const [folder, cases] of [
  ["accept", acceptCases()],
  ["refuse", refuseCases()],
]) {
  const place = new URL(`${folder}/`, root);
  rmSync(place, { recursive: true, force: true });
  mkdirSync(place, { recursive: true });
  for (const { name, bytes, expected } of cases) {
    writeFileSync(new URL(`${name}.txt`, place), bytes);
    writeFileSync(new URL(`${name}.expected.json`, place), `${JSON.stringify(expected)}\n`);
  }
  console.log(`${folder}: ${cases.length} pairs`);
}
