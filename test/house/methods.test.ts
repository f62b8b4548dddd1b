import { existsSync, readdirSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { flagKinds } from "../../src/flags.ts";
import { protocolFields } from "./protocolFields.ts";
import { root, textOf } from "./root.ts";

const methods = textOf("src/METHODS.md");
const sources = readdirSync(`${root}src`, { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".ts"));

/** Rows of the table under a heading, cell by cell. */
function rowsUnder(heading: string): string[][] {
  const section = methods.split(`\n## ${heading}\n`)[1]!.split("\n## ")[0]!;
  const rows = [...section.matchAll(/^\| (.+) \|$/gm)].map(([, row]) => row!.split(" | "));
  return rows.slice(2);
}

test("every file that METHODS.md names exists", () => {
  const links = [...methods.matchAll(/\]\(([^)#]+)\)/g)].map(([, path]) => path!);
  expect(links.length).toBeGreaterThan(100);
  expect(links.filter((path) => !existsSync(`${root}src/${path}`))).toEqual([]);
});

test("every folder with formulas is in METHODS.md", () => {
  for (const folder of [
    "read",
    "curve",
    "losses",
    "phases",
    "chemistry",
    "protocol",
    "campaign",
    "compare",
    "numerics",
  ])
    expect(methods).toContain(`](${folder}/`);
});

test("METHODS.md lists every flag with its severity and a file that knows it", () => {
  const rows = rowsUnder("Flags");
  const listed = rows.map(([code, severity]) => [code!.replaceAll("`", ""), severity]);
  expect(listed).toEqual(Object.entries(flagKinds).map(([code, { severity }]) => [code, severity]));
  for (const [code, , places] of rows) {
    const files = [...places!.matchAll(/\]\(([^)]+)\)/g)].map(([, file]) => file!);
    expect(files.length, code).toBeGreaterThan(0);
    for (const file of files) expect(textOf(`src/${file}`), file).toContain(`"${code!.replaceAll("`", "")}"`);
  }
});

test("the constants in METHODS.md are those of the sources", () => {
  const rows = rowsUnder("Constants");
  expect(rows.length).toBeGreaterThan(20);
  for (const [place, value] of rows) {
    const [, name, file] = /^`(\w+)` in \[.+\]\((.+)\)$/.exec(place!)!;
    expect(textOf(`src/${file}`)).toMatch(new RegExp(`const ${name}(: number)? = ${value!.replaceAll(".", "\\.")};`));
  }
});

test("METHODS.md lists every field of a protocol (UPDATE_METHODS=1 rewrites the table)", () => {
  const [start, end] = ["<!-- fields: start -->\n", "<!-- fields: end -->\n"];
  const [before, rest] = methods.split(start);
  const [written, after] = rest!.split(end);
  if (process.env.UPDATE_METHODS)
    writeFileSync(`${root}src/METHODS.md`, `${before}${start}${protocolFields()}${end}${after}`);
  else expect(written).toBe(protocolFields());
});

test("every journal that METHODS.md cites is cited in the sources too", () => {
  const cited = [...methods.matchAll(/\b(\d{1,3}:\d{1,4})(?:–\d+)?[,;)]/g)].map(([, place]) => place!);
  const known = sources.map((file) => textOf(`src/${file}`)).join("\n");
  expect(cited.length).toBeGreaterThan(15);
  // A place may stand at the end of a line there.
  expect(cited.filter((place) => !known.includes(place))).toEqual([]);
});
