import { spawnSync } from "node:child_process";
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { transformSync } from "esbuild";
import { expect, test } from "vitest";
import { apiReference, faces } from "./apiReference.ts";
import { publicNames } from "./declarations.ts";
import { root, textOf } from "./root.ts";

const names = [...faces().values()].flatMap((face) => publicNames(face));
const functions = names.filter(({ kind }) => kind === "function");

test("src/API.md is what the descriptions say (after a build, UPDATE_API=1 rewrites it)", () => {
  const written = apiReference();
  if (process.env.UPDATE_API) writeFileSync(`${root}src/API.md`, written);
  else expect(textOf("src/API.md")).toBe(written);
});

test("nothing that an entry point exports is left out", async () => {
  const face: object = await import("../../src/node.ts");
  const found = new Set(names.map(({ name }) => name));
  expect(Object.keys(face).filter((name) => !found.has(name))).toEqual([]);
  expect(functions.length).toBeGreaterThan(50);
});

test("every public name has a description", () => {
  expect(names.filter(({ doc }) => doc.text.length < 15).map(({ name }) => name)).toEqual([]);
});

test("every parameter that is described is one", () => {
  const strange = functions.flatMap(({ name, declaration, doc }) =>
    doc.params
      .filter((param) => !new RegExp(`\\b${param.name}\\??:`).test(declaration))
      .map((p) => `${name}: ${p.name}`),
  );
  expect(strange).toEqual([]);
});

test("the example of every public function runs in Node", () => {
  // Inside the repository, so that the package finds itself by its own name.
  const folder = "out/api-examples";
  rmSync(root + folder, { recursive: true, force: true });
  mkdirSync(root + folder, { recursive: true });
  for (const { name, doc } of functions) {
    expect(doc.example, `${name} has no example`).not.toBeNull();
    expect(doc.example, `${name} shows where it comes from`).toMatch(
      new RegExp(`import \\{[^}]*\\b${name}\\b[^}]*\\}`),
    );
    writeFileSync(`${root}${folder}/${name}.mjs`, transformSync(doc.example!, { loader: "ts" }).code);
  }
  const run = `for (const name of ${JSON.stringify(functions.map(({ name }) => name))}) {
    await import(\`./\${name}.mjs\`).catch((error) => console.error(\`\${name}: \${error.message}\`));
  }`;
  writeFileSync(`${root}${folder}/run-all.mjs`, run);
  const { status, stderr } = spawnSync(process.execPath, [`${folder}/run-all.mjs`], { cwd: root, encoding: "utf8" });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
});
