import { writeFileSync } from "node:fs";
import { afterAll, expect, test } from "vitest";
import { recipesOf, runRecipe } from "./cookbook.ts";
import { root, textOf } from "./root.ts";

const cookbook = textOf("fixtures/COOKBOOK.md");
const { shared, recipes } = recipesOf(cookbook);
const outputs = new Map<string, string[]>();

test("the cookbook has its recipes, and each shows what comes out", () => {
  expect(recipes.length).toBeGreaterThanOrEqual(12);
  for (const { title, blocks } of recipes) {
    expect(blocks.filter(({ language }) => language === "text").length, title).toBeGreaterThan(0);
    expect(
      blocks.map(({ language }) => language).filter((one) => !["ts", "sh", "csv", "text", "js"].includes(one)),
    ).toEqual([]);
  }
});

// Shell blocks are for a POSIX shell.
test.skipIf(process.platform === "win32").for(recipes.map((recipe) => [recipe.title, recipe] as const))(
  "%s: what is shown is what comes out (after a build, UPDATE_COOKBOOK=1 rewrites it)",
  ([title, recipe]) => {
    const found = runRecipe(recipe, shared);
    outputs.set(title, found);
    if (process.env.UPDATE_COOKBOOK) return;
    expect(found).toEqual(
      recipe.blocks.filter(({ language }) => language === "text").map(({ text }) => text.trimEnd()),
    );
  },
);

afterAll(() => {
  if (!process.env.UPDATE_COOKBOOK) return;
  const [intro, ...sections] = cookbook.split(/^## /m);
  const written = sections.map((section) => {
    const found = [...(outputs.get(section.split("\n")[0]!) ?? [])];
    return section.replaceAll(/^```text\n[\s\S]*?^```$/gm, (block) => {
      const next = found.shift();
      return next === undefined ? block : `\`\`\`text\n${next}\n\`\`\``;
    });
  });
  writeFileSync(`${root}fixtures/COOKBOOK.md`, [intro, ...written].join("## "));
});
