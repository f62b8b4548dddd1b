// Looks at every regular expression of the sources: none may take more than linear time on some text of a stranger (recheck,
// which searches for such a text and proves where it can that there is none). Those that may stand in files listed below, with
// what bounds the texts that they see.
import { mkdirSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { parse } from "acorn";
import { build, transform } from "esbuild";
import { checkSync } from "recheck";

const root = fileURLToPath(new URL("../../", import.meta.url));
/** Files some of whose patterns are not linear, with what bounds the texts that they see. */
const bounded = new Map([
  ["draw/finishSvg.ts", "what vega draws of our own figures, one tag at a time; labels in it are cut to 40 columns"],
  ["render/report/inlineSvg.ts", "the same, and attributes of tags that have matched as a whole"],
  ["files/jsonFault.ts", "one start each, since they are sticky: measured, they are linear"],
  ["read/cutFixed.ts", "lines that it matches from wherever it stands: measured, it is linear"],
  ["put together", "parts of file names, tried where a part begins (sticky), and units of at most 40 characters"],
  ["read/parseUnit.ts", "units of at most 40 characters"],
  ["read/readCell.ts", "cells of at most 64 characters"],
  ["read/readHeading.ts", "headings of at most 200 characters"],
  ["read/readPreamble.ts", "at most 600 characters of a line"],
  ["read/readStated.ts", "what readPreamble keeps: 80 and 300 characters"],
  ["read/recogniseName.ts", "names of at most 200 characters"],
  ["read/splitHeading.ts", "headings of at most 200 characters"],
]);

/** Patterns that stand in the sources, and those that are put together when they are loaded. */
async function patterns() {
  const found = new Map();
  const note = (source, flags, place) => found.set(`/${source}/${flags}`, { source, flags, place });
  const walk = (node, place) => {
    if (typeof node !== "object" || node === null) return;
    if (node.type === "Literal" && node.regex) note(node.regex.pattern, node.regex.flags, place);
    for (const inner of Object.values(node)) walk(inner, place);
  };
  const files = readdirSync(join(root, "src"), { recursive: true }).filter((name) => /(?<!\.d)\.ts$/.test(name));
  for (const file of files) {
    const { code } = await transform(readFileSync(join(root, "src", file), "utf8"), { loader: "ts" });
    walk(parse(code, { ecmaVersion: "latest", sourceType: "module" }), file);
  }
  const bundle = join(root, "out", "patterns.js");
  mkdirSync(join(root, "out"), { recursive: true });
  await build({
    entryPoints: [join(root, "src/index.ts")],
    outfile: bundle,
    bundle: true,
    format: "esm",
    platform: "node",
  });
  const whole = globalThis.RegExp;
  globalThis.RegExp = new Proxy(whole, {
    construct(target, [source, flags = ""]) {
      note(source instanceof whole ? source.source : source, flags, "put together");
      return new target(source, flags);
    },
  });
  await import(pathToFileURL(bundle).href);
  globalThis.RegExp = whole;
  return [...found.values()];
}

const all = await patterns();
const put = all.filter(({ place }) => place === "put together").length;
if (all.length < 200 || put < 4) throw new Error(`Only ${all.length} patterns were found, ${put} of them put together`);
const unneeded = new Set(bounded.keys());
const unsure = [];
let faults = 0;
for (const { source, flags, place } of all) {
  // What these flags leave out makes no pattern slower, and the tool does not know them all.
  const { status, complexity, attack } = checkSync(source, flags.replaceAll(/[^imsuy]/g, ""), { timeout: 5000 });
  if (status === "safe") continue;
  unneeded.delete(place);
  if (bounded.has(place)) continue;
  // Within its time the tool has neither proved nor refuted it: on a busy machine that says nothing.
  if (status === "unknown") {
    unsure.push(`${place}: /${source.slice(0, 60)}/`);
    continue;
  }
  faults++;
  console.error(`${place}: /${source}/${flags} is ${complexity.summary}; it is slow on ${attack.pattern}`);
}
// On a slower machine the tool may not have the time to prove these: no fault.
for (const place of unneeded)
  console.log(`${place} needs no place in the list here: all its patterns are proved linear`);
for (const one of unsure) console.log(`not decided in time: ${one}`);
console.log(`${all.length} patterns, ${faults} that a long text can slow down`);
if (faults > 0) process.exitCode = 1;
