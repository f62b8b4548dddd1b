import { spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { transformSync } from "esbuild";
import { root } from "./root.ts";

/** A fenced block of the cookbook. */
interface Block {
  language: string;
  /** File that it is written to; empty for what is run or shown. */
  file: string;
  text: string;
}

/** One recipe: its heading and its blocks in order. */
export interface Recipe {
  title: string;
  blocks: Block[];
}

/** The text before the first recipe holds what all of them use. */
export function recipesOf(cookbook: string): { shared: Block[]; recipes: Recipe[] } {
  const [intro, ...sections] = cookbook.split(/^## /m);
  const recipes = sections.map((section) => ({ title: section.split("\n")[0]!, blocks: blocksOf(section) }));
  return { shared: blocksOf(intro!), recipes };
}

function blocksOf(section: string): Block[] {
  return [...section.matchAll(/^```(\w+) ?(\S*)\n([\s\S]*?)^```$/gm)].map(([, language, file, text]) => ({
    language: language!,
    file: file!,
    text: text!,
  }));
}

/**
 * Runs a recipe in a folder of its own inside the repository, so that the package finds itself by its own name.
 *
 * @returns What came out before every block of output, in order.
 * @throws Error where a block fails, with what it said.
 */
export function runRecipe({ title, blocks }: Recipe, shared: readonly Block[]): string[] {
  const folder = `${root}out/cookbook/${title.toLowerCase().replaceAll(/[^a-z]+/g, "-")}`;
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(`${folder}/bin`, { recursive: true });
  const command = `${folder}/bin/tg-hydrates`;
  writeFileSync(command, `#!/bin/sh\nexec "${process.execPath}" "${root}bin/tg-hydrates.js" "$@"\n`);
  chmodSync(command, 0o755);
  const env = { ...process.env, NO_COLOR: "1", PATH: `${folder}/bin:${process.env.PATH}` };
  const run = (program: string, args: string[], what: string): string => {
    const { status, stdout, stderr } = spawnSync(program, args, { cwd: folder, env, encoding: "utf8" });
    if (status !== 0) throw new Error(`${title}: ${what}\n${stdout}${stderr}`);
    return stdout;
  };
  const outputs: string[] = [];
  let said = "";
  for (const [i, { language, file, text }] of [...shared, ...blocks].entries()) {
    if (language === "text") {
      outputs.push(said.trimEnd());
      said = "";
    } else if (language === "sh") said += run("bash", ["-e", "-u", "-o", "pipefail", "-c", text], text);
    else if (language === "ts") {
      const name = file === "" ? `block-${i}.mjs` : file.replace(/\.ts$/, ".mjs");
      const { code } = transformSync(text, { loader: "ts" });
      writeFileSync(`${folder}/${name}`, code.replaceAll('"./make.ts"', '"./make.mjs"'));
      if (file === "") said += run(process.execPath, [name], text);
    } else if (language !== "js") {
      // What stands in a js block needs packages of test/tools, which runs it (tables.js).
      mkdirSync(dirname(`${folder}/${file}`), { recursive: true });
      writeFileSync(`${folder}/${file}`, text);
    }
  }
  return outputs;
}
