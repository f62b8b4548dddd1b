// Writes the JSON Schemas of protocol and campaign.json into dist/schema, from the definitions that check them.
// `npm run build` runs this after tsc has built the library.
import { mkdirSync, writeFileSync } from "node:fs";
import { toJsonSchema } from "@valibot/to-json-schema";
import { campaignSchema } from "../../dist/campaign/campaignSchema.js";
import { protocolSchema } from "../../dist/protocol/protocolSchema.js";
import { tables } from "../../dist/render/tables.js";
import { words } from "./words.js";

/** Editors know this draft best. */
const DRAFT = "draft-07";

/** What a converter cannot say, and what stands for it; anything else stops the build. */
const custom = new Map([
  ["Expected a code", { type: "string" }],
  ["Expected an object", { type: "object" }],
  ["Expected a settled protocol", { allOf: [{ $ref: "#/definitions/protocol" }, { required: ["settled"] }] }],
]);

function convert(definition) {
  return toJsonSchema(definition, {
    target: DRAFT,
    typeMode: "input",
    overrideAction({ valibotAction, jsonSchema, errors }) {
      // JSON has no infinities.
      return errors && valibotAction.type === "finite" ? jsonSchema : undefined;
    },
    overrideSchema({ valibotSchema, errors }) {
      return errors ? custom.get(valibotSchema.message) : undefined;
    },
  });
}

/** Fields of protocols that depend on one another, as far as a JSON Schema can say it. */
function addRules(protocol) {
  Object.assign(protocol.properties.windows.items, {
    if: { properties: { rule: { const: "tangent" } }, required: ["rule"] },
    // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
    then: { required: ["tangent"] },
  });
  for (const rate of protocol.properties.limits.properties.heating_rate_K_per_min.items) rate.exclusiveMinimum = 0;
}

const tableOf = {
  runs: "runs.csv",
  "runs.windows": "losses.csv",
  "runs.phases": "phases.csv",
  ages: "ages.csv",
  amounts: ["phases.csv", "ages.csv"],
  "decisions.contrasts": "contrasts.csv",
  "decisions.growth": "growth.csv",
  "decisions.properties": "properties.csv",
  "decisions.together": "together.csv",
  "decisions.pairs": "pairs.csv",
  "decisions.sufficient": "sufficient.csv",
  "decisions.sufficient.steps": "sufficient.csv",
  "decisions.planning": "planning.csv",
  "decisions.planning.aims": "planning.csv",
};
const cell = tables.find(({ path }) => path === "ages.csv").columns;
const used = new Set();

/** Gives every property its description, and stops where there is none. */
function describe(schema, path) {
  for (const [name, inner] of Object.entries(schema.properties ?? {})) {
    const own = path === "" ? name : `${path}.${name}`;
    inner.description ??= wordsOf(schema, path, name);
    if (!inner.description) throw new Error(`.build/schema/words.js says nothing about ${own}`);
    describe(inner, own);
  }
  const parts = [schema.items, ...(schema.anyOf ?? []), ...(schema.oneOf ?? [])].flat();
  for (const part of parts) if (part) describe(part, path);
}

function wordsOf({ properties }, path, name) {
  for (const key of [`${kindOf(properties)}.${name}`, path === "" ? name : `${path}.${name}`]) {
    if (Object.hasOwn(words, key)) return take(key);
  }
  if (Object.hasOwn(words, `*.${name}`)) return take(`*.${name}`);
  const columns = [tableOf[path] ?? []].flat().map((file) => tables.find((table) => table.path === file).columns);
  const column =
    columns.find((one) => Object.hasOwn(one, name))?.[name] ?? (path === "plausibility" ? cell[name] : null);
  return column ? column.description + (column.unit ? ` (${column.unit})` : "") : undefined;
}

function take(key) {
  used.add(key);
  return words[key];
}

function kindOf(properties) {
  const names = Object.keys(properties).join();
  const kinds = {
    "code,severity,sentence,advice,window": "Flag",
    missing: "Measured",
    "value,u,terms": "Measured",
    "cause,effect,key": "Term",
    "quantity,kind,size,unit": "Margin",
    "quantity,at,value,unit": "Requirement",
  };
  return kinds[names] ?? "no kind";
}

const protocol = convert(protocolSchema);
addRules(protocol);
describe(protocol, "protocol");
const { $schema, ...embedded } = protocol;
const campaign = convert(campaignSchema);
describe(campaign, "");
const idle = Object.keys(words).filter((key) => !used.has(key));
if (idle.length > 0) throw new Error(`.build/schema/words.js describes what is not there: ${idle.join(", ")}`);

const documents = {
  "protocol.schema.json": {
    $schema,
    $id: "urn:tg-hydrates:protocol:1",
    title: "Protocol",
    description:
      "Everything that turns a thermogravimetry run into indices. What one field alone cannot know (edges that grow, names used once, widths against the grid) tg-hydrates checks when it reads the protocol.",
    ...embedded,
  },
  "campaign.schema.json": {
    $schema,
    $id: "urn:tg-hydrates:campaign:1",
    title: "Campaign",
    description: "All runs of one study and what was computed from them: campaign.json of an output folder.",
    ...campaign,
    definitions: { protocol: embedded },
  },
};
mkdirSync("dist/schema", { recursive: true });
for (const [name, document] of Object.entries(documents)) {
  writeFileSync(`dist/schema/${name}`, `${JSON.stringify(document, null, 2)}\n`);
}
