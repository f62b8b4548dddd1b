import { createContext, runInContext } from "node:vm";
import { build } from "esbuild";
import { expect, test } from "vitest";
import { indexRun, protocols, readRun, settle } from "../../src/index.ts";
import { root } from "./root.ts";

/** An invented run: one step of 4 mg at 130 °C, 20 mg before heating. */
const text = ["T/°C\tm/mg"]
  .concat(
    Array.from({ length: 1861 }, (_, i) => {
      const T = 30 + i / 2;
      return `${T}\t${(20 - 4 / (1 + Math.exp((130 - T) / 5))).toFixed(4)}`;
    }),
  )
  .join("\n");

test("the main entry, bundled for a browser, computes there what it computes in Node", async () => {
  const { outputFiles, warnings } = await build({
    entryPoints: [`${root}src/index.ts`],
    bundle: true,
    platform: "browser",
    format: "iife",
    globalName: "hydrates",
    target: "es2023",
    write: false,
    logLevel: "silent",
  });
  expect(warnings).toEqual([]);
  // What a browser has and the language has not; nothing of Node.
  const page = createContext({ TextDecoder, TextEncoder, text });
  runInContext(outputFiles[0]!.text, page);
  const there: unknown = runInContext(
    `JSON.stringify(hydrates.indexRun(
      hydrates.readRun(new TextEncoder().encode(text), { name: "a.txt" }),
      hydrates.settle(hydrates.protocols.csa),
    ))`,
    page,
  );
  const run = readRun(new TextEncoder().encode(text), { name: "a.txt" });
  expect(JSON.parse(there as string)).toEqual(JSON.parse(JSON.stringify(indexRun(run, settle(protocols.csa)))));
});
