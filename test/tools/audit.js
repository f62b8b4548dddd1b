// Asks the registry for known faults of the packages that are shipped with or needed by the library, not of those for
// development. A finding of severity high or above fails. Where the registry has no such service nothing was found and
// nothing is known: that is said and is no failure, unless --required is given, as for a release.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const cwd = fileURLToPath(new URL("../../", import.meta.url));
const required = process.argv.includes("--required");
// Told to stay offline, npm would ask nobody and report no findings.
const { stdout, stderr, error } = spawnSync("npm", ["audit", "--omit=dev", "--no-offline", "--json"], {
  cwd,
  encoding: "utf8",
  maxBuffer: 1e8,
  shell: process.platform === "win32",
});
if (error) throw error;

let answer;
try {
  answer = JSON.parse(stdout);
} catch {
  answer = { message: stderr.trim().split("\n")[0] || "npm said nothing" };
}
const counts = answer.metadata?.vulnerabilities;
if (counts === undefined) {
  // No address of a registry in what is printed.
  const why = String(answer.message ?? answer.error?.summary ?? "no answer").replaceAll(
    /https?:\/\/\S+/g,
    "the registry",
  );
  console.log(`not audited: ${why}`);
  if (required) console.error("A release needs an audit: ask a registry that has one");
  process.exitCode = required ? 1 : 0;
} else {
  const severities = ["critical", "high", "moderate", "low", "info"];
  console.log(`audited: ${severities.map((severity) => `${counts[severity] ?? 0} ${severity}`).join(", ")}`);
  for (const [name, { severity, range, via = [] }] of Object.entries(answer.vulnerabilities ?? {})) {
    const titles = via.map((one) => (typeof one === "string" ? `by ${one}` : one.title)).join("; ");
    console.log(`${severity}: ${name} ${range}: ${titles}`);
  }
  process.exitCode = (counts.critical ?? 0) + (counts.high ?? 0) > 0 ? 1 : 0;
}
