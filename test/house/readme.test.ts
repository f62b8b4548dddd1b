import { spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { root, textOf } from "./root.ts";

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
