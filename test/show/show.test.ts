import { expect, test, vi } from "vitest";
import {
  compare,
  exampleCampaign,
  type IndexedFolder,
  indexFolder,
  protocols,
  readRun,
  readTable,
  sketch,
  toCurve,
} from "../../src/node.ts";
import { curveFigure } from "../../src/render/figures/curveFigure.ts";
import { show } from "../../src/show/show.ts";
import { makeResult } from "../campaign/makeResult.ts";
import { root } from "../house/root.ts";
import { catchStdout, fakeKernel } from "./kernelOf.ts";

const { files } = exampleCampaign(3, { size: "small", rows: 400 });
const bytes = files.find(({ name }) => /sealed.*\.txt$/.test(name))!.bytes;
const run = readRun(bytes, { name: "a.txt" });
const curve = toCurve(run, protocols.csa);
const folder: IndexedFolder = await indexFolder(`${root}fixtures/example`, { jobs: 1 });
const { campaign } = folder;
const decisions = compare(campaign, { reference: "sealed" });
const result = campaign.runs.find(({ role }) => role === "specimen")!;

const TABLE = ["text/html", "text/plain"];
const FIGURE = ["application/vnd.vegalite.v5+json", "image/svg+xml", "text/html", "text/plain"];

const values: [string, unknown, string[], RegExp][] = [
  ["a run", run, TABLE, /Run a\.txt/],
  ["the result of a run", result, TABLE, /aft-afm/],
  ["a list of results", campaign.runs, TABLE, /38 rows/],
  ["a curve", curve, FIGURE, /TG and DTG of a\.txt/],
  ["a sketch", folder.sketches[0], FIGURE, /TG and DTG of M1/],
  ["a bare sketch", sketch(curve), FIGURE, /TG and DTG: mass 100\.0 %/],
  ["a figure", curveFigure(curve), FIGURE, /TG and DTG of a\.txt/],
  ["a campaign", campaign, TABLE, /M1, ponded/],
  ["an indexed folder", folder, TABLE, /M1, ponded/],
  ["decisions", decisions, TABLE, /code and the engineer of record/],
  ["rows", campaign.ages, TABLE, /the first 50 of 60 rows/],
  ["a CSV text", "mix,index\nM1,33.5\n", TABLE, /33\.5/],
  ["a table", readTable(bytes, { name: "a.txt" }), TABLE, /the first 10 of 400 rows/],
  ["a protocol", protocols.csa, TABLE, /Windows of the protocol csa/],
  ["other text", "one line\n  and another", TABLE, /and another/],
  ["a promise of any of these", Promise.resolve(result), TABLE, /aft-afm/],
  ["no rows", [], TABLE, /0 rows/],
];

test.for(values)("a notebook gets %s as one output", async ([, value, mimes, seen]) => {
  const kernel = fakeKernel();
  const written = catchStdout();
  expect(await show(value)).toBeUndefined();
  expect(kernel.bundles.map((bundle) => Object.keys(bundle).sort())).toEqual([mimes]);
  expect(kernel.options).toEqual([{ raw: true }]);
  expect(kernel.bundles[0]!["text/plain"]).toMatch(seen);
  expect(written).toEqual([]);
});

test.for(values)("outside of a notebook %s is text on stdout", async ([, value, , seen]) => {
  const written = catchStdout();
  expect(await show(value)).toBeUndefined();
  expect(written).toHaveLength(1);
  expect(written[0]).toMatch(seen);
  expect(written[0]).toMatch(/[^\n]\n$/);
});

test("Deno without a notebook, which throws when asked for one, is no notebook", async () => {
  const deno = {
    get jupyter(): never {
      throw new Error("only available in the kernel");
    },
  };
  vi.stubGlobal("Deno", deno);
  const written = catchStdout();
  await show([{ a: 1 }]);
  expect(written.join("")).toBe("Table (1 row)\na\n1\n");
});

test("a list of figures is one output each, in order", async () => {
  const kernel = fakeKernel();
  await show([curveFigure(curve), curveFigure({ ...sketch(curve), file: "b.txt" })]);
  expect(kernel.bundles.map((bundle) => bundle["text/plain"].split("\n")[0])).toEqual([
    "TG and DTG of a.txt",
    "TG and DTG of b.txt",
  ]);
});

test("a cell stays busy for a while after its output has left", async () => {
  const kernel = fakeKernel();
  vi.useFakeTimers();
  try {
    const shown = show([{ a: 1 }]).then(() => kernel.events.push("shown"));
    // The kernel takes 2 ms; the pause of 50 ms begins after that.
    await vi.advanceTimersByTimeAsync(3);
    expect(kernel.events).toEqual(["display"]);
    await vi.advanceTimersByTimeAsync(48);
    expect(kernel.events).toEqual(["display"]);
    await vi.advanceTimersByTimeAsync(2);
    expect(kernel.events).toEqual(["display", "shown"]);
    await shown;
  } finally {
    vi.useRealTimers();
  }
});

test("the bundle of a figure holds its picture, its specification and its text", async () => {
  const kernel = fakeKernel();
  const figure = curveFigure(curve, { windows: protocols.csa.windows });
  await show(curve, { windows: protocols.csa.windows, caption: "After <7 d>" });
  const bundle = kernel.bundles[0]!;
  expect(bundle["application/vnd.vegalite.v5+json"]).toEqual(figure.spec);
  expect(bundle["image/svg+xml"]).toMatch(/^<svg [\s\S]*<path[\s\S]*carbonate[\s\S]*<\/svg>\n$/);
  expect(bundle["text/html"]).toContain(String(bundle["image/svg+xml"]));
  expect(bundle["text/html"]).toContain("<figcaption>After &lt;7 d&gt;</figcaption>");
  expect(bundle["text/plain"]).toBe(`${figure.title}\nAfter <7 d>\n${figure.alt}\n`);
});

test("without vega a figure is its text with what to do, and its specification", async () => {
  const kernel = fakeKernel();
  vi.resetModules();
  vi.doMock("vega", () => {
    throw new Error("Cannot find package 'vega'");
  });
  const fresh = await import("../../src/show/show.ts");
  await fresh.show(curve);
  const figure = curveFigure(curve);
  expect(Object.keys(kernel.bundles[0]!).sort()).toEqual(["application/vnd.vegalite.v5+json", "text/plain"]);
  const said = kernel.bundles[0]!["text/plain"];
  expect(said).toContain(figure.alt);
  expect(said).toMatch(/\nNot drawn here: Install vega to draw figures: npm install vega\..*\n$/s);
});

test("labels of strangers cannot leave their cell, in HTML or on a terminal", async () => {
  const hostile = '<img src=x onerror="alert(1)">&amp;\u001b[31m\u202e';
  const shown: unknown[] = [
    [{ [hostile]: hostile }],
    `name,${hostile.replaceAll('"', "'")}\na,${hostile.replaceAll('"', "'")}\n`,
    hostile,
    { ...campaign, ages: campaign.ages.map((row) => ({ ...row, mix: hostile, curing: hostile, window: hostile })) },
    makeResult(hostile, [1, 2], { flags: [{ code: "no-time", severity: "note", sentence: hostile, advice: hostile }] }),
    { ...makeResult(hostile, [1, 2]), status: "failed", error: { code: "no-table", message: hostile } },
    { ...run, source: { name: hostile }, reading: { ...run.reading, encoding: hostile } },
    { ...folder, plan: { ...folder.plan, unlisted: [hostile] } },
    { ...decisions, remarks: [hostile] },
    { ...sketch(curve), file: hostile },
    { ...curveFigure(curve), title: hostile, alt: hostile },
  ];
  const kernel = fakeKernel();
  for (const value of shown) await show(value, { caption: hostile });
  expect(kernel.bundles).toHaveLength(shown.length);
  for (const bundle of kernel.bundles) {
    const html = String(bundle["text/html"]);
    // What stands inside quotes is a value, whatever it looks like.
    const tags = html.replaceAll(/="[^"]*"/g, "").match(/<[^<>]*>/g) ?? [];
    expect(tags.filter((tag) => /^<(?:img|script)|onerror|[^\x20-\x7e\n]/.test(tag))).toEqual([]);
    expect(html).toContain("&lt;img");
    for (const text of [html, bundle["text/plain"]]) {
      expect(text).not.toContain("\u001b");
      expect(text).not.toContain("\u202e");
    }
    expect(bundle["text/plain"]).toContain("\\u{1b}[31m");
  }
});

test("a table has a caption and headings that say what they head", async () => {
  const kernel = fakeKernel();
  await show(
    [
      { mix: "M1", index: { value: 33.876, u: 0.26, terms: [] } },
      { mix: null, index: { missing: "no-table" } },
    ],
    {
      caption: "Two",
    },
  );
  const { "text/html": html, "text/plain": text } = kernel.bundles[0]!;
  expect(text).toBe("Two (2 rows)\nmix         index\nM1   33.88 ± 0.26\n     — (no-table)\n");
  expect(html).toMatch(/<caption[^>]*>Two \(2 rows\)<\/caption>/);
  expect(String(html).match(/<th scope="col"/g)).toHaveLength(2);
  expect(html).toMatch(/<td style="text-align:right[^>]*>33\.88 ± 0\.26<\/td>/);
});

test("rows and columns can be chosen; the caption says how many rows there are", async () => {
  const written = catchStdout();
  await show([{ a: 1, b: 2 }, { a: 3, b: 4 }, { c: 5 }], { rows: 2, columns: ["b", "a"] });
  expect(written.join("")).toBe("Table (the first 2 of 3 rows)\nb  a\n2  1\n4  3\n");
});

test.for([
  ["a flag", { f: [{ code: "no-time", sentence: "x" }] }, "no-time"],
  [
    "a list of many numbers",
    { f: Float64Array.from({ length: 9 }, (_, i) => i + 0.5) },
    "0.5; 1.5; 2.5; 3.5; 4.5; 5.5; … (9)",
  ],
  ["yes and no", { f: true }, "yes"],
  ["a long number", { f: 0.000123456789 }, "0.0001235"],
  ["a large number", { f: 123456.78 }, "123457"],
  ["no number", { f: Number.NaN }, "—"],
  ["minus nothing", { f: -0 }, "0"],
  ["an object", { f: { a: 1 } }, '{"a":1}'],
  ["a date", { f: new Date(Date.UTC(2024, 1, 2)) }, "2024-02-02T00:00:00.000Z"],
] as const)("a cell that holds %s can be read", async ([, row, seen]) => {
  const written = catchStdout();
  await show([row]);
  expect(written.join("")).toMatch(/^Table \(1 row\)\n *f\n/);
  expect(written.join("").split("\n").slice(2)).toEqual([seen, ""]);
});

test("numbers of one size stand below one another, those of very different sizes keep their digits", async () => {
  const written = catchStdout();
  await show([
    { near: 4.8, far: 0.95, whole: 7 },
    { near: 6.84812, far: 0.0002, whole: 28 },
    { near: -0.049, far: 0.05, whole: null },
  ]);
  expect(written.join("")).toBe(
    "Table (3 rows)\n  near     far  whole\n 4.800    0.95      7\n 6.848  0.0002     28\n-0.049    0.05\n",
  );
});

test.for([
  ["semicolons", "a;b\n1,5;x\n", "a    b\n1,5  x\n"],
  ["a quoted delimiter and a quoted line end", 'a,b\n"1, 2","x\ny"\n', "a     b\n1, 2  x\\u{a}y\n"],
  ["Windows line ends and a byte-order mark", "\ufeffa,b\r\n1,2\r\n", "a  b\n1  2\n"],
  ["two columns of one name", "a,a\n1,2\n", "a  a(2)\n1     2\n"],
] as const)("a CSV with %s is a table", async ([, text, seen]) => {
  const written = catchStdout();
  await show(text);
  expect(written.join("")).toBe(`Table (1 row)\n${seen}`);
});

test("a text with commas that is no table stays a text", async () => {
  const written = catchStdout();
  const text = "M1, sealed\nnothing else\n";
  await show(text);
  expect(written.join("")).toBe(text);
});

const CAN =
  "show takes a run, its result, a curve, a sketch, a table (a list of objects, a CSV text), a figure, a campaign, an indexed folder, decisions or a protocol";

test.for([
  [undefined, `${CAN}, not nothing (undefined)`],
  [null, `${CAN}, not nothing (null)`],
  [42, `${CAN}, not 42`],
  [show, `${CAN}, not the function show`],
  [{ a: 1 }, `${CAN}, not an object with a; put a single row into a list: show([row])`],
  [{}, `${CAN}, not an object without keys; put a single row into a list: show([row])`],
  [new Uint8Array(2), `${CAN}, not a Uint8Array of 2; bytes of a file become a run by readRun(bytes, { name })`],
  [[1, 2], `${CAN}, not a list whose item 0 is 1; a table is a list of objects, one per row`],
  [[{ a: 1 }, [2]], `${CAN}, not a list whose item 1 is a list; a table is a list of objects, one per row`],
  [
    [Promise.resolve(1)],
    `${CAN}, not a list whose item 0 is a promise (await it first); a table is a list of objects, one per row`,
  ],
] as const)("a value that cannot be shown is named, with what can be: %#", async ([value, message]) => {
  const written = catchStdout();
  await expect(show(value)).rejects.toThrow(new TypeError(message));
  expect(written).toEqual([]);
});

test.for([
  [{ columns: ["idnex"] }, 'No row has the column "idnex": did you mean "index"?'],
  [{ columns: ["zzzzzzzz"] }, 'No row has the column "zzzzzzzz": the columns are mix, index'],
  [{ rows: 0 }, "Show at least one row: rows is 0"],
  [{ rows: Number.NaN }, "Show at least one row: rows is NaN"],
] as const)("options that cannot be met say so: %j", async ([options, message]) => {
  await expect(show([{ mix: "M1", index: 1 }], options)).rejects.toThrow(new RangeError(message));
});

test("what is shown is not changed", async () => {
  catchStdout();
  const before = JSON.stringify([campaign, decisions]);
  for (const value of [campaign, folder, decisions, campaign.ages, campaign.runs]) await show(value, { rows: 3 });
  expect(JSON.stringify([campaign, decisions])).toBe(before);
});
