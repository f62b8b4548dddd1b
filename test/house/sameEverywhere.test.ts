import { execFile } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import promises from "node:fs/promises";
import { syncBuiltinESMExports } from "node:module";
import { join } from "node:path";
import { promisify } from "node:util";
import { expect, onTestFinished, test } from "vitest";
import { seededRandom } from "../../src/numerics/seededRandom.ts";
import { cli } from "../cli/cli.ts";
import { tempFolder } from "../files/tempFolder.ts";
import { root } from "./root.ts";

const command = `${root}bin/tg-hydrates.js`;
const example = `${root}fixtures/example`;

/** Every file below a folder, as text. */
function filesOf(folder: string): Record<string, string> {
  const found = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const paths = found.map((entry) => join(entry.parentPath, entry.name)).sort();
  return Object.fromEntries(paths.map((path) => [path.slice(folder.length + 1), readFileSync(path, "utf8")]));
}

/** Only the names, where two sets of files differ: a difference of whole files is too long to read. */
function differing(a: Record<string, string>, b: Record<string, string>): string[] {
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].filter((name) => a[name] !== b[name]);
}

function shuffled<T>(list: readonly T[], seed: number): T[] {
  const random = seededRandom(seed);
  return list
    .map((item) => [random.uniform(), item] as const)
    .sort(([a], [b]) => a - b)
    .map(([, item]) => item);
}

/** A process elsewhere in the world. */
function runIn(place: Record<string, string>, args: readonly string[], cwd: string) {
  const env = { ...process.env, LANG: "C", LC_ALL: "C", TZ: "UTC", ...place };
  return promisify(execFile)(process.execPath, args, { cwd, env, maxBuffer: 1e8 });
}

/** Decimal commas and a capital i that keeps its dot; other digits. Zones of odd minutes, and beyond the date line. */
const places = [
  { TZ: "America/St_Johns", LC_ALL: "tr_TR.UTF-8", LANG: "tr_TR.UTF-8" },
  { TZ: "Pacific/Kiritimati", LC_ALL: "ar_EG.UTF-8", LANG: "ar_EG.UTF-8" },
];

test("time zone and locale change no byte of any file, figures and report included", async () => {
  const cwd = tempFolder();
  const results = await Promise.all(
    [{}, ...places].map(async (place, i) => {
      const { stdout } = await runIn(place, [command, "index", example, "--out", `place-${i}`], cwd);
      return { ...filesOf(join(cwd, `place-${i}`)), stdout };
    }),
  );
  expect(Object.keys(results[0]!).length).toBeGreaterThan(20);
  expect(results.map((result) => differing(results[0]!, result))).toEqual(results.map(() => []));
  // The places really are elsewhere: Node itself writes numbers and dates differently there.
  const saysOf = "[(1234.5).toLocaleString(), 'I'.toLocaleLowerCase(), new Date(0).getTimezoneOffset()].join()";
  const says = await Promise.all([{}, ...places].map((place) => runIn(place, ["-p", saysOf], cwd)));
  expect(new Set(says.map(({ stdout }) => stdout)).size).toBe(places.length + 1);
});

test("a run through the night in which clocks are set forward lasts as long as anywhere", async () => {
  // Berlin, 2026-03-29: 01:59 is followed by 03:00. The balance's clock runs on, one row a minute, 10 K/min.
  const clock = (minute: number) => new Date(Date.UTC(2026, 2, 29, 1, 0) + minute * 60_000).toISOString();
  const rows = Array.from({ length: 98 }, (_, i) => {
    const [day, time] = clock(i).split(/[TZ.]/);
    return `${day} ${time}\t${30 + 10 * i}\t${(20 - 0.01 * i).toFixed(4)}`;
  });
  const cwd = tempFolder({ "night.txt": `Time\tTemperature/°C\tMass/mg\n${rows.join("\n")}\n` });
  const zones = ["UTC", "Europe/Berlin", "America/New_York"];
  const read = await Promise.all(
    zones.map((TZ) => runIn({ TZ }, [command, "read", "--json", "night.txt"], cwd).then(({ stdout }) => stdout)),
  );
  expect(new Set(read).size).toBe(1);
  const [{ segments }] = JSON.parse(read[0]!) as [{ segments: unknown[] }];
  expect(segments).toEqual([
    expect.objectContaining({ kind: "heating", duration_min: 97, heating_rate_K_per_min: 10 }),
  ]);
});

test.for([1, 2])("the order in which a folder lists its files changes no byte (seed %i)", async (seed) => {
  const names = readdirSync(example).filter((name) => name !== "README.md");
  // Made in another order too, which some disks keep.
  const folder = tempFolder(
    Object.fromEntries(shuffled(names, seed).map((name) => [`runs/${name}`, readFileSync(join(example, name))])),
  );
  const index = ["index", "runs", "--no-figures", "--out"];
  const first = await cli([...index, "first"], { cwd: folder });
  // How a folder lists its names is up to the disk.
  const { readdir } = promises;
  let asked = 0;
  const shuffledListing = async (...args: Parameters<typeof readdir>) => {
    asked++;
    return shuffled(await readdir(...args), seed + 10);
  };
  onTestFinished(() => {
    promises.readdir = readdir;
    syncBuiltinESMExports();
  });
  promises.readdir = shuffledListing as typeof readdir;
  syncBuiltinESMExports();
  const other = await cli([...index, "other"], { cwd: folder });
  expect(asked).toBeGreaterThan(0);
  expect(other).toEqual({ ...first, err: first.err.replace("to first", "to other") });
  expect(differing(filesOf(join(folder, "first")), filesOf(join(folder, "other")))).toEqual([]);
});

test("the order of the rows of sheet and properties changes no byte, that of the arguments neither", async () => {
  const texts = (name: string) => readFileSync(join(example, name), "utf8").trimEnd().split("\n");
  const shuffledRows = ([heading, ...rows]: string[]) => `${[heading, ...shuffled(rows, 7)].join("\n")}\n`;
  const properties = texts("properties.csv");
  // A property in several units is given in that of its first row, so each keeps its first row.
  const heads = ["strength", "length_change"].map((name) => properties.find((row) => row.includes(name))!);
  const rest = properties.slice(1).filter((row) => !heads.includes(row));
  const folder = tempFolder({
    "first/sheet.csv": `${texts("sheet.csv").join("\n")}\n`,
    "first/properties.csv": `${properties.join("\n")}\n`,
    "other/sheet.csv": shuffledRows(texts("sheet.csv")),
    "other/properties.csv": `${[properties[0], ...heads, ...shuffled(rest, 8)].join("\n")}\n`,
  });
  const options = [
    ["--sheet", "sheet.csv"],
    ["--properties", "properties.csv"],
    ["--reference", "sealed"],
    ["--out", "out"],
    ["--no-figures"],
  ];
  const first = await cli(["compare", example, ...options.flat()], { cwd: join(folder, "first") });
  const other = await cli(["compare", ...options.toReversed().flat(), example], { cwd: join(folder, "other") });
  expect(first.code).toBe(0);
  expect(other).toEqual(first);
  expect(differing(filesOf(join(folder, "first", "out")), filesOf(join(folder, "other", "out")))).toEqual([]);
});
