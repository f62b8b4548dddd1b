// What must hold before `npm publish`, which runs this first (prepublishOnly): provenance is possible, and what is published
// is the commit of the tag. Says everything that is missing, not only the first. Run in the folder of the package.
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";

const { name, version, repository } = JSON.parse(readFileSync("package.json", "utf8"));
const { GITHUB_REF_NAME: tag, GITHUB_REPOSITORY: home, GITHUB_ACTIONS: inJob } = process.env;
const faults = [];

const url = typeof repository === "string" ? repository : repository?.url;
const place = /^git\+https:\/\/[^/]+\/([^/]+\/[^/]+?)\.git$/.exec(url ?? "")?.[1];
if (url === undefined) {
  faults.push(
    'package.json has no "repository": provenance names the public place of the sources. Add { "type": "git", "url": "git+https://HOST/OWNER/NAME.git" }',
  );
} else if (place === undefined) {
  faults.push(`package.json: write the url of "repository" as git+https://HOST/OWNER/NAME.git, not ${url}`);
} else if (/\b(owner|name|host|example|todo|user(name)?|org(anization)?)\b/i.test(url)) {
  faults.push(`package.json: "repository" holds a stand-in, ${url}: write the real public address`);
} else if (inJob && place !== home) {
  faults.push(
    `package.json: "repository" says ${place}, this job runs in ${home}: the registry would refuse the provenance`,
  );
}

if (!inJob) faults.push("This is no job of the repository's CI: publish by pushing the tag, never from a desk");
else if (tag !== `v${version}`) faults.push(`The tag is ${tag}, the version ${version}: tag it v${version}`);

const logged = /^## (\S+)/m.exec(readFileSync("CHANGELOG.md", "utf8"))?.[1];
if (logged !== version) faults.push(`CHANGELOG.md: the newest entry is ${logged}, the version ${version}`);

const changed = spawnSync("git", ["status", "--porcelain"], { encoding: "utf8" });
if (changed.status !== 0) faults.push("This is no clone: publish what is committed");
else if (changed.stdout !== "") faults.push(`Not committed: ${changed.stdout.trim().split("\n").join(", ")}`);

for (const fault of faults) console.error(`not released: ${fault}`);
if (faults.length === 0) console.log(`ok  ${name} ${version} can be published`);
process.exitCode = faults.length === 0 ? 0 : 1;
