import { describe, expect, test } from "vitest";
import { UnreadableError } from "../../src/errors.ts";
import { indexBytes } from "../../src/protocol/indexBytes.ts";
import { newJob } from "../../src/protocol/newJob.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { parseColumns } from "../../src/read/parseColumns.ts";
import { readRun } from "../../src/read/readRun.ts";
import { runJson } from "../../src/render/campaignJson.ts";

const protocol = settle(protocols.csa);
const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A run in which the sample weighs `top` up to 880 °C and `tail` from there on. */
function step(top: number, tail: number, preamble = ""): Uint8Array {
  const rows = Array.from({ length: 196 }, (_, i) => `${6 * i};${25 + 5 * i};${25 + 5 * i < 880 ? top : tail}`);
  return encode(`${preamble}Time/s;T/°C;m/mg\n${rows.join("\n")}\n`);
}

describe("numbers beyond anything that is weighed", () => {
  test.for([
    [30, 1e-308],
    [30, 1e-200],
    [1e9, 1e-300],
    [1e-300, 1e-301],
    [1e-200, 5e-201],
    [1e9, 5e8],
    [5e8, -1e9],
  ] as const)("a mass that falls from %s to %s mg gives numbers that can be written, or none", ([top, tail]) => {
    for (const known of [{}, { initial_mass_mg: 1e6 }, { residue_mg: 1e-6 }]) {
      const result = indexBytes(step(top, tail), newJob("a.txt", known), { protocol });
      expect(() => JSON.parse(new TextDecoder().decode(runJson(result)))).not.toThrow();
    }
  });

  test("one such reading neither counts nor sets the digits of the others", () => {
    const text = new TextDecoder().decode(step(30, 24)).replace(";30\n", ";1e300\n");
    const run = readRun(encode(text));
    expect(run.reading.rows_dropped).toEqual([{ reason: "impossible mass", count: 1, lines: [2] }]);
    expect([run.mass[0], Math.max(...run.mass)]).toEqual([30, 30]);
    expect(run.massResolution).toBeLessThanOrEqual(1e9);
    expect(() => runJson(indexBytes(encode(text), newJob("a.txt"), { protocol }))).not.toThrow();
  });

  test.for(["1e308", "-1e308", "1e200"])("no unit of time is guessed from a temperature of %s", (odd) => {
    const rows = Array.from({ length: 60 }, (_, i) => `${i};${i === 30 ? odd : 300 + 10 * i};${30 - i / 10}`);
    const run = readRun(encode(`t;Temperature;Mass (mg)\n${rows.join("\n")}\n`));
    expect(run.flags.map(({ sentence }) => sentence).filter((sentence) => /Infinity|NaN|e\+/.test(sentence))).toEqual(
      [],
    );
    expect(run.temperature).toHaveLength(59);
  });

  test("a time is none where one of its readings is", () => {
    const run = readRun(encode(new TextDecoder().decode(step(30, 24)).replace("\n60;", "\n1e300;")));
    expect(run.time).toBeNull();
    expect(run.flags.find(({ code }) => code === "time-unusable")?.sentence).toBe("The time in line 12 is impossible.");
  });

  test.for(["1e300 mg", `${"9".repeat(200)} kg`, "1e-300 mg"])(
    "a sample that is stated to weigh %s states nothing",
    (mass) => {
      const run = readRun(step(30, 24, `Sample mass: ${mass}\n`));
      expect(run.reading.stated?.initial_mass_mg).toBeNull();
    },
  );

  test("nothing but such masses is no run", () => {
    expect(() => readRun(step(1e300, 1e299), { name: "a.txt" })).toThrow(UnreadableError);
  });
});

describe("texts at which a pattern could run away", () => {
  // Each took minutes to ages before: they are to end, within the time that any test has.
  test.for([
    `-=${"\t".repeat(900)}:${"\t".repeat(900)}\n::`,
    `a=${" ".repeat(1990)}`,
    `a=${'"'.repeat(1990)}`,
    `${"a=b:".repeat(400)}`,
  ])("columns %#", (text) => {
    expect(() => parseColumns(text)).toThrow(SyntaxError);
  });

  test("columns beyond 2000 characters are not looked at", () => {
    expect(() => parseColumns("a=1,".repeat(1e6))).toThrow("in at most 2000 characters, not 4000000");
  });

  test.for(["(", "[", " ", "\t", "% ", "设定", "质量", "0", "T/", "\u2028"])("a heading that repeats %j", (flood) => {
    const heading = flood.repeat(Math.floor(19_000 / flood.length));
    const text = new TextDecoder().decode(step(30, 24)).replace("m/mg", `m/mg${heading}\u2028)`);
    const read = () => readRun(encode(text), { name: "a.txt", columns: parseColumns("temperature=2:°C,mass=3:mg") });
    expect(read().mass).toHaveLength(196);
  });
});
