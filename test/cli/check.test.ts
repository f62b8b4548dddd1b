import { describe, expect, test } from "vitest";
import { referenceSubstances } from "../../src/chemistry/referenceSubstances.ts";
import { tempFolder } from "../files/tempFolder.ts";
import { cli } from "./cli.ts";

/** 20 mg that lose these shares at these temperatures. */
function file(steps: readonly (readonly [pct: number, peak_C: number])[]): string {
  const rows = ["T/°C\tm/mg"];
  for (let T = 30; T <= 960; T += 0.5) {
    const lost = steps.reduce((sum, [pct, peak]) => sum + pct / (1 + Math.exp((peak - T) / 7)), 0);
    rows.push(`${T}\t${(20 * (1 - lost / 100)).toFixed(5)}`);
  }
  return `${rows.join("\n")}\n`;
}
// Losses from the abridged standard atomic weights (Prohaska et al. 2022).
const good = file([
  [12.33, 170],
  [19.17, 485],
  [30.12, 720],
]);
const bad = file([
  [12.33, 170],
  [18.1, 485],
  [30.12, 720],
]);
const check = (text: string, ...argv: string[]) =>
  cli(["check", "a.txt", "--substance", "calcium-oxalate-monohydrate", ...argv], {
    cwd: tempFolder({ "a.txt": text }),
  });

describe("check", () => {
  test("of a run that holds: a line per step, exit code 0", async () => {
    const { code, out, err } = await check(good);
    expect([code, err]).toEqual([0, ""]);
    const lines = out.split("\n");
    expect(lines[0]).toBe("a.txt: calcium oxalate monohydrate, CaC2O4·H2O");
    expect(
      lines.filter((line) => /^(water|carbon monoxide|carbon dioxide|residue) .* holds\??$/.test(line)).length,
    ).toBe(4);
    expect(lines).toContain("The check holds.");
    expect(out).toContain("Mind: The second step releases carbon monoxide");
    for (const line of lines) expect(line.trimEnd()).toBe(line);
  });

  test("of one that does not hold: exit code 1, and the step that is wrong", async () => {
    const { code, out } = await check(bad);
    expect(code).toBe(1);
    expect(out).toMatch(/^carbon monoxide .*-1\.0\d\d {2}does not hold$/m);
    expect(out).toContain("The check does not hold.");
  });

  test("--tolerance is the largest deviation", async () => {
    expect((await check(bad, "--tolerance", "1.5")).code).toBe(0);
    expect(await check(bad, "--tolerance", "-1")).toEqual({
      code: 2,
      out: "",
      err: "--tolerance: Give a number above 0 and at most 100 (% of the mass), not -1\n",
    });
  });

  test("--json is the whole check", async () => {
    const { code, out } = await check(bad, "--json");
    const found = JSON.parse(out);
    expect(code).toBe(1);
    expect(found).toMatchObject({
      file: "a.txt",
      substance: "calcium-oxalate-monohydrate",
      tolerance_pct: 0.3,
      holds: false,
    });
    expect(found.steps.map(({ verdict }: { verdict: string }) => verdict)).toEqual(["holds", "does not hold", "holds"]);
    expect(found.steps[1].measured_pct.terms.length).toBeGreaterThan(1);
    expect(Object.keys(found)[0]).toBe("file");
  });

  test.for(Object.keys(referenceSubstances))("%s is known, with blanks and capitals too", async (name) => {
    const cwd = tempFolder({ "a.txt": good });
    const { code, err } = await cli(["check", "a.txt", "--substance", name.replaceAll("-", " ").toUpperCase()], {
      cwd,
    });
    expect(err).toBe("");
    expect(code).toBe(name === "calcium-oxalate-monohydrate" ? 0 : 1);
  });

  test.for([
    [
      ["check", "a.txt", "--substance", "calcium-oxalat-monohydrate"],
      "--substance calcium-oxalat-monohydrate: There is no reference substance of this name. Did you mean calcium-oxalate-monohydrate?\n",
    ],
    [
      ["check", "a.txt", "--substance", "sugar"],
      "--substance sugar: There is no reference substance of this name. There are: calcium-oxalate-monohydrate, copper-sulfate-pentahydrate, sodium-bicarbonate, calcium-carbonate, gypsum\n",
    ],
    [["check", "a.txt"], "error: required option '--substance <name>' not specified\n"],
    [["check", "b.txt", "--substance", "gypsum"], "b.txt: There is no such file or folder. Check the path.\n"],
    [["check", "c.txt", "--substance", "gypsum"], "c.txt: The file is empty. Export the run again.\n"],
  ] as const)("%j is refused with exit code 2", async ([argv, message]) => {
    const { code, out, err } = await cli([...argv], { cwd: tempFolder({ "a.txt": good, "c.txt": "" }) });
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).toContain(message);
  });
});
