import { expect, test } from "vitest";
import * as pure from "../../src/index.ts";
import * as node from "../../src/node.ts";
import { textOf } from "./root.ts";

/** Names of the types that an entry point exports; they leave no trace at run time. */
function typesOf(file: string): string[] {
  return [...textOf(file).matchAll(/^export type \{([^}]+)\}/gm)]
    .flatMap(([, names]) => names!.split(","))
    .map((name) => name.trim())
    .filter((name) => name !== "")
    .sort();
}

test("the public names stay what they are", () => {
  expect(Object.keys(pure).sort()).toMatchInlineSnapshot();
});

test("the public types stay what they are", () => {
  expect(typesOf("src/index.ts")).toMatchInlineSnapshot();
});

test("the face for Node adds what needs Node", () => {
  expect(
    Object.keys(node)
      .filter((name) => !(name in pure))
      .sort(),
  ).toMatchInlineSnapshot();
  expect(typesOf("src/node.ts")).toMatchInlineSnapshot();
});
