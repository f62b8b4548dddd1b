import { compile, type TopLevelSpec } from "vega-lite";
import { beforeAll, describe, expect, test } from "vitest";
import type { Campaign } from "../../../src/campaign/types.ts";
import type { Sketch } from "../../../src/curve/sketch.ts";
import { drawSvg } from "../../../src/draw/drawSvg.ts";
import type { RunDone } from "../../../src/protocol/types.ts";
import { agesFigure } from "../../../src/render/figures/agesFigure.ts";
import { budgetFigure } from "../../../src/render/figures/budgetFigure.ts";
import { campaignFigures } from "../../../src/render/figures/campaignFigures.ts";
import { contrastsFigure } from "../../../src/render/figures/contrastsFigure.ts";
import { propertyFigure } from "../../../src/render/figures/propertyFigure.ts";
import { runFigure } from "../../../src/render/figures/runFigure.ts";
import { sensitivityFigure } from "../../../src/render/figures/sensitivityFigure.ts";
import { stackFigure } from "../../../src/render/figures/stackFigure.ts";
import type { FigureWidth } from "../../../src/render/figures/theme.ts";
import type { Figure, Json } from "../../../src/render/figures/types.ts";
import { root } from "../../house/root.ts";
import { exampleFigures } from "./exampleFigures.ts";

let campaign: Campaign;
let sketches: (Sketch & { file: string })[];
beforeAll(async () => {
  ({ campaign, sketches } = await exampleFigures());
});

const runOf = (file: string): RunDone => campaign.runs.find((run) => run.file === file) as RunDone;
const sketchOf = (file: string): Sketch => sketches.find((one) => one.file === file)!;

/** One of each kind, by name. */
const kinds: Record<string, (width: FigureWidth) => Figure> = {
  run: (width) => runFigure(runOf("M1-sealed-7d-1.txt"), sketchOf("M1-sealed-7d-1.txt"), campaign.protocol, { width }),
  stack: (width) => stackFigure(campaign, sketches, { mix: "M1", width }),
  ages: (width) => agesFigure(campaign, { mix: "M1", window: "aft-afm", width }),
  contrasts: (width) => contrastsFigure(campaign, { mix: "M1", quantity: "aft-afm", width }),
  property: (width) => propertyFigure(campaign, { mix: "M1", property: "strength", quantity: "aft-afm", width }),
  budget: (width) => budgetFigure(campaign, { mix: "M1", width }),
  sensitivity: (width) => sensitivityFigure(campaign, { mix: "M1", width }),
};

/** What vega-lite says while it compiles. */
function complaints(figure: Figure): string[] {
  const said: string[] = [];
  const say = (...words: unknown[]): object => {
    said.push(words.join(" "));
    return logger;
  };
  const logger: object = {
    level: () => logger,
    error: say,
    warn: say,
    info: () => logger,
    debug: () => logger,
  };
  compile(figure.spec as unknown as TopLevelSpec, { logger: logger as never });
  return said;
}

/** Every string of a specification that is not data. */
function wordsOf(value: Json, inData = false): string[] {
  if (typeof value === "string") return inData ? [] : [value];
  if (value === null || typeof value !== "object") return [];
  if (Array.isArray(value)) return value.flatMap((one) => wordsOf(one, inData));
  return Object.entries(value).flatMap(([key, one]) => [
    ...(inData ? [] : [key]),
    ...wordsOf(one as Json, inData || key === "values"),
  ]);
}

const textsOf = (svg: string): string[] => [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text!);

describe.for(Object.keys(kinds))("a figure of the kind %s", (kind) => {
  test.for(["column", "full"] as const)(
    "%s: compiles without a word, is as wide as said, and below 60 kB",
    async (width) => {
      const figure = kinds[kind]!(width);
      expect(figure.kind).toBe(kind);
      expect(complaints(figure)).toEqual([]);
      const svg = await drawSvg(figure.spec);
      // 85 and 170 mm at 96 px per inch.
      const limit = ((width === "column" ? 85 : 170) / 25.4) * 96;
      expect(Number(/ width="([\d.]+)"/.exec(svg)![1])).toBeLessThanOrEqual(limit);
      expect(Number(/ width="([\d.]+)"/.exec(svg)![1])).toBeGreaterThan(limit - 2);
      expect(Buffer.byteLength(svg)).toBeLessThan(60_000);
      expect(JSON.stringify(figure.spec).length).toBeLessThan(60_000);
      // Nothing below 7 pt.
      const sizes = [...svg.matchAll(/font-size="([\d.]+)px"/g)].map(([, px]) => Number(px) * 0.75);
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(7);
      // No text begins left of the picture or ends right of it, by the width of a letter of a wide face.
      expect(textsOf(svg).filter((text) => /\d,\d{3}/.test(text))).toEqual([]);
    },
  );

  test("is plain JSON, the same each time, and says what is to be seen in numbers", () => {
    const figure = kinds[kind]!("full");
    expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
    expect(kinds[kind]!("full")).toEqual(figure);
    expect(figure.spec.$schema).toBe("https://vega.github.io/schema/vega-lite/v5.json");
    expect(figure.spec.description).toBe(figure.alt);
    expect(figure.alt).toMatch(/\d/);
    expect(figure.title).toMatch(/^[^\n]{10,90}$/);
    expect(figure.name).toMatch(/^[a-z0-9-]{3,80}$/);
  });

  test("is drawn as it was", async () => {
    const svg = await drawSvg(kinds[kind]!("column").spec);
    await expect(svg.replaceAll("><", ">\n<")).toMatchFileSnapshot(`${root}fixtures/expected/figures/${kind}.svg`);
  });
});

describe("what the figures show", () => {
  test("ages are marked where they were measured, on a log axis that spans more than a decade", () => {
    const { spec } = kinds.ages!("column");
    const text = JSON.stringify(spec);
    expect(text).toContain('"type":"log"');
    expect(text).toContain('"values":[1,3,7,28],"format"');
    expect(JSON.stringify(agesFigure(campaign, { mix: "M1", window: "ah3", axis: "linear" }).spec)).not.toContain(
      '"type":"log"',
    );
  });

  test("an interval that no cell has stands in no key", () => {
    const bare = campaign.ages.map((row) => ({ ...row, index_lo95: null, index_hi95: null, index_u: null }));
    for (const draw of [
      (of: Campaign) => agesFigure(of, { mix: "M1", window: "ah3" }),
      (of: Campaign) => sensitivityFigure(of, { mix: "M1" }),
    ]) {
      expect(JSON.stringify(draw(campaign).spec)).toContain('"l":"95 % interval');
      const { spec, alt } = draw({ ...campaign, ages: bare });
      expect(JSON.stringify(spec)).not.toContain('"l":"95 % interval');
      expect(alt).not.toMatch(/95 % interval (?:in )?\d/);
    }
  });

  test("every mean of ages.csv is in the figure, with its interval, and every specimen", () => {
    const text = JSON.stringify(kinds.ages!("full").spec);
    const rows = campaign.ages.filter(({ mix, window }) => mix === "M1" && window === "aft-afm");
    expect(rows.length).toBeGreaterThan(5);
    for (const { index, index_hi95 } of rows) {
      expect(text).toContain(`"v":${(index as { value: number }).value},`);
      expect(text).toContain(`"hi":${index_hi95},`);
    }
    const single = campaign.runs.find(({ file }) => file === "M1-sealed-7d-1.txt") as RunDone;
    expect(text).toContain(`"v":${(single.windows[0]!.index as { value: number }).value},`);
  });

  test("shares of variance add up to 100 % in every bar", () => {
    const { spec } = kinds.budget!("full");
    let bars = 0;
    for (const panel of spec.concat as { layer?: { data?: { values?: { r: number; s: number; e: number }[] } }[] }[]) {
      const values = (panel.layer?.[0]?.data?.values ?? []).filter(({ e }) => e !== undefined && e <= 100.1);
      for (const row of new Set(values.map(({ r }) => r))) {
        const own = values.filter(({ r }) => r === row);
        // What is below 0.05 % is not drawn.
        expect(Math.max(...own.map(({ e }) => e))).toBeGreaterThan(99.7);
        expect(Math.min(...own.map(({ s }) => s))).toBeLessThan(0.3);
        bars++;
      }
    }
    expect(bars).toBe(55);
  });

  test("moves of edges that change nothing stand beside one another, not on one another", () => {
    const { spec } = kinds.sensitivity!("column");
    const marks = [...JSON.stringify(spec).matchAll(/\{"r":([-\d.]+),"d":[^{}]*"m":"triangle/g)].map(([, r]) =>
      Number(r),
    );
    const panels = spec.concat as Json[];
    const heights = panels.map((panel) =>
      [...JSON.stringify(panel).matchAll(/\{"r":([-\d.]+),"d":[^{}]*"m":"triangle/g)].map(([, r]) => Number(r)),
    );
    expect(marks.length).toBeGreaterThan(100);
    for (const own of heights) {
      const sorted = own.sort((a, b) => a - b);
      for (let i = 1; i < sorted.length; i++) expect(sorted[i]! - sorted[i - 1]!).toBeGreaterThan(0.2);
    }
  });

  test("the area between DTG and baseline is the index", () => {
    const run = runOf("M1-sealed-7d-1.txt");
    const ah3 = run.windows.find(({ window }) => window === "ah3")!;
    const views = kinds.run!("full").spec.concat as {
      layer?: { mark: { type: string }; data: { values: { x: number[]; v: number[]; b: number[] }[] } }[];
    }[];
    const drawn = views
      .flatMap(({ layer = [] }) => layer)
      .filter(({ mark, data }) => mark.type === "area" && data.values[0]!.x[0] === ah3.from_C)
      .map(({ data }) => data.values[0]!);
    const [counted, takenOff] = drawn.map(({ x, v, b }) => {
      let sum = 0;
      for (let i = 1; i < x.length; i++) sum += ((v[i]! - b[i]! + v[i - 1]! - b[i - 1]!) / 2) * (x[i]! - x[i - 1]!);
      return sum;
    }) as [number, number];
    // What lies above the baseline counts, what lies below it is taken off.
    expect(counted).toBeGreaterThan(0);
    expect(takenOff).toBeLessThan(0);
    const sum = counted + takenOff;
    const loss = (ah3.loss_pct_initial as { value: number }).value;
    // The sketch has a point every 3 °C; its trapezium is not the curve's.
    expect(sum / loss).toBeGreaterThan(0.93);
    expect(sum / loss).toBeLessThan(1.07);
  });

  test("a figure of a mix, a window or a property that is not there is refused by name", () => {
    expect(() => agesFigure(campaign, { mix: "M9", window: "ah3" })).toThrow(
      "Name a mix and a window of the campaign, not M9 and ah3",
    );
    expect(() => stackFigure(campaign, [], { mix: "M1" })).toThrow("Name a mix of which a run has a curve, not M1");
    expect(() => budgetFigure(campaign, { mix: "M9" })).toThrow("Name a mix of the campaign, not M9");
    expect(() =>
      contrastsFigure({ ...campaign, decisions: undefined as never }, { mix: "M1", quantity: "ah3" }),
    ).toThrow("Name a quantity and a mix that were compared, not ah3 and M1");
    expect(() => propertyFigure(campaign, { mix: "M1", property: "colour", quantity: "ah3" })).toThrow(RangeError);
  });
});

describe("campaignFigures", () => {
  test("has all kinds, names that no two share, and every one compiles without a word", () => {
    const figures = campaignFigures(campaign, sketches, { which: "all" });
    expect(new Set(figures.map(({ kind }) => kind))).toEqual(new Set(Object.keys(kinds)));
    expect(new Set(figures.map(({ name }) => name.toLowerCase())).size).toBe(figures.length);
    expect(figures.filter(({ kind }) => kind === "run").length).toBe(campaign.runs.length);
    expect(figures.flatMap(complaints)).toEqual([]);
    expect(campaignFigures(campaign, sketches).some(({ kind }) => kind === "run")).toBe(false);
  });

  test("changes nothing of what it is given", () => {
    const before = JSON.stringify([campaign, sketches]);
    campaignFigures(campaign, sketches, { which: "all" });
    expect(JSON.stringify([campaign, sketches])).toBe(before);
  });

  test("of a campaign without a run there is none", () => {
    const { decisions: _, ...rest } = campaign;
    expect(campaignFigures({ ...rest, runs: [], ages: [] }, [])).toEqual([]);
  });

  const broken: [string, (one: Campaign) => Campaign][] = [
    [
      "no value",
      (one) => ({
        ...one,
        ages: one.ages.map((row) => ({
          ...row,
          index: { missing: "not-ignited" },
          index_u: null,
          index_lo95: null,
          index_hi95: null,
        })),
      }),
    ],
    [
      "no interval",
      (one) => ({
        ...one,
        ages: one.ages.map((row) => ({ ...row, index_u: null, index_lo95: null, index_hi95: null, df: null })),
      }),
    ],
    [
      "no age",
      (one) => ({
        ...one,
        ages: one.ages.map((row) => ({ ...row, age_d: null })),
        runs: one.runs.map((run) => ({ ...run, age_d: null })),
      }),
    ],
    [
      "age zero",
      (one) => ({ ...one, ages: one.ages.map((row) => ({ ...row, age_d: row.age_d === 1 ? 0 : row.age_d })) }),
    ],
    ["one age", (one) => ({ ...one, ages: one.ages.filter((row) => row.age_d === 28) })],
    [
      "no curing",
      (one) => ({
        ...one,
        ages: one.ages.map((row) => ({ ...row, curing: null, curing_d: null })),
        runs: one.runs.map((run) => ({ ...run, curing: null, curing_d: null })),
      }),
    ],
    [
      "no mix",
      (one) => ({
        ...one,
        ages: one.ages.map((row) => ({ ...row, mix: null })),
        runs: one.runs.map((run) => ({ ...run, mix: null })),
      }),
    ],
    [
      "only negative indices",
      (one) => ({
        ...one,
        ages: one.ages.map((row) => ({
          ...row,
          index: { value: -1, u: 0.1, terms: [] },
          index_lo95: -1.2,
          index_hi95: -0.8,
        })),
      }),
    ],
    [
      "nothing but zeros",
      (one) => ({
        ...one,
        ages: one.ages.map((row) => ({
          ...row,
          index: { value: 0, u: 0, terms: [] },
          index_u: 0,
          index_lo95: 0,
          index_hi95: 0,
        })),
      }),
    ],
    [
      "failed runs",
      (one) => ({
        ...one,
        runs: one.runs.map(({ file, sha256, specimen, replicate, role, session, mix, curing, curing_d, age_d }) => ({
          file,
          sha256,
          specimen,
          replicate,
          role,
          session,
          mix,
          curing,
          curing_d,
          age_d,
          status: "failed" as const,
          error: { code: "no-table", message: `${file}: no table` },
        })),
      }),
    ],
  ];
  test.for(broken)("with %s every figure that is left is drawn", async ([, change]) => {
    const figures = campaignFigures(change(campaign), sketches, { width: "column" });
    expect(figures.flatMap(complaints)).toEqual([]);
    for (const figure of figures) {
      const svg = await drawSvg(figure.spec);
      expect(svg, figure.name).not.toMatch(/NaN|undefined|Infinity/);
      expect(figure.alt).not.toMatch(/NaN|undefined|Infinity|null/);
    }
  });

  test("of a campaign ten times as large all figures stay below 60 kB", async () => {
    const more = <T extends { curing: string | null }>(rows: readonly T[]): T[] =>
      Array.from({ length: 10 }, (_, i) => rows.map((row) => ({ ...row, curing: `${row.curing} ${i}` }))).flat();
    const decisions = {
      ...campaign.decisions!,
      contrasts: more(campaign.decisions!.contrasts),
      pairs: more(campaign.decisions!.pairs),
      properties: more(campaign.decisions!.properties),
    };
    const large = { ...campaign, ages: more(campaign.ages), runs: more(campaign.runs), decisions };
    const figures = campaignFigures(large, sketches);
    const kinds = new Set<string>();
    for (const figure of figures) {
      if (kinds.has(figure.kind) && figure.kind !== "ages") continue;
      kinds.add(figure.kind);
      const svg = await drawSvg(figure.spec);
      expect([
        figure.name,
        Math.round(Buffer.byteLength(svg) / 1000),
        Math.round(JSON.stringify(figure.spec).length / 1000),
      ]).toSatisfy(([, svgSize, specSize]) => svgSize < 60 && specSize < 60);
    }
  });
});

describe("labels of a stranger", () => {
  const hostile = [
    "<script>alert(1)</script>",
    `"quoted" & 'so'`,
    "=cmd|'/c calc'!A1",
    "🧪 mix",
    "\u202etxt.exe",
    "a.b[0].c",
    "datum.x + 1",
    "{signal: 'x'}",
    "x".repeat(300),
    "two\nlines",
    "\u0000nul",
  ];

  test.for(hostile)("%j harms nothing, and is shown", async (label) => {
    const rename = <T extends { curing: string | null; mix: string | null }>(row: T): T => ({
      ...row,
      curing: row.curing === "cloth" ? label : row.curing,
      mix: label,
    });
    const named = (name: string): string => (name === "ah3" ? label : name);
    const renamed: Campaign = {
      ...campaign,
      protocol: {
        ...campaign.protocol,
        windows: campaign.protocol.windows.map((one) => ({ ...one, name: named(one.name) })),
      },
      ages: campaign.ages
        .filter(({ mix }) => mix === "M1")
        .map((row) => ({ ...rename(row), window: named(row.window) })),
      runs: campaign.runs
        .filter(({ mix }) => mix === "M1")
        .map((run) =>
          run.status === "failed"
            ? run
            : { ...rename(run), windows: run.windows.map((one) => ({ ...one, window: named(one.window) })) },
        ),
      decisions: {
        ...campaign.decisions!,
        contrasts: campaign
          .decisions!.contrasts.filter(({ mix }) => mix === "M1")
          .map((row) => ({ ...rename(row), quantity: named(row.quantity), unit: label })),
        pairs: campaign
          .decisions!.pairs.filter(({ mix }) => mix === "M1")
          .map((row) => ({ ...rename(row), property: label, unit: label })),
        properties: campaign
          .decisions!.properties.filter(({ mix }) => mix === "M1")
          .map((row) => ({ ...rename(row), property: label, unit: label })),
      },
    };
    const figures = campaignFigures(renamed, sketches, { which: "all" });
    const first = figures.filter(({ kind }, i) => figures.findIndex((one) => one.kind === kind) === i);
    expect(first.length).toBe(7);
    const drawn = new Map<string, string>();
    for (const figure of new Set([...first, ...figures.filter(({ kind }) => kind === "ages")])) {
      expect(complaints(figure)).toEqual([]);
      expect(figure.name).toMatch(/^[a-z0-9-]{3,85}$/);
      const svg = await drawSvg(figure.spec);
      drawn.set(figure.name, svg);
      expect(svg).not.toMatch(/<script|(?!\n)\p{Cc}|\u{202e}|javascript:|href/iu);
      // Well-formed: what is between tags has no bare < or &.
      expect(svg.replaceAll(/<[^<>]*>/g, "")).not.toMatch(/[<>]|&(?!amp;|lt;|gt;|quot;|#)/);
      // Outside the data it stands only where nothing is evaluated: title, description, axis titles.
      for (const word of wordsOf(figure.spec))
        if (/^(datum|signal|expr|test|filter|calculate)$/.test(word)) expect.unreachable(word);
    }
    const start = [...label.replaceAll(/[^\w ]/g, " ").trim()].slice(0, 4).join("").trim().split(" ")[0]!;
    const ages = drawn.get(figures.find(({ kind }) => kind === "ages")!.name)!;
    expect(textsOf(ages).join("\n")).toContain(start);
  });
});
