// Writes the bill of materials of what a user gets, out/sbom.cdx.json (CycloneDX 1.5), and validates it by the schema of that
// standard. `npm sbom --omit dev` alone would leave out a package that a development package needs too (valibot), so
// everything is listed, and what the lock file gives a user is taken from it.
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Spec, Validation } from "@cyclonedx/cyclonedx-library";

const root = fileURLToPath(new URL("../../", import.meta.url));
const json = (file) => JSON.parse(readFileSync(join(root, file), "utf8"));
const { name, dependencies, optionalDependencies } = json("package.json");
const shipped = { ...dependencies, ...optionalDependencies };

const { stdout, stderr, status } = spawnSync("npm", ["sbom", "--sbom-format", "cyclonedx", "--sbom-type", "library"], {
  cwd: root,
  encoding: "utf8",
  maxBuffer: 1e8,
  shell: process.platform === "win32",
});
if (status !== 0) throw new Error(`npm sbom ended with ${status}\n${stderr}`);
const bill = JSON.parse(stdout);

/** Where Node would find a package that one at `from` imports; undefined for an optional one that is not there. */
function locate(wanted, from) {
  const place = `${from === "" ? "" : `${from}/`}node_modules/${wanted}`;
  if (packages[place]) return place;
  return from === "" ? undefined : locate(wanted, from.slice(0, Math.max(0, from.lastIndexOf("/node_modules/"))));
}
const { packages } = json("package-lock.json");
const needed = new Map();
const open = Object.keys(shipped).map((wanted) => ["", wanted]);
for (let [from, wanted] = open.pop(); wanted !== undefined; [from, wanted] = open.pop() ?? []) {
  const place = locate(wanted, from);
  if (place === undefined || [...needed.values()].includes(place)) continue;
  const entry = packages[place];
  needed.set(`${wanted}@${entry.version}`, place);
  for (const next of Object.keys({ ...entry.dependencies, ...entry.optionalDependencies })) open.push([place, next]);
}

const own = bill.metadata.component["bom-ref"];
bill.components = bill.components.filter((component) => needed.has(`${component.name}@${component.version}`));
const listed = new Map(bill.components.map((component) => [component["bom-ref"], component]));
bill.dependencies = bill.dependencies
  .filter(({ ref }) => ref === own || listed.has(ref))
  .map(({ ref, dependsOn = [] }) => ({
    ref,
    dependsOn: dependsOn.filter((one) => (ref === own ? listed.get(one)?.name in shipped : listed.has(one))),
  }));
// npm takes the name of the folder.
bill.metadata.component.name = name;

const text = `${JSON.stringify(bill, null, 2)}\n`;
const faults = await new Validation.JsonStrictValidator(Spec.Version.v1dot5).validate(text);
if (faults !== null) throw new Error(`The bill of materials is not valid: ${JSON.stringify(faults, null, 2)}`);

const names = [...listed.values()].map((component) => `${component.name}@${component.version}`);
const missing = [...needed.keys()].filter((one) => !names.includes(one));
if (missing.length > 0) throw new Error(`The lock file has what the bill has not: ${missing.join(", ")}`);
const bare = bill.components.filter(({ licenses, hashes }) => !licenses?.length || !hashes?.length);
if (bare.length > 0) throw new Error(`No licence or no hash: ${bare.map((component) => component.name).join(", ")}`);

mkdirSync(join(root, "out"), { recursive: true });
writeFileSync(join(root, "out/sbom.cdx.json"), text);
console.log(`ok  out/sbom.cdx.json: ${names.length} packages with licence and hash, valid CycloneDX 1.5`);
