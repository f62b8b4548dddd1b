import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { sha256 } from "../../src/files/sha256.ts";
import { dataPackage } from "../../src/render/dataPackage.ts";
import { tables } from "../../src/render/tables.ts";
import { cli } from "../cli/cli.ts";
import { csv } from "../cli/csv.ts";
import { tempFolder } from "../files/tempFolder.ts";

interface Field {
  name: string;
  type: string;
  title: string;
  description: string;
  unit?: string;
  constraints?: Record<string, unknown> & { enum?: string[] };
}
interface Resource {
  name: string;
  path: string;
  bytes?: number;
  hash?: string;
  schema?: { fields: Field[]; primaryKey?: string[]; uniqueKeys?: string[][]; foreignKeys?: Foreign[] };
}
interface Foreign {
  fields: string[];
  reference: { resource: string; fields: string[] };
}

const packageOf = (folder: string): { resources: Resource[] } =>
  JSON.parse(readFileSync(join(folder, "datapackage.json"), "utf8"));
const namesOf = (folder: string) => packageOf(folder).resources.map(({ path }) => path);
const indexed = ["runs.csv", "losses.csv", "phases.csv", "ages.csv"];
const compared = [
  ...["contrasts.csv", "growth.csv", "properties.csv", "together.csv", "pairs.csv", "sufficient.csv", "planning.csv"],
];
const example = join(process.cwd(), "fixtures/example");
const comparing = ["--reference", "sealed", "--margin", "10%", "--properties", join(example, "properties.csv")];

let cwd: string;
beforeAll(async () => {
  cwd = mkdtempSync(join(tmpdir(), "tg-hydrates-"));
  expect((await cli(["index", example, "--out", "indexed", "--protocol", "csa-amounts"], { cwd })).code).toBe(0);
  expect((await cli(["index", example, "--out", "both"], { cwd })).code).toBe(0);
  // Names that a spreadsheet would run, no mix and no age, runs that cannot be read or are cut off.
  mkdirSync(join(cwd, "runs"));
  const whole = readFileSync(join(example, "M1-sealed-7d-1.txt"));
  writeFileSync(join(cwd, "runs/=a, 1.txt"), whole);
  writeFileSync(join(cwd, "runs/-b.txt"), whole.subarray(0, whole.length / 2));
  writeFileSync(join(cwd, "runs/c.txt"), "");
  writeFileSync(join(cwd, "runs/d.txt"), "no table\n");
  expect(
    (await cli(["index", "runs", "--out", "odd", "--no-figures", "--protocol", "csa-amounts"], { cwd })).code,
  ).toBe(1);
  expect((await cli(["compare", "both/campaign.json", ...comparing, "--out", "both"], { cwd })).code).toBe(0);
}, 120_000);
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

describe("datapackage.json", () => {
  test("describes every table and document that is there, and no other", () => {
    expect(namesOf(join(cwd, "indexed"))).toEqual([...indexed, "curves.ndjson", "campaign.json"]);
    expect(namesOf(join(cwd, "both"))).toEqual([...indexed, ...compared, "curves.ndjson", "campaign.json"]);
    const there = readdirSync(join(cwd, "both")).filter(
      (name) => !["datapackage.json", "report.html", "figures"].includes(name),
    );
    expect([...namesOf(join(cwd, "both"))].sort()).toEqual(there.sort());
  });

  test("of a comparison alone, or beside tables of other runs or of the user's, describes its own", async () => {
    const source = join(cwd, "both/campaign.json");
    expect((await cli(["compare", source, ...comparing, "--out", "alone"], { cwd })).code).toBe(0);
    expect(namesOf(join(cwd, "alone"))).toEqual([...compared, "campaign.json"]);
    const folder = tempFolder({ "runs.csv": "file,of,another\n1,2,3\n", "curves.ndjson": "{}\n" });
    expect((await cli(["compare", source, ...comparing, "--out", "."], { cwd: folder })).code).toBe(0);
    expect(namesOf(folder)).toEqual([...compared, "campaign.json"]);
  });

  test("leaves out the tables of an earlier comparison once the folder is indexed anew", async () => {
    expect((await cli(["index", example, "--out", "anew"], { cwd })).code).toBe(0);
    expect((await cli(["compare", "anew/campaign.json", ...comparing, "--out", "anew"], { cwd })).code).toBe(0);
    const before = readFileSync(join(cwd, "anew/datapackage.json"), "utf8");
    expect(before).toBe(readFileSync(join(cwd, "both/datapackage.json"), "utf8"));
    expect((await cli(["index", example, "--out", "anew"], { cwd })).code).toBe(0);
    expect(namesOf(join(cwd, "anew"))).toEqual([...indexed, "curves.ndjson", "campaign.json"]);
  });

  test("gives length and SHA-256 of what is on the disk", () => {
    const folder = join(cwd, "both");
    const known = packageOf(folder).resources.filter(({ hash }) => hash !== undefined);
    expect(known.map(({ path }) => path)).toEqual([...indexed, ...compared, "campaign.json"]);
    for (const { path, bytes, hash } of known) {
      const content = readFileSync(join(folder, path));
      expect({ path, bytes, hash }).toEqual({ path, bytes: content.length, hash: `sha256:${sha256(content)}` });
    }
  });

  test("names the columns of every file in their order", () => {
    for (const folder of ["indexed", "both", "odd"]) {
      for (const { path, schema } of packageOf(join(cwd, folder)).resources) {
        if (!schema) continue;
        const [heading] = readFileSync(join(cwd, folder, path), "utf8").split("\n");
        expect(heading, path).toBe(schema.fields.map(({ name }) => name).join(","));
      }
    }
  });

  test("says the truth about every cell", () => {
    let cells = 0;
    const faults: string[] = [];
    for (const folder of ["indexed", "both", "odd"]) {
      for (const { path, schema } of packageOf(join(cwd, folder)).resources) {
        if (!schema) continue;
        for (const [i, row] of csv(join(cwd, folder, path)).entries()) {
          for (const field of schema.fields) {
            const fault = faultOf(row[field.name]!, field);
            if (fault !== null) faults.push(`${path}, row ${i + 1}, ${field.name}: ${fault}`);
            cells++;
          }
        }
      }
    }
    expect(faults).toEqual([]);
    expect(cells).toBeGreaterThan(20_000);
  });

  test("names keys that tell the rows apart, and foreign keys that lead somewhere", () => {
    for (const folder of ["indexed", "both", "odd"]) {
      const { resources } = packageOf(join(cwd, folder));
      for (const { path, schema } of resources) {
        if (!schema) continue;
        const rows = csv(join(cwd, folder, path));
        expect(rows.length, path).toBeGreaterThan(0);
        const { primaryKey, uniqueKeys = [], foreignKeys = [] } = schema;
        const keys = [...(primaryKey ? [primaryKey] : []), ...uniqueKeys];
        expect(keys, path).toHaveLength(1);
        for (const key of keys) {
          const seen = new Set(rows.map((row) => JSON.stringify(key.map((name) => row[name]))));
          expect(seen.size, `${path}: ${key.join(", ")}`).toBe(rows.length);
        }
        for (const { fields, reference } of foreignKeys) {
          const target = resources.find(({ name }) => name === reference.resource)!;
          const values = new Set(csv(join(cwd, folder, target.path)).map((row) => row[reference.fields[0]!]));
          expect(rows.filter((row) => !values.has(row[fields[0]!]))).toEqual([]);
        }
      }
    }
  });
});

/** What is wrong with a cell by its field, in the words of Table Schema 2.0 as we read them; null where nothing is. */
function faultOf(cell: string, { type, constraints = {} }: Field): string | null {
  if (cell === "") return constraints.required ? "empty" : null;
  if (type !== "string" && !/^[-+]?\d+(\.\d+)?(e[-+]?\d+)?$/i.test(cell)) return `no number: ${cell}`;
  if (type === "integer" && !/^[-+]?\d+$/.test(cell)) return `not whole: ${cell}`;
  const { minimum, maximum, pattern, enum: words } = constraints;
  if (typeof minimum === "number" && Number(cell) < minimum) return `below ${minimum}: ${cell}`;
  if (typeof maximum === "number" && Number(cell) > maximum) return `above ${maximum}: ${cell}`;
  if (typeof pattern === "string" && !new RegExp(`^(?:${pattern})$`).test(cell)) return `not like ${pattern}: ${cell}`;
  return words && !words.includes(cell) ? `none of ${words}: ${cell}` : null;
}

test.for([
  ["", { type: "string", constraints: { required: true } }],
  ["1,5", { type: "number" }],
  ["1.5", { type: "integer" }],
  ["-1", { type: "number", constraints: { minimum: 0 } }],
  ["2", { type: "number", constraints: { maximum: 1 } }],
  ["a b", { type: "string", constraints: { pattern: "[a-z]" } }],
  ["c", { type: "string", constraints: { enum: ["a", "b"] } }],
] as const)("the cell %j would be found wrong by %j", ([cell, field]) => {
  expect(faultOf(cell, field as unknown as Field)).not.toBe(null);
});

describe("a column", () => {
  const columns = tables.flatMap(({ path, columns }) =>
    Object.entries(columns).map(([name, column]) => ({ path, name, ...column })),
  );
  const ending = { C: "°C", mg: "mg", ug: "µg", pct: "%", d: "d", K_per_min: "K/min", pct_per_C: "%/°C" };

  test("has a title, a sentence and the unit of its name", () => {
    const faults = columns.flatMap(({ path, name, unit, title, description }) => {
      const [, long, short] = /(?:_(K_per_min|pct_per_C)|_(C|mg|ug|pct|d))$/.exec(name) ?? [];
      const named = ending[(long ?? short) as keyof typeof ending];
      const right = title.length > 0 && title.length <= 40 && /^\S+ .*[^.]$/.test(description);
      return right && (named === undefined || unit === named) ? [] : [{ path, name, unit, title, description }];
    });
    expect(faults).toEqual([]);
    expect(columns.length).toBeGreaterThan(180);
  });

  test("of a table that is pointed at is there, and a primary key is never empty", () => {
    for (const { path, columns, primaryKey = [], uniqueKey = [], foreignKey } of tables) {
      expect([...primaryKey, ...uniqueKey].filter((name) => !(name in columns))).toEqual([]);
      expect(primaryKey.filter((name) => !columns[name]?.constraints?.required)).toEqual([]);
      if (!foreignKey) continue;
      const target = tables.find((table) => table.path === foreignKey.path)!;
      expect(target.primaryKey, path).toEqual([foreignKey.column]);
    }
  });
});

test("a file that nothing is known of is left out, and a foreign key without its target", () => {
  const campaign = { schema: "tg-hydrates/campaign/1", version: "1", protocol: { name: "p" } } as never;
  const { resources } = JSON.parse(dataPackage(campaign, [{ name: "losses.csv" }, { name: "notes.txt" }]));
  expect(resources.map(({ path }: Resource) => path)).toEqual(["losses.csv"]);
  expect(resources[0].schema).not.toHaveProperty("foreignKeys");
});
