import { spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Io } from "../../src/cli/io.ts";
import { makeProgram } from "../../src/cli/makeProgram.ts";
import { jsonOf, root, textOf } from "./root.ts";

const readme = textOf("README.md");
const [, example = ""] = /\n## From a script\n[^#]*?```ts\n(.*?)```/s.exec(readme) ?? [];

test("the example of the README is short", () => {
  const lines = example.trimEnd().split("\n");
  expect(lines.length).toBeGreaterThan(3);
  expect(lines.length).toBeLessThanOrEqual(15);
});

test("the example of the README does the main job in Node, from the built package", () => {
  // Inside the repository, so that the package finds itself by its own name.
  mkdirSync(`${root}out`, { recursive: true });
  writeFileSync(`${root}out/readme-example.js`, example);
  const { status, stdout, stderr } = spawnSync(process.execPath, ["out/readme-example.js"], {
    cwd: root,
    encoding: "utf8",
  });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  const lines = stdout.trimEnd().split("\n");
  expect(lines.length).toBeGreaterThan(3);
  for (const line of lines) expect(line).toMatch(/\d d: AH3 index \d+\.\d\d ± (\d+\.\d\d|\?) g\/100 g$/);
});

test("the README names the test command", () => {
  expect(readme).toContain("npm test");
});

test("the figure of the README is one that the figures' own test holds to be what the code draws", () => {
  const images = [...readme.matchAll(/<img src="([^"]+)"/g)].map(([, path]) => path!);
  expect(images).toEqual(["fixtures/expected/figures/ages.svg"]);
  // A ground of its own: dark letters would vanish on a dark page.
  const [, width, height] = / viewBox="\S+ \S+ (\S+) (\S+)"/.exec(textOf(images[0]!)) ?? [];
  expect(textOf(images[0]!)).toMatch(
    new RegExp(`<rect x="\\S+" y="\\S+" width="${width}" height="${height}" fill="#ffffff"/>`),
  );
});

test("what the README installs is what npm packs", () => {
  const { name, version } = jsonOf<Record<string, string>>("package.json");
  expect([...readme.matchAll(/\S+\.tgz/g)].map(([file]) => file)).toEqual([`./${name}-${version}.tgz`]);
});

/** Command lines in blocks and between backticks, joined where they go on. */
function commandLines(paper: string): string[] {
  const text = textOf(paper);
  const blocks = [...text.matchAll(/^```sh\n([\s\S]*?)^```$/gm)].flatMap(([, block]) => block!.split("\n"));
  const spans = [...text.matchAll(/(?<!`)`([^`]+)`(?!`)/g)].map(([, span]) => span!.replaceAll("\n", " "));
  return [...blocks, ...spans].flatMap((line) => /\btg-hydrates ((?:[a-z-]+)\b.*)/.exec(line)?.[1] ?? []);
}

test("every command line in a paper names a command and options that there are", () => {
  const program = makeProgram({} as Io, () => undefined);
  const wrong: string[] = [];
  let seen = 0;
  for (const paper of ["README.md", "DEVELOPERS.md", "CHANGELOG.md", "fixtures/COOKBOOK.md", "src/METHODS.md"]) {
    for (const line of commandLines(paper)) {
      const [name = "", ...words] = line.split(/[|>;]/)[0]!.split(" ");
      const command = program.commands.find((one) => one.name() === name);
      const known = command?.options.flatMap(({ long, short }) => [long, short]) ?? [];
      const options = words.filter((word) => word.startsWith("--")).map((word) => word.split("=")[0]!);
      if (!command || options.some((option) => !known.includes(option))) wrong.push(`${paper}: ${line}`);
      seen++;
    }
  }
  expect(seen).toBeGreaterThan(20);
  expect(wrong).toEqual([]);
});
