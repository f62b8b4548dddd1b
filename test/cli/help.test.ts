import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { makeProgram } from "../../src/cli/makeProgram.ts";
import { exampleCampaign } from "../../src/simulate/exampleCampaign.ts";
import { tempFolder } from "../files/tempFolder.ts";
import { cli } from "./cli.ts";

const commands = makeProgram({} as never, () => {}).commands.map((command) => command.name());

/** 20 mg of calcium oxalate monohydrate by its atomic weights (Prohaska et al. 2022). */
function oxalate(): string {
  const steps = [
    [12.33, 170],
    [19.17, 485],
    [30.12, 720],
  ] as const;
  const rows = ["T/°C\tm/mg"];
  for (let T = 30; T <= 960; T += 0.5) {
    const lost = steps.reduce((sum, [pct, peak]) => sum + pct / (1 + Math.exp((peak - T) / 7)), 0);
    rows.push(`${T}\t${(20 * (1 - lost / 100)).toFixed(5)}`);
  }
  return `${rows.join("\n")}\n`;
}

/** What the examples name: a folder of runs, a table of strengths, two runs and one of a reference substance. */
function laboratory(): string {
  const { files } = exampleCampaign(1, { size: "small" });
  const cwd = tempFolder({ "oxalate.txt": oxalate() });
  mkdirSync(join(cwd, "data"));
  for (const { name, bytes } of files) writeFileSync(join(cwd, "data", name), bytes);
  const runs = files.filter(({ name }) => name.endsWith(".txt"));
  for (const [i, name] of ["a.txt", "b.txt"].entries()) writeFileSync(join(cwd, "data", name), runs[i]!.bytes);
  writeFileSync(join(cwd, "strength.csv"), files.find(({ name }) => name === "properties.csv")!.bytes);
  return cwd;
}

test("every command shows an example, and examples as a shell hands them over end with 0", async () => {
  const cwd = laboratory();
  // What one example writes the next may read: in the order in which a user meets them.
  for (const name of commands) {
    const { code, out: help } = await cli(["help", name]);
    expect(code).toBe(0);
    const lines = /\nExamples?:\n([\s\S]+)$/.exec(help)?.[1]?.trimEnd().split("\n") ?? [];
    expect(lines.length, name).toBeGreaterThan(0);
    for (const line of lines) {
      const [, inner] = /^ +source <\((.*)\)$/.exec(line) ?? [null, line.trim()];
      const [words, file] = inner!.split(" > ") as [string, string?];
      const [program, ...argv] = [...words.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!);
      expect([program, argv[0]], line).toEqual(["tg-hydrates", expect.stringMatching(new RegExp(commands.join("|")))]);
      const { code, out, err } = await cli(argv, { cwd });
      expect(code, `${line}\n${err}`).toBe(0);
      if (file !== undefined) {
        expect(out.length, line).toBeGreaterThan(0);
        writeFileSync(join(cwd, file), out);
      }
    }
  }
});
