import { existsSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { jsonOf, root, textOf } from "./root.ts";

const papers = [
  "README.md",
  "DEVELOPERS.md",
  "CHANGELOG.md",
  "fixtures/README.md",
  "fixtures/COOKBOOK.md",
  "src/METHODS.md",
  "src/API.md",
  ...readdirSync(`${root}.github`, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".md"))
    .map((file) => `.github/${file}`),
];

/** Fields of the first level of a citation file: plain `key: value` lines. */
const citation = new Map(
  [...textOf("CITATION.cff").matchAll(/^([a-z-]+): (.+)$/gm)].map(([, key, value]) => [key, value]),
);

test("the citation names the version, title and licence of the package", () => {
  const { name, version, license } = jsonOf<Record<string, string>>("package.json");
  expect(citation.get("cff-version")).toBe("1.2.0");
  expect([citation.get("title"), citation.get("version"), citation.get("license")]).toEqual([name, version, license]);
  // What the Citation File Format 1.2.0 requires beside the version of the format.
  for (const required of ["message", "title"]) expect(citation.get(required)?.length).toBeGreaterThan(5);
  expect(textOf("CITATION.cff")).toMatch(/^authors:\n {2}- name: \S/m);
});

test("every file that a paper links to is there", () => {
  const dead = papers.flatMap((paper) => {
    const text = textOf(paper).replaceAll(/```[\s\S]*?```/g, "");
    return [...text.matchAll(/\]\((?!https?:|#)([^)#\s]+)(?:#[^)]*)?\)/g)]
      .map(([, path]) => join(dirname(paper), path!))
      .filter((path) => !existsSync(root + path));
  });
  expect(dead).toEqual([]);
});

test("every link inside a paper has its heading", () => {
  for (const paper of papers) {
    const text = textOf(paper).replaceAll(/```[\s\S]*?```/g, "");
    const slugs = [...text.matchAll(/^#+ (.+)$/gm)].map(([, heading]) =>
      heading!
        .toLowerCase()
        .replaceAll(/[^\p{L}\p{N}\p{M}_ -]/gu, "")
        .replaceAll(" ", "-"),
    );
    const wanted = [...text.matchAll(/\]\(#([^)]+)\)/g)].map(([, anchor]) => anchor!);
    expect(
      wanted.filter((anchor) => !slugs.includes(anchor)),
      paper,
    ).toEqual([]);
    if (wanted.length > 0)
      expect(
        slugs.filter((slug, i) => slugs.indexOf(slug) < i),
        paper,
      ).toEqual([]);
  }
});

test("no paper invents an address", () => {
  for (const paper of papers.filter((one) => one.startsWith(".github/"))) {
    expect(textOf(paper), paper).not.toMatch(/https?:|\S+@\S+\.\w/);
  }
});
