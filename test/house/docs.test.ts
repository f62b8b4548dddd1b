import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { root, textOf } from "./root.ts";

const sources = readdirSync(`${root}src`, { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".ts"));

test("every example in a description stands in a ts fence, so that Deno runs it", () => {
  const bare = sources.flatMap((file) =>
    [...textOf(`src/${file}`).matchAll(/^ *\* @example *(.*)\n *\*(.*)$/gm)]
      .filter(([, , below]) => below?.trim() !== "```ts")
      .map(([text]) => `${file}: ${text}`),
  );
  expect(bare).toEqual([]);
});

test("no example imports a name that is not public; those of its own file are there without", async () => {
  const faces: Record<string, object> = {
    "tg-hydrates": await import("../../src/index.ts"),
    "tg-hydrates/node": await import("../../src/node.ts"),
    "tg-hydrates/notebook": await import("../../src/notebook.ts"),
  };
  const wanted = sources.flatMap((file) =>
    [...textOf(`src/${file}`).matchAll(/^ *\* import \{([^}]+)\} from "([^"]+)";$/gm)].flatMap(([, names, face]) =>
      names!.split(",").map((name) => ({ file, name: name.trim(), face: face! })),
    ),
  );
  expect(wanted.length).toBeGreaterThan(20);
  expect(wanted.filter(({ name, face }) => !(name in faces[face]!))).toEqual([]);
});

test("no committed text names a folder of one machine", () => {
  // Spelt so that this file does not find itself.
  const homes = new RegExp(
    String.raw`(?<![\w.~-])/(?:${["ro" + "ot", "ho" + "me", "wo" + "rk", "Us" + "ers"].join("|")})/\w`,
  );
  const files = ["test", "src", "bin", "fixtures", ".ci"].flatMap(filesBelow);
  const papers = readdirSync(root).filter((file) => /\.(md|json|js|ts)$/.test(file));
  expect(files.length).toBeGreaterThan(100);
  expect([...files, ...papers].filter((file) => homes.test(textOf(file)))).toEqual([]);
});

/** What the other checks make for a while in folders with a dot, and installed packages, is not committed. */
function filesBelow(folder: string): string[] {
  return readdirSync(root + folder, { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (!entry.isDirectory()) return entry.isFile() ? [path] : [];
    return entry.name === "node_modules" || entry.name.startsWith(".") ? [] : filesBelow(path);
  });
}
