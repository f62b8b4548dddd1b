// Holds what the program says about its own files against validators that had no part in writing it: the JSON Schemas against
// Ajv, datapackage.json and every cell of the tables against the `datapackage` library. That library knows version 1 of the
// standard; version 2 adds `uniqueKeys` and `type`, which it passes over, so unique keys are looked at here. Its profiles are
// its own copies: nothing is fetched. Stops at the first thing that does not hold.
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Ajv from "ajv";
import addFormats from "ajv-formats";
import datapackage from "datapackage";
import * as v from "valibot";
import { campaignFromJson } from "../../dist/campaign/campaignFromJson.js";
import { campaignSchema } from "../../dist/campaign/campaignSchema.js";
import { checkProtocol } from "../../dist/protocol/checkProtocol.js";
import { protocolSchema } from "../../dist/protocol/protocolSchema.js";
import { protocols } from "../../dist/protocol/protocols.js";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-schemas-"));
const { Package } = datapackage;

function command(...args) {
  return commandEnding(0, ...args);
}

function commandEnding(status, ...args) {
  const ended = spawnSync(process.execPath, [join(root, "bin/tg-hydrates.js"), ...args], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 1e8,
  });
  if (ended.status !== status) throw new Error(`${args.join(" ")} ended with ${ended.status}\n${ended.stderr}`);
  return ended.stdout;
}

function expectThat(holds, sentence) {
  if (!holds) throw new Error(`not so: ${sentence}`);
  console.log(`ok  ${sentence}`);
}

/** Whether something goes without an error. */
function passes(check) {
  try {
    check();
    return true;
  } catch (error) {
    if (error instanceof TypeError || error instanceof ReferenceError) throw error;
    return false;
  }
}

/** Every document that differs from the given one in one place: a field gone, a field too many, a value of another kind or size. */
function* mutants(document) {
  const others = [null, "x", "", true, -1, 0, 0.5, 1e9, [], {}];
  for (const path of pathsOf(document)) {
    const before = at(document, path);
    for (const other of others) {
      if (JSON.stringify(other) === JSON.stringify(before)) continue;
      // The program takes an empty list for an object all of whose fields may be absent; the schemas do not.
      if (Array.isArray(other) && typeof before === "object" && !Array.isArray(before)) continue;
      yield changed(document, path, (parent, key) => {
        parent[key] = other;
      });
    }
    yield changed(document, path, (parent, key) => {
      if (Array.isArray(parent)) parent.splice(key, 1);
      else delete parent[key];
    });
    if (typeof before === "object" && before !== null && !Array.isArray(before)) {
      yield changed(document, [...path, "unknown_field"], (parent, key) => {
        parent[key] = 1;
      });
    }
  }
}

function pathsOf(value, path = []) {
  if (typeof value !== "object" || value === null) return [path];
  return [
    ...(path.length > 0 ? [path] : []),
    ...Object.keys(value).flatMap((key) => pathsOf(value[key], [...path, key])),
  ];
}

function at(document, path) {
  return path.reduce((part, key) => part[key], document);
}

function changed(document, path, change) {
  const copy = structuredClone(document);
  change(at(copy, path.slice(0, -1)), path.at(-1));
  return { path: path.join("."), document: copy };
}

/** A protocol that uses every field there is. */
function everyField() {
  const full = structuredClone(protocols["csa-amounts"]);
  const [first] = full.windows;
  Object.assign(full, { $schema: "./node_modules/tg-hydrates/dist/schema/protocol.schema.json", description: "all" });
  Object.assign(full.smoothing, { choose: { least_C: 5, most_C: 20 } });
  Object.assign(first, { note: "n", anchor_C: 10, placement: { edges: "shared", tolerance_C: 10 } });
  first.tangent = { before_C: [40, 60], after_C: [200, 230] };
  full.peaks = {
    ...{ from_C: 40, to_C: 400, baseline: "linear", width_u_pct: 5, asymmetry_u: 0.05 },
    peaks: [{ name: "aft", position_C: [90, 130], width_C: 40, asymmetry: 0 }],
    limits: { area_u_pct: 30, misfit_pct: 10, merged_pct: 5, merged_times: 2 },
  };
  full.settled = {
    by: "a campaign",
    edges: [{ window: first.name, edge: "from", fixed_C: 50, placed_C: null, prominence: null }],
    smoothing: { width_C: 10, peak_bias_pct: 1 },
    resolved: [{ window: first.name, at_C: 150, prominence: 6 }],
  };
  return full;
}

/** Faults that span several fields: a JSON Schema cannot say them, the program does. */
const acrossFields = {
  "edges that fall": (p) => Object.assign(p.windows[0], { from_C: 230 }),
  "a name used twice": (p) => Object.assign(p.windows[1], { name: p.windows[0].name }),
  "an anchor wider than its window": (p) => Object.assign(p.windows[3], { from_C: 600, to_C: 620, anchor_C: 50 }),
  "a falling range of heating rates": (p) => Object.assign(p.limits, { heating_rate_K_per_min: [20, 5] }),
  "a filter of too few grid points": (p) => Object.assign(p.smoothing, { width_C: 1 }),
};

function checkSchemas() {
  const ajv = addFormats(new Ajv({ strict: true, strictTuples: false, strictTypes: false, strictRequired: false }));
  const schemas = {};
  const [protocol, campaign] = ["protocol", "campaign"].map((name) => {
    const schema = JSON.parse(command("protocol", "--schema", name));
    schemas[name] = schema;
    expectThat(ajv.validateSchema(schema), `the JSON Schema of ${name} is one, by the metaschema that it names`);
    return ajv.compile(schema);
  });

  for (const [name, document] of Object.entries(protocols)) {
    expectThat(protocol(document), `the built-in protocol ${name} is valid`);
    expectThat(protocol(JSON.parse(command("protocol", name))), `so is what the command prints`);
  }
  const full = everyField();
  expectThat(protocol(full) && v.is(protocolSchema, full), "a protocol with every field is valid");
  let count = 0;
  for (const { path, document } of mutants(full)) {
    const [schema, fields] = [protocol(document), v.is(protocolSchema, document)];
    const whole = passes(() => checkProtocol(document));
    // The schema may also refuse what the program refuses for more than one field's sake, never what it takes.
    if (schema && !fields)
      throw new Error(`the schema takes ${path}: ${JSON.stringify(at(document, path.split(".")))}`);
    if (!schema && whole) throw new Error(`the schema refuses ${path}, which works`);
    count++;
  }
  expectThat(count > 1000, `schema and program agree on ${count} protocols that differ from it in one place`);
  for (const [fault, change] of Object.entries(acrossFields)) {
    const document = structuredClone(protocols.csa);
    change(document);
    expectThat(protocol(document) && !passes(() => checkProtocol(document)), `only the program sees ${fault}`);
  }
  const tangent = structuredClone(protocols.csa);
  tangent.windows[0].rule = "tangent";
  expectThat(!protocol(tangent) && !passes(() => checkProtocol(tangent)), "both miss the lines of the rule tangent");

  const written = JSON.parse(readFileSync(join(folder, "out/campaign.json"), "utf8"));
  expectThat(campaign(written), "campaign.json of the example with its decisions is valid");
  const amounts = JSON.parse(readFileSync(join(folder, "amounts/campaign.json"), "utf8"));
  expectThat(campaign(amounts), "campaign.json with amounts of phases is valid");
  const odd = JSON.parse(readFileSync(join(folder, "odd/campaign.json"), "utf8"));
  expectThat(campaign(odd), "campaign.json with runs that failed is valid");
  for (const line of command("index", join(root, "fixtures/example"), "--ndjson").trimEnd().split("\n")) {
    if (!campaign({ ...amounts, decisions: written.decisions, runs: [JSON.parse(line)] })) throw new Error(line);
  }
  const small = withEveryField({ ...amounts, decisions: written.decisions });
  const absent = unused(schemas.campaign, small);
  expectThat(absent.length === 0, `a campaign with every field has them all ${absent}`);
  small.runs.push(odd.runs.find(({ status }) => status === "failed"));
  expectThat(campaign(small), "it is valid");
  let documents = 0;
  for (const { path, document } of mutants(small)) {
    // The protocol has been looked at above; here it only slows things down.
    if (path.startsWith("protocol.")) continue;
    const [schema, fields] = [campaign(document), v.is(campaignSchema, document)];
    if (schema && !fields) throw new Error(`the schema takes ${path}`);
    if (!schema && fields && passes(() => campaignFromJson(JSON.stringify(document)))) {
      throw new Error(`the schema refuses ${path}, which works: ${JSON.stringify(campaign.errors?.[0])}`);
    }
    documents++;
  }
  expectThat(documents > 3000, `schema and program agree on ${documents} campaigns that differ from it in one place`);
}

/** A campaign with one row of each kind that uses every field there is. */
function withEveryField(campaign) {
  const flag = campaign.runs.flatMap(({ windows }) => windows.flatMap(({ flags }) => flags)).find((one) => one.window);
  const shortened = (value) => {
    if (Array.isArray(value)) return value.slice(0, 1).map(shortened);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => {
        if (key === "terms") return [key, [{ cause: "noise", effect: 0.1, key: "noise" }]];
        // A contrast has codes only.
        if (key === "flags" && !("quantity" in value)) return [key, [flag]];
        return [key, key === "protocol" ? inner : shortened(inner)];
      }),
    );
  };
  const small = shortened(campaign);
  const [run] = small.runs;
  run.peaks = [{ name: "aft", position_C: 110, misfit_pct: 2, index: run.windows[0].index }];
  small.plausibility[0].exceeded = [{ quantity: "ah3", value: 12, u: 1, maximum: 10 }];
  const { asked, contrasts, remarks } = small.decisions;
  asked.requirements = [{ quantity: "strength", at: "least", value: 24, unit: "MPa" }];
  Object.assign(contrasts[0], { sensitive_to: ["area (difference)"], untested: ["to+5"], flags: [flag.code] });
  remarks.push("A remark.");
  return small;
}

/** Fields that a schema knows and a document makes no use of; where a field may be one thing or another, of what it is. */
function unused(schema, value, path = "") {
  const options = schema.anyOf ?? schema.oneOf;
  if (options) {
    const fits = ({ required = [], type }) =>
      value === null ? type === "null" : type !== "null" && required.every((name) => Object.hasOwn(value, name));
    const option = options.find(fits);
    return option ? unused(option, value, path) : [path];
  }
  if (schema.type === "array") {
    if (!(value?.length > 0)) return [`${path}[]`];
    return Array.isArray(schema.items) ? [] : unused(schema.items, value[0], `${path}[]`);
  }
  return Object.entries(schema.properties ?? {}).flatMap(([name, inner]) =>
    typeof value === "object" && value !== null && name in value
      ? unused(inner, value[name], `${path}.${name}`)
      : [`${path}.${name}`],
  );
}

/** What a validator of the tables finds wrong with an output folder; null for nothing. */
async function faultOf(where, change = (descriptor) => descriptor) {
  const descriptor = change(JSON.parse(readFileSync(join(where, "datapackage.json"), "utf8")));
  const loaded = await Package.load(descriptor, { basePath: where });
  if (!loaded.valid) return loaded.errors[0].message;
  for (const resource of loaded.resources.filter(({ tabular }) => tabular)) {
    try {
      const rows = await resource.read({ keyed: true, relations: true });
      for (const key of resource.descriptor.schema.uniqueKeys ?? []) {
        const seen = new Set(rows.map((row) => JSON.stringify(key.map((name) => row[name]))));
        if (seen.size < rows.length) return `${resource.name}: ${key} is not unique`;
      }
      tables.add(resource.name);
      cells += rows.length * resource.schema.fieldNames.length;
    } catch (error) {
      return `${resource.name}: ${error.errors?.[0]?.message ?? error.message}`;
    }
  }
  return null;
}
let cells = 0;
const tables = new Set();

async function checkPackages() {
  for (const where of ["out", "amounts", "odd"]) {
    const fault = await faultOf(join(folder, where));
    if (fault !== null) console.error(fault);
    expectThat(fault === null, `datapackage.json of ${where} and every cell that it describes are valid`);
  }
  expectThat(tables.size === 11 && cells > 20_000, `${cells} cells of ${tables.size} tables were looked at`);

  // A validator that takes everything would be none.
  const out = join(folder, "amounts");
  const runs = readFileSync(join(out, "runs.csv"), "utf8");
  const lines = runs.split("\n");
  const spoilt = {
    "text in a column of numbers": runs.replace(/,1000,1000,/, ",many,1000,"),
    "a column too few": runs.replace(/^file,mix,/, "file,"),
    "a word that is no role": runs.replace(",binder,", ",cement,"),
    "a run that losses.csv names and runs.csv does not": [lines[0], ...lines.slice(2)].join("\n"),
    "a run twice": [...lines.slice(0, 2), ...lines.slice(1)].join("\n"),
  };
  for (const [what, text] of Object.entries(spoilt)) {
    if (text === runs) throw new Error(`${what}: nothing was spoilt`);
    writeFileSync(join(out, "runs.csv"), text);
    expectThat((await faultOf(out)) !== null, `it would have found ${what}`);
  }
  writeFileSync(join(out, "runs.csv"), runs);
  const misspelt = (descriptor) => {
    descriptor.resources[0].schema.fields[0].type = "word";
    return descriptor;
  };
  expectThat((await faultOf(out, misspelt)) !== null, "it would have found a type that is none");
}

try {
  const example = join(root, "fixtures/example");
  const properties = join(example, "properties.csv");
  command("index", example, "--out", "out");
  command(
    "compare",
    "out/campaign.json",
    "--reference",
    "sealed",
    "--margin",
    "10%",
    "--properties",
    properties,
    "--out",
    "out",
  );
  command("index", example, "--protocol", "csa-amounts", "--out", "amounts");
  // Names that a spreadsheet would run, no mix and no age, runs that cannot be read or are cut off.
  const whole = readFileSync(join(example, "M1-sealed-7d-1.txt"));
  mkdirSync(join(folder, "runs"));
  writeFileSync(join(folder, "runs/=a, 1.txt"), whole);
  writeFileSync(join(folder, "runs/-b.txt"), whole.subarray(0, whole.length / 2));
  writeFileSync(join(folder, "runs/c.txt"), "");
  commandEnding(1, "index", "runs", "--out", "odd", "--protocol", "csa-amounts");
  checkSchemas();
  await checkPackages();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
