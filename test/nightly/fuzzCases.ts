// The cases of the fuzz test: every kind makes an input from random numbers, hands it to the program and holds what must be true
// of any input. The nightly script runs a million of them, test/nightly/fuzz.test.ts a short slice.
import { posix, win32 } from "node:path";
import { campaignFromJson } from "../../src/campaign/campaignFromJson.ts";
import { draftSheet } from "../../src/campaign/draftSheet.ts";
import { filePath } from "../../src/campaign/filePath.ts";
import { parseAge } from "../../src/campaign/parseAge.ts";
import { parseMixes } from "../../src/campaign/parseMixes.ts";
import { parseSheet } from "../../src/campaign/parseSheet.ts";
import { planRuns } from "../../src/campaign/planRuns.ts";
import { sheetColumns } from "../../src/campaign/sheetColumns.ts";
import { splitSheet } from "../../src/campaign/splitSheet.ts";
import type { Campaign, Problem } from "../../src/campaign/types.ts";
import { molarMass } from "../../src/chemistry/molarMass.ts";
import { theoreticalLosses } from "../../src/chemistry/theoreticalLosses.ts";
import { checkProperties } from "../../src/compare/checkProperties.ts";
import { compare } from "../../src/compare/compare.ts";
import { CompareError } from "../../src/compare/compareError.ts";
import { parseMargin } from "../../src/compare/parseMargin.ts";
import { parseProperties } from "../../src/compare/parseProperties.ts";
import { parseRequirement } from "../../src/compare/parseRequirement.ts";
import { propertyUnit } from "../../src/compare/propertyUnits.ts";
import { addShape, meanShape, type ShapeSums, shapeOf } from "../../src/curve/meanShape.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import { UnreadableError } from "../../src/errors.ts";
import { jsonFault } from "../../src/files/jsonFault.ts";
import { formulaCell } from "../../src/formulaCell.ts";
import { binderContents } from "../../src/phases/binderContents.ts";
import { checkProtocol, ProtocolError } from "../../src/protocol/checkProtocol.ts";
import { indexBytes } from "../../src/protocol/indexBytes.ts";
import { needsCurves } from "../../src/protocol/needsCurves.ts";
import { newJob } from "../../src/protocol/newJob.ts";
import { protocolSchema } from "../../src/protocol/protocolSchema.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { Protocol } from "../../src/protocol/types.ts";
import { parseColumns } from "../../src/read/parseColumns.ts";
import { parseUnit } from "../../src/read/parseUnit.ts";
import { readCell } from "../../src/read/readCell.ts";
import { readRun } from "../../src/read/readRun.ts";
import { recogniseName } from "../../src/read/recogniseName.ts";
import { agesCsv } from "../../src/render/agesCsv.ts";
import { agesTable } from "../../src/render/agesTable.ts";
import { campaignJson, runJson } from "../../src/render/campaignJson.ts";
import { dataPackage } from "../../src/render/dataPackage.ts";
import { decisionsText } from "../../src/render/decisionsText.ts";
import { figureLabel } from "../../src/render/figures/figureLabel.ts";
import { figureName } from "../../src/render/figures/figureName.ts";
import { lossesCsv } from "../../src/render/lossesCsv.ts";
import { phasesCsv } from "../../src/render/phasesCsv.ts";
import { escapeText } from "../../src/render/report/escapeText.ts";
import { reportPage } from "../../src/render/report/reportPage.ts";
import { runsCsv } from "../../src/render/runsCsv.ts";
import { terminalSafe } from "../../src/render/terminalSafe.ts";
import { type Cell, toCsv } from "../../src/render/toCsv.ts";
import { faultsOf, faultsOfError } from "../read/soundness.ts";
import { type Random, seeded, spoil } from "../read/spoil.ts";
import { tagsOf } from "../render/report/tagsOf.ts";
import { hold, holdPrototypes, outcome } from "./fault.ts";
import { pick, shiftNumbers, spoilDocument, spoilText, strangeText, strangeTexts } from "./strangeText.ts";

/** What a case hands to the program, by name: written to a file where it shows a fault. */
export type Input = Record<string, string | Uint8Array>;

/** A kind of case. */
export interface Kind {
  /** How many of a thousand cases are of this kind. */
  share: number;
  make(random: Random): Input;
  /** @returns How it ended: `done`, `problems`, or the name of a documented error. @throws Fault */
  run(input: Input): string | Promise<string>;
}

/** What the cases are made from. */
export interface Material {
  /** Files of runs, to be spoilt. */
  files: Uint8Array[];
  /** A campaign.json. */
  campaign: string;
}

/** Every kind but those that need a folder. */
export function fuzzKinds(material: Material): Record<string, Kind> {
  return {
    "spoilt run": { share: 30, make: (random) => ({ run: spoil(material.files, random(2 ** 31)) }), run: readCase },
    "made run": { share: 120, make: (random) => ({ run: madeRun(random) }), run: readCase },
    sheet: { share: 190, make: madeSheet, run: sheetCase },
    mixes: { share: 210, make: (random) => ({ mixes: madeTable(mixColumns, random) }), run: mixesCase },
    properties: {
      share: 280,
      make: (random) => ({ properties: madeTable(propertyColumns, random) }),
      run: propertiesCase,
    },
    protocol: { share: 90, make: madeProtocol, run: protocolCase },
    names: { share: 48, make: madeNames, run: namesCase },
    words: { share: 30, make: (random) => ({ word: strangeWord(random) }), run: wordsCase },
    campaign: { share: 1, make: (random) => ({ campaign: madeCampaign(material, random) }), run: campaignCase },
  };
}

/** The kind and the input of a case; the same for the same seed and number. */
export function caseOf(kinds: Record<string, Kind>, seed: number, number: number): { kind: string; input: Input } {
  const random = seeded(Math.imul(seed + 1, 0x9e3779b1) ^ Math.imul(number + 1, 0x85ebca6b));
  const names = Object.keys(kinds);
  let place = random(names.reduce((sum, name) => sum + kinds[name]!.share, 0));
  for (const kind of names) {
    if (place < kinds[kind]!.share) return { kind, input: kinds[kind]!.make(random) };
    place -= kinds[kind]!.share;
  }
  throw new Error("the shares have changed");
}

/** Runs a case. @throws Fault */
export async function runCase(kinds: Record<string, Kind>, kind: string, input: Input): Promise<string> {
  try {
    return await kinds[kind]!.run(input);
  } finally {
    holdPrototypes();
  }
}

// Runs.

const settled = settle(protocols.csa);
const encodings = ["utf8", "utf16le", "utf16be", "latin1"] as const;

function encoded(text: string, encoding: (typeof encodings)[number]): Uint8Array {
  if (encoding !== "utf16be") return new Uint8Array(Buffer.from(text, encoding));
  return new Uint8Array(Buffer.from(text, "utf16le").swap16());
}

/** A table of numbers as a stranger's program may write it; a third is as it should be, but for a strange word or number. */
function madeRun(random: Random): Uint8Array {
  const calm = random(3) === 0;
  const delimiter = pick(["\t", ";", ",", " ", "|", "  ", " ; "], random);
  const mark = random(3) === 0 && delimiter !== "," ? "," : ".";
  const columns = calm ? 3 : 1 + random(random(30) === 0 ? 60 : 5);
  const rows = calm ? 100 + random(100) : random(random(20) === 0 ? 600 : 60);
  const [start, step] = calm ? [25, 10] : [pick([20, 300, -50, 950], random), pick([0.1, 0.5, 5, 100, 0, -1], random)];
  const decimals = random(6);
  const number = (value: number): string => {
    const digits = calm ? decimals : random(6);
    const text = !calm && random(3) === 0 ? value.toExponential(digits) : value.toFixed(digits);
    return mark === "," ? text.replace(".", ",") : text;
  };
  const cell = (value: number): string => {
    if (random(calm ? 900 : 300) > 0) return number(value);
    return random(4) === 0 ? strangeText(random, 500) : pick([...oddCells, `"${number(value)}"`], random);
  };
  const kinds = Array.from({ length: columns }, (_, i) => (calm ? i : random(4)));
  const names = kinds.map((kind) => (calm ? pick(sane[kind]!, random) : strangeOr(headings, random)));
  const lines: string[] = [];
  for (let i = random(6); i > 0; i--) lines.push(preambleLine(random));
  if (calm || random(4) > 0) lines.push(names.join(delimiter));
  if (!calm && random(4) === 0)
    lines.push(kinds.map(() => strangeOr(["°C", "mg", "min", "%", ""], random)).join(delimiter));
  for (let i = 0; i < rows; i++) {
    const values = [start + step * i, 30 - 6 / (1 + Math.exp((12 - i) / 2)), i * 6, Math.sin(i)];
    lines.push(kinds.map((kind) => cell(values[kind]!)).join(delimiter));
    if (!calm && random(200) === 0) lines.push(strangeText(random));
  }
  for (let i = random(3); i > 0; i--) lines.push(strangeText(random));
  const text = lines.join(pick(["\n", "\r\n", "\r"], random));
  return encoded(!calm && random(3) === 0 ? spoilText(text, random) : text, pick(encodings, random));
}

const sane = [
  ["T/°C", "Temp. (°C)", "Temperature [°C]"],
  ["m/mg", "Mass (mg)", "Weight/mg"],
  ["Time/min", "t/s", "Time (min)"],
];
const headings = [...sane.flat(), "Temperature", "t", "TG/%", "Weight loss (%)", "DTG"];
const oddCells = [
  "",
  "NaN",
  "1.#INF",
  "12:30:05",
  "2024-05-06 07:08",
  "1e308",
  "-1e308",
  "1e-320",
  "1e200",
  "9".repeat(300),
];

function strangeOr(usual: readonly string[], random: Random): string {
  return random(12) === 0 ? strangeText(random, 300) : pick(usual, random);
}

function preambleLine(random: Random): string {
  const amount = pick(["10.2 mg", "1e300 mg", `${"9".repeat(300)} kg`, "10 K/min", "1e308 °C/s", "nitrogen"], random);
  const key = pick(["Sample mass", "Heating rate", "Gas", strangeText(random)], random);
  return pick([`${key}: ${amount}`, "", `${key}: ${strangeText(random)}`, "----", "# 10 K/min"], random);
}

function readCase({ run: bytes }: Input): string {
  const name = "run.txt";
  const input = bytes as Uint8Array;
  const read = outcome([UnreadableError], () => readRun(input, { name }));
  if ("error" in read) {
    const faults = withoutQuotes(faultsOfError(read.error as UnreadableError, name), input);
    hold(faults.length === 0, () => faults.join("; "));
    return "UnreadableError";
  }
  const faults = withoutQuotes(faultsOf(read.value, input), input);
  hold(faults.length === 0, () => faults.join("; "));
  // All the way to the written result; a readable run of a few hundred rows takes milliseconds here.
  if (input.length % 8 > 0) return "read";
  const indexed = indexBytes(input, newJob(name), { protocol: settled });
  JSON.parse(new TextDecoder().decode(runJson(indexed)));
  return indexed.status;
}

/** A message may hold such a word where the file does. */
function withoutQuotes(faults: readonly string[], bytes: Uint8Array): string[] {
  const quotes = (fault: string): boolean =>
    /^(?:message|sentence):/.test(fault) &&
    /NaN|undefined|Infinity|\[object/.test(Buffer.from(bytes).toString("latin1").replaceAll("\0", ""));
  return faults.filter((fault) => !quotes(fault));
}

// Tables.

/** Cells by column: those that are right, and those that are not; labels may be any text. */
type ColumnPool = Readonly<Record<string, readonly [right: readonly string[], wrong: readonly string[]]>>;

const labels = ["M1", "M2", "moist", "air", "sealed", "1", "a", "A", "r1", ""];
const label = [[...labels, ...strangeTexts], []] as const;
const age = [
  ["7", "28", "0", "36525", ""],
  ["-1", "1e9", "28,5", "36526", "7d"],
] as const;
const number = [
  ["0.4", "1", "20.5", "1e-3", "+3", ""],
  ["0,4", "-1", "1.234,5", "1e5", "4 %"],
] as const;
const fileNames = ["a.txt", "b.txt", "deep/c.txt", "deep\\c.txt", "./a.txt", "blank.txt", "é.txt", "e\u0301.txt"];

const sheetPool: ColumnPool = {
  file: [fileNames, ["A.TXT", ...strangeTexts]],
  ...Object.fromEntries(sheetColumns.slice(1).map((column) => [column, label])),
  blank: [
    ["", "", "", "blank.txt"],
    ["a.txt", ...strangeTexts],
  ],
  role: [
    ["", "specimen", "blank", "binder", "Aggregate"],
    ["speciman", ...strangeTexts],
  ],
  ...{ curing_d: age, age_d: age, initial_mass_mg: number, residue_mg: [["", "0.1"], ["99"]] },
  age: [
    ["", "28d", "40 h", "90min", "36525d"],
    ["7", "w", ...strangeTexts],
  ],
  columns: [
    ["", "temperature=1:K", "mass=2:mg,time=3", 'temperature="T, x":°C'],
    ["x", ...strangeTexts],
  ],
};
const mixColumns: ColumnPool = {
  mix: label,
  ...Object.fromEntries(
    "w_b loi_binder_pct sand_binder_ignited u_w_b polymer_pct gypsum_pct yeelimite_pct lime"
      .split(" ")
      .map((one) => [one, number]),
  ),
  retarder: label,
};
const propertyColumns: ColumnPool = {
  property: [
    ["strength", "length change", "flow", ...strangeTexts],
    ["Strength", "aft-afm"],
  ],
  value: number,
  unit: [["MPa"], ["psi", "%", "microstrain", "µm/m", "1", "mm", ...strangeTexts]],
  ...{ mix: label, curing: label, curing_d: [["", "7"], age[1]], age_d: age, specimen: label, note: label },
};

/** A table with its own columns; half of them hold right cells only, however strange their labels; the text may be spoilt. */
function madeTable(pool: ColumnPool, random: Random): string {
  const calm = random(2) === 0;
  const delimiter = pick([",", ";", "\t"], random);
  const columns = Object.keys(pool).filter((_, i) => i < 3 || random(3) > 0);
  if (!calm && random(4) === 0) columns.push(strangeText(random, 200));
  if (!calm && random(20) === 0) columns.push(pick(columns, random));
  const quoted = (text: string): string =>
    (calm || random(30) > 0) && /["\r\n\t,;]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  const cell = (column: string): string => {
    const [right, wrong] = Object.hasOwn(pool, column) ? pool[column]! : label;
    if (calm) return pick(right, random);
    return random(25) === 0
      ? strangeText(random, 800)
      : pick(random(6) === 0 && wrong.length > 0 ? wrong : right, random);
  };
  const rows = Array.from({ length: random(random(60) === 0 ? 200 : 5) }, () => columns.map(cell));
  const text = [columns, ...rows]
    .map((row) => row.map(quoted).join(delimiter))
    .join(pick(["\n", "\r\n", "\r"], random));
  const marked = random(8) === 0 ? `\ufeff${text}` : text;
  return !calm && random(4) === 0 ? spoilText(marked, random) : marked;
}

function madeSheet(random: Random): Input {
  const files = [
    ...fileNames,
    ...Array.from({ length: random(5) }, () => strangeText(random, 100)),
    "..\\b.txt",
    "C:x.txt",
  ];
  return {
    sheet: madeTable(sheetPool, random),
    mixes: random(2) === 0 ? madeTable(mixColumns, random) : "",
    files: JSON.stringify(files),
  };
}

function sheetCase({ sheet, mixes, files }: Input): string {
  const there: string[] = JSON.parse(files as string);
  const { rows, problems } = parseSheet(sheet as string, { name: "sheet.csv" });
  for (const { file, blank, ...row } of rows) {
    for (const path of [file, ...(blank === null ? [] : [blank])]) holdInside(path);
    holdFinite(row);
  }
  holdProblems(problems, sheet as string);
  holdCells(rows.map(({ mix, curing, specimen, note }) => ({ mix, curing, specimen, note })));
  const given = { sheet: { name: "sheet.csv", text: sheet as string }, files: there };
  const plan = planRuns(mixes === "" ? given : { ...given, mixes: { name: "mixes.csv", text: mixes as string } });
  const [known, wrong] = [new Set(there), new Set(plan.problems.map(({ line }) => line))];
  for (const { file, line } of plan.jobs)
    hold(known.has(file) || wrong.has(line), () => `planned a file that is not there: ${file}`);
  return plan.problems.length > 0 ? "problems" : "done";
}

function mixesCase({ mixes }: Input): string {
  const { rows, problems } = parseMixes(mixes as string, { name: "mixes.csv" });
  holdProblems(problems, mixes as string);
  for (const mix of rows) {
    holdFinite(mix);
    hold(Object.getPrototypeOf(mix.contents) === Object.prototype, () => "contents have another prototype");
    binderContents(mix);
  }
  holdCells(rows.map(({ mix, retarder }) => ({ mix, retarder })));
  return problems.length > 0 ? "problems" : "done";
}

const cells = [
  { mix: "M1", curing: "moist", curing_d: 7, age_d: 28 },
  { mix: "constructor", curing: "__proto__", curing_d: null, age_d: null },
];

function propertiesCase({ properties }: Input): string {
  const { rows, problems } = parseProperties(properties as string, { name: "properties.csv" });
  holdProblems(problems, properties as string);
  for (const row of rows) holdFinite(row);
  holdCells(rows.map(({ mix, curing, specimen, property, unit }) => ({ mix, curing, specimen, property, unit })));
  holdProblems(checkProperties(rows, cells, "properties.csv").problems, properties as string);
  return problems.length > 0 ? "problems" : "done";
}

/** A path of a sheet stays below its folder, on every system. */
function holdInside(path: string): void {
  const leaves = (system: typeof posix, root: string): boolean => {
    const relative = system.relative(root, system.resolve(root, path));
    return relative === "" || relative.split(system.sep)[0] === ".." || system.isAbsolute(relative);
  };
  const outside = leaves(posix, "/data/runs") || leaves(win32, "C:\\data\\runs") || /\p{Cc}/u.test(path);
  hold(!outside, () => `a path leaves the folder: ${JSON.stringify(path)}`);
}

function holdFinite(row: object): void {
  for (const [key, value] of Object.entries(row)) {
    hold(typeof value !== "number" || Number.isFinite(value), () => `${key} is ${value}`);
  }
}

function holdProblems(problems: readonly Problem[], text: string): void {
  const last = text.split(/\r\n|\r|\n/).length;
  for (const { line, message } of problems) {
    hold(line === undefined || (line >= 1 && line <= last), () => `line ${line} of ${last}: ${message}`);
    hold(message !== "" && message.length < 3000, () => `message of ${message.length} characters`);
  }
}

/** Labels written as CSV come back as they were, and no spreadsheet runs any of them. */
function holdCells(rows: readonly Readonly<Record<string, Cell>>[]): void {
  const [first] = rows;
  if (first === undefined) return;
  const columns = Object.keys(first);
  const text = toCsv(columns, rows);
  const back = splitSheet(text, { name: "back.csv", known: [] }).rows;
  const filled = rows.filter((row) => Object.values(row).some((cell) => cell !== null && cell !== ""));
  hold(back.length === filled.length, () => `${filled.length} rows came back as ${back.length}`);
  for (const [i, row] of filled.entries()) {
    for (const column of columns) {
      // Blanks around a cell are the sheet's, not the label's.
      const before = typeof row[column] === "string" ? row[column].trim() : row[column];
      const after = back[i]!.cells.get(column);
      hold((before ?? undefined) === after, () => `${JSON.stringify(before)} came back as ${JSON.stringify(after)}`);
    }
  }
  for (const [, quoted, plain] of text.matchAll(/(?:^|[,\n])(?:"((?:[^"]|"")*)"|([^",\n]*))/g)) {
    const cell = quoted?.replaceAll('""', '"') ?? plain ?? "";
    const runs = /^[=+\-@\t\r＝＋－＠]/.test(cell) && !/^[-+][\d.]+(?:e[-+]?\d+)?$/i.test(cell);
    hold(!runs, () => `a spreadsheet runs ${JSON.stringify(cell)}`);
  }
}

// Protocols.

function madeProtocol(random: Random): Input {
  const whole = pick(Object.values(protocols), random);
  const document = random(2) === 0 ? shiftNumbers(whole, random, pick([20, 60], random)) : spoilDocument(whole, random);
  const written = JSON.stringify(document, null, pick([0, 2], random)) ?? "null";
  // A number that JSON can write and a computer cannot hold.
  const text =
    random(9) === 0 ? written.replaceAll(/: ?\d+/g, (found) => (random(40) === 0 ? ":1e999" : found)) : written;
  return { protocol: random(6) === 0 ? spoilText(text, random) : text };
}

function protocolCase({ protocol: written }: Input): string {
  const text = written as string;
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    const fault = jsonFault(text);
    hold(fault !== null, () => "no fault is found in what is no JSON");
    const lines = text.split("\n");
    hold(
      fault!.line <= lines.length && fault!.column <= lines[fault!.line - 1]!.length + 1,
      () => "the fault is past the end",
    );
    return "no JSON";
  }
  const fault = jsonFault(text);
  hold(fault === null || fault.what.includes("nested too deep"), () => `JSON, but: ${fault?.what}`);
  const checked = outcome([ProtocolError], () => checkProtocol(document, { name: "p.json" }));
  if ("error" in checked) {
    hold(
      checked.error.message.split("\n").every((line) => line.startsWith("p.json: ")),
      () => checked.error.message,
    );
    hold(checked.error.message.length < 50_000, () => `message of ${checked.error.message.length} characters`);
    return "ProtocolError";
  }
  holdShape(checked.value, protocolSchema as AnySchema, "protocol");
  // Using it takes longer than checking it.
  return text.length % 4 === 0 ? usedProtocol(checked.value) : "done";
}

interface AnySchema {
  entries?: Record<string, AnySchema>;
  item?: AnySchema;
  items?: AnySchema[];
  wrapped?: AnySchema;
}

/** What passed the check is of the shape that the schema says: objects, lists and pairs, with known fields only. */
function holdShape(value: unknown, schema: AnySchema, at: string): void {
  const { entries, item, items } = schema.wrapped ?? schema;
  if (value === null || typeof value !== "object") return;
  if (entries) {
    hold(!Array.isArray(value), () => `${at} is a list`);
    for (const [key, inner] of Object.entries(value)) {
      hold(Object.hasOwn(entries, key), () => `${at} has a field ${key}`);
      holdShape(inner, entries[key]!, `${at}.${key}`);
    }
  } else {
    hold(Array.isArray(value), () => `${at} is no list`);
    const list = value as unknown[];
    if (items) hold(list.length === items.length, () => `${at} has ${list.length} items`);
    for (const [i, inner] of list.entries()) holdShape(inner, item ?? items?.[i] ?? {}, `${at}[${i}]`);
  }
}

let sample: Uint8Array | undefined;

/** A protocol that passed its check can be settled and used. */
function usedProtocol(protocol: Protocol): string {
  sample ??= new TextEncoder().encode(
    [
      "T/°C\tm/mg",
      ...Array.from({ length: 190 }, (_, i) => `${25 + 5 * i}\t${(30 - 6 / (1 + Math.exp((27 - i) / 2))).toFixed(4)}`),
    ].join("\n"),
  );
  const bytes = sample;
  const { choose: _, ...smoothing } = protocol.smoothing;
  const fixed: Protocol = { ...protocol, smoothing };
  const used = outcome([ProtocolError, UnreadableError], () => {
    if (!needsCurves(fixed)) return settle(fixed);
    const sums: ShapeSums = { regimes: new Map() };
    addShape(sums, "one", shapeOf(toCurve(readRun(bytes), fixed)));
    return settle(fixed, { mean: meanShape(sums) });
  });
  if ("error" in used) return used.error.name;
  const indexed = indexBytes(bytes, newJob("a.txt"), { protocol: used.value });
  JSON.parse(new TextDecoder().decode(runJson(indexed)));
  return indexed.status;
}

// Names and words.

function madeNames(random: Random): Input {
  const parts = [
    "M1",
    "moist",
    "7d",
    "28d",
    "r1",
    "_",
    "-",
    " ",
    "age",
    "blank",
    "20240506",
    "mix",
    "rh95",
    "1",
    "03",
    "prism2",
    "day 7",
  ];
  const name = (): string =>
    Array.from({ length: random(7) }, () => (random(9) === 0 ? strangeText(random, 2000) : pick(parts, random))).join(
      pick(["_", "", "/"], random),
    );
  return { names: JSON.stringify(Array.from({ length: random(8) }, () => `${name()}.txt`)) };
}

function namesCase({ names }: Input): string {
  const files: string[] = JSON.parse(names as string);
  const { rows, text } = draftSheet(files);
  hold(rows.length === files.length, () => "a file was lost");
  hold(!/\n[=+\-@\t\r]/.test(text.replaceAll(/"(?:[^"]|"")*"/g, "q")), () => "a formula begins a line");
  for (const file of files) {
    const path = filePath(file);
    if ("file" in path) holdInside(path.file);
  }
  return "done";
}

function strangeWord(random: Random): string {
  const valid = [
    "28d",
    "temperature=2:K,mass=4:mg",
    "strength=10%",
    "strength>=24 MPa",
    "C6A$3H32",
    "Ca(OH)2",
    "Temp. (°C)",
    "12:30:05",
    "1.234,5",
  ];
  const word = random(2) === 0 ? strangeText(random, 20_000) : pick(valid, random);
  return random(2) === 0 ? spoilText(word, random) : word;
}

function wordsCase({ word: given }: Input): string {
  const word = given as string;
  outcome([SyntaxError, RangeError], () => parseAge(word));
  outcome([SyntaxError], () => parseColumns(word));
  outcome([CompareError], () => parseMargin(word));
  outcome([CompareError], () => parseRequirement(word));
  outcome([SyntaxError, RangeError], () => molarMass(word));
  outcome([SyntaxError, RangeError], () => theoreticalLosses(word));
  propertyUnit(word, { length: true });
  parseUnit(word);
  recogniseName(word);
  readCell(word, ".");
  readCell(word, ",");
  formulaCell.test(word);
  figureLabel(word.slice(0, 5000));
  const name = figureName(word, null, "x");
  hold(/^[a-z0-9-]{1,80}$/.test(name), () => `the name of a figure: ${name}`);
  hold(!/(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Cs}]/u.test(terminalSafe(word)), () => "not safe for a terminal");
  hold(!/[<>"']/.test(escapeText(word)), () => "not safe for a page");
  return "done";
}

// campaign.json.

function madeCampaign({ campaign }: Material, random: Random): string {
  if (random(6) === 0) return spoilText(campaign, random);
  if (random(2) === 0) return JSON.stringify(shiftNumbers(JSON.parse(campaign), random, pick([20, 500, 3000], random)));
  return JSON.stringify(spoilDocument(JSON.parse(campaign), random)) ?? "null";
}

function campaignCase({ campaign: text }: Input): string {
  const read = outcome([UnreadableError, ProtocolError], () => campaignFromJson(text as string));
  if ("error" in read) return read.error.name;
  return usedCampaign(read.value);
}

function usedCampaign(campaign: Campaign): string {
  for (const csv of [agesCsv, runsCsv, lossesCsv, phasesCsv]) csv(campaign);
  const onTerminal = agesTable(campaign);
  hold(!/(?!\n)(?![\u200c\u200d])[\p{Cc}\p{Cf}]/u.test(onTerminal), () => "the table is not safe for a terminal");
  dataPackage(campaign, [{ name: "ages.csv" }]);
  JSON.parse(campaignJson(campaign));
  const [curing] = campaign.ages.flatMap((row) => row.curing ?? []);
  const compared = outcome([CompareError], () => compare(campaign, { reference: curing ?? "x" }));
  const decided = "value" in compared ? { ...campaign, decisions: compared.value } : campaign;
  if (decided.decisions) decisionsText(decided.decisions);
  tagsOf(reportPage({ campaign: decided }));
  return "error" in compared ? "CompareError" : "done";
}
