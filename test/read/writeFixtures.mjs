// Writes fixtures/read: text tables of invented runs, and beside each what a reader must understand. The expectation comes
// from the numbers that were written and from how they were written, never from reading the file back. Pairs made by hand stay;
// they are named, as what a case that is gone has left would be.
//
//   node test/read/writeFixtures.mjs
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { acceptCases } from "./fixtureCases/accept.mjs";
import { refuseCases } from "./fixtureCases/refuse.mjs";

const root = new URL("../../fixtures/read/", import.meta.url);

for (const [folder, cases] of [
  ["accept", acceptCases()],
  ["refuse", refuseCases()],
]) {
  const place = new URL(`${folder}/`, root);
  mkdirSync(place, { recursive: true });
  for (const { name, bytes, expected } of cases) {
    writeFileSync(new URL(`${name}.txt`, place), bytes);
    writeFileSync(new URL(`${name}.expected.json`, place), `${JSON.stringify(expected)}\n`);
  }
  const names = new Set(cases.map(({ name }) => name));
  const others = readdirSync(place).filter((file) => file.endsWith(".txt") && !names.has(file.slice(0, -4)));
  console.log(`${folder}: ${cases.length} pairs${others.length === 0 ? "" : `, besides ${others.join(", ")}`}`);
}
