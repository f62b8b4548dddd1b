import { expect, test } from "vitest";
import { readRun } from "../../src/read/readRun.ts";

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
const rows = Array.from({ length: 60 }, (_, i) => [`${6 * i}.0`, `${25 + 10 * i}.00`, `${(20 - 0.05 * i).toFixed(4)}`]);

/** What can happen to the row `300.0 525.00 17.5000` in line 52. */
const spoils: [string, (cells: string[]) => string, string][] = [
  ["a cell of letters", ([t, T]) => `${t};${T};abc`, "unreadable cell"],
  ["a letter in a number", ([t, T, m]) => `${t};${T!.replace("5", "S")};${m}`, "unreadable cell"],
  ["the other decimal mark", ([t, T, m]) => `${t};${T};${m!.replace(".", ",")}`, "unreadable cell"],
  ["two points in a number", ([t, T, m]) => `${t};${T};${m!.replace(".", "..")}`, "unreadable cell"],
  ["a unit no other cell has", ([t, T, m]) => `${t};${T} K;${m}`, "unreadable cell"],
  ["a lost delimiter", ([t, T, m]) => `${t};${T}${m}`, "wrong number of cells"],
  ["one cell only", ([t]) => `${t}`, "wrong number of cells"],
  ["a cell too many", ([t, T, m]) => `${t};${T};${m};1.0`, "wrong number of cells"],
  ["two rows in one line", ([t, T, m]) => `${t};${T};${m}${t};${T};${m}`, "wrong number of cells"],
  ["an empty mass", ([t, T]) => `${t};${T};`, "mass missing"],
  ["a missing mark for the temperature", ([t, , m]) => `${t};---;${m}`, "temperature missing"],
  ["temperature and mass missing", ([t]) => `${t};n/a;n/a`, "temperature and mass missing"],
  ["an empty time", ([, T, m]) => `;${T};${m}`, "time missing"],
  ["a temperature below absolute zero", ([t, , m]) => `${t};-999.9;${m}`, "impossible temperature"],
  ["a mass that no balance weighs", ([t, T]) => `${t};${T};1e300`, "impossible mass"],
  ["an exponent beyond all numbers", ([t, T]) => `${t};${T};1e999`, "mass missing"],
];

test.for(spoils)("%s: the row is left out and told", ([, spoil, reason]) => {
  const lines = rows.map((cells, i) => (i === 50 ? spoil(cells) : cells.join(";")));
  const run = readRun(encode(`Time/s;Temperature/°C;Mass/mg\n${lines.join("\n")}\n`));
  expect(run.reading.rows_read).toBe(59);
  expect(run.reading.rows_dropped).toEqual([{ reason, count: 1, lines: [52] }]);
  expect(run.flags.map(({ code }) => code)).toEqual(["rows-dropped"]);
  expect(run.flags[0]!.sentence).toBe(`1 row was not read (${reason}): line 52`);
  expect([...run.lines]).toEqual([
    ...Array.from({ length: 50 }, (_, i) => i + 2),
    ...Array.from({ length: 9 }, (_, i) => i + 53),
  ]);
});

test("odd clothes do not cost a row", () => {
  const clothes: ((cells: string[]) => string)[] = [
    (cells) => cells.map((cell) => `"${cell}"`).join(";"),
    (cells) => cells.map((cell) => ` ${cell}\t`).join(";"),
    (cells) => `${cells.join(";")};;;`,
    (cells) => cells.map((cell) => `+${cell}`).join(";"),
    (cells) => cells.map((cell) => Number(cell).toExponential(8)).join(";"),
    (cells) => `\0\0${cells.join(";")}\0`,
    (cells) => cells.map((cell) => cell.replace(/^0\.0$/, ".0")).join(";"),
  ];
  const plain = readRun(encode(`Time/s;Temperature/°C;Mass/mg\n${rows.map((cells) => cells.join(";")).join("\n")}\n`));
  const lines = rows.map((cells, i) => (i % 5 === 2 ? clothes[i % clothes.length]!(cells) : cells.join(";")));
  const run = readRun(encode(`Time/s;Temperature/°C;Mass/mg\n${lines.join("\n")}\n`));
  expect(run.reading.rows_dropped).toEqual([]);
  expect([...run.temperature]).toEqual([...plain.temperature]);
  expect([...run.mass]).toEqual([...plain.mass]);
  expect([...run.time!]).toEqual([...plain.time!]);
});

test("many remarks between the rows, each with another heading, take no noticeable time and lose no row in silence", () => {
  const lines = Array.from({ length: 20_000 }, (_, i) => `x${i};y${i};z${i}\n${6 * i};${25 + i};${20 - i / 1e4}`);
  const run = readRun(encode(`Time/s;Temperature/°C;Mass/mg\n1;24;21\n2;24.5;20.9\n${lines.join("\n")}\n`), {
    columns: [
      { column: "2", quantity: "temperature", unit: "°C" },
      { column: "3", quantity: "mass", unit: "mg" },
    ],
  });
  const dropped = run.reading.rows_dropped.reduce((sum, { count }) => sum + count, 0);
  expect(run.reading.rows_read + dropped).toBeGreaterThanOrEqual(20_002);
  expect(run.flags.map(({ code }) => code)).toContain("rows-dropped");
});

test("a time that never moves is no time", () => {
  const lines = rows.map(([, T, m]) => `7;${T};${m}`);
  const run = readRun(encode(`Time/s;Temperature/°C;Mass/mg\n${lines.join("\n")}\n`));
  expect(run.time).toBeNull();
  expect(run.flags.map(({ code, sentence }) => `${code}: ${sentence}`)).toEqual([
    "time-unusable: The time stands still in all 60 rows.",
  ]);
});

test("a time that runs backwards again and again is no time; once, it stands still", () => {
  const zigzag = rows.map(([t, T, m], i) => `${i % 3 === 2 ? Number(t) - 9 : t};${T};${m}`);
  const bad = readRun(encode(`Time/s;Temperature/°C;Mass/mg\n${zigzag.join("\n")}\n`));
  expect(bad.time).toBeNull();
  expect(bad.flags.map(({ code }) => code)).toEqual(["time-unusable"]);
  const once = rows.map(([t, T, m], i) => `${i === 40 ? Number(t) - 9 : t};${T};${m}`);
  const good = readRun(encode(`Time/s;Temperature/°C;Mass/mg\n${once.join("\n")}\n`));
  expect(good.time![40]).toBe(good.time![39]);
  expect(good.flags.map(({ code }) => code)).toEqual(["time-repeats"]);
});
