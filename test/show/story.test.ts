import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { jsonOf, root, textOf } from "../house/root.ts";

interface Notebook {
  cells: { cell_type: string; source: string[]; outputs?: unknown[]; execution_count?: number | null }[];
  metadata: { kernelspec: { name: string; language: string } };
}

const folder = "fixtures/notebooks/";
const notebooks = readdirSync(root + folder).filter((file) => file.endsWith(".ipynb"));

test("there is a notebook", () => {
  expect(notebooks).toEqual(["explore.ipynb"]);
});

test.for(notebooks)("the code of %s and that of the script beside it are the same", (file) => {
  const { cells } = jsonOf<Notebook>(folder + file);
  const code = cells.filter(({ cell_type }) => cell_type === "code").map(({ source }) => source.join(""));
  expect(`${code.join("\n\n")}\n`).toBe(textOf(folder + file.replace(/ipynb$/, "mjs")));
});

test.for(notebooks)("%s names the kernel of Deno and is kept without outputs", (file) => {
  const { cells, metadata } = jsonOf<Notebook>(folder + file);
  expect(metadata.kernelspec).toMatchObject({ name: "deno", language: "typescript" });
  const code = cells.filter(({ cell_type }) => cell_type === "code");
  expect(code.length).toBeGreaterThan(5);
  for (const { outputs, execution_count } of code)
    expect({ outputs, execution_count }).toEqual({ outputs: [], execution_count: null });
});

test.for(notebooks)("every output in %s is waited for", (file) => {
  const { cells } = jsonOf<Notebook>(folder + file);
  const code = cells.filter(({ cell_type }) => cell_type === "code").map(({ source }) => source.join(""));
  expect(code.join("\n").match(/(?<!await )\bshow\(/g)).toBeNull();
});
