import { describe, expect, test } from "vitest";
import { protocols } from "../../src/protocol/protocols.ts";
import { keyOrder } from "../../src/render/keyOrder.ts";
import { jsonOf } from "../house/root.ts";
import { cli } from "./cli.ts";

interface Schema {
  $id?: string;
  $schema?: string;
  description?: string;
  properties?: Record<string, Schema>;
  [keyword: string]: unknown;
}

/** Every property of a schema with its path. */
function* propertiesOf(schema: unknown, path = ""): Generator<[path: string, Schema]> {
  if (typeof schema !== "object" || schema === null) return;
  for (const [name, inner] of Object.entries((schema as Schema).properties ?? {})) {
    yield [`${path}.${name}`, inner];
    yield* propertiesOf(inner, `${path}.${name}`);
  }
  for (const [keyword, part] of Object.entries(schema)) {
    // The condition of a rule names properties without describing them anew.
    if (keyword !== "properties" && keyword !== "if") yield* propertiesOf(part, path);
  }
}

// ajv holds documents against the schemas in test/tools/schemas.js.
describe.for(["protocol", "campaign"] as const)("the JSON Schema of %s", (name) => {
  const printed = () => cli(["protocol", "--schema", name]);

  test("is printed as it is shipped, under a name that needs no host", async () => {
    const { code, out, err } = await printed();
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(JSON.parse(out)).toEqual(jsonOf(`dist/schema/${name}.schema.json`));
    expect(JSON.parse(out).$id).toBe(`urn:tg-hydrates:${name}:1`);
  });

  test("says what every property means", async () => {
    const all = [...propertiesOf(JSON.parse((await printed()).out))];
    expect(all.length).toBeGreaterThan(100);
    const silent = all.filter(([, { description = "" }]) => description.length < 3).map(([path]) => path);
    expect(silent).toEqual([]);
  });
});

test("--schema alone is that of protocols", async () => {
  expect((await cli(["protocol", "--schema"])).out).toBe((await cli(["protocol", "--schema", "protocol"])).out);
});

test("the JSON Schemas know every field that is written", async () => {
  const campaign = JSON.parse((await cli(["protocol", "--schema", "campaign"])).out) as Schema;
  expect(Object.keys(campaign.properties!).sort()).toEqual(Object.keys(keyOrder.campaign).sort());
  const protocol = JSON.parse((await cli(["protocol", "--schema"])).out) as Schema;
  const known = new Set([...propertiesOf(protocol)].map(([path]) => path));
  const fields = Object.values(protocols).flatMap((document) => Object.keys(document));
  expect(fields.filter((field) => !known.has(`.${field}`))).toEqual([]);
});

test.for([
  [["protocol", "--schema", "sheet"], "Allowed choices are protocol, campaign."],
  [["protocol", "--schema", "--settle", "data"], "cannot be used with option '--settle <folder>'"],
  [["index", "data", "--json", "--ndjson"], "option '--json' cannot be used with option '--ndjson'"],
] as const)("%j cannot be", async ([argv, message]) => {
  const { code, out, err } = await cli([...argv]);
  expect({ code, out }).toEqual({ code: 2, out: "" });
  expect(err).toContain(message);
});

test("index --ndjson prints every run of campaign.json in its order, one per line, and no table", async () => {
  const folder = "fixtures/example";
  const [lines, whole] = await Promise.all([cli(["index", folder, "--ndjson"]), cli(["index", folder, "--json"])]);
  expect(lines.code).toBe(0);
  expect(lines.out.endsWith("}\n")).toBe(true);
  const runs = lines.out
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line));
  expect(runs).toEqual(JSON.parse(whole.out).runs);
  expect(runs.length).toBeGreaterThan(30);
});
