import { spawnSync } from "node:child_process";
import { expect, test } from "vitest";
import { tempFolder } from "../files/tempFolder.ts";
import { jsonOf, root, textOf } from "./root.ts";

/** What the gate says of a committed package, invented, in a job of an invented repository. */
function gate({ manifest = {}, env = {}, changelog = "# Changelog\n\n## 1.2.3\n", untracked = false } = {}) {
  const repository = { type: "git", url: "git+https://git.invalid/acme/hydrates.git" };
  const folder = tempFolder({
    "package.json": JSON.stringify({ name: "hydrates", version: "1.2.3", repository, ...manifest }),
    "CHANGELOG.md": changelog,
  });
  const git = (...args: string[]) =>
    spawnSync("git", ["-c", "user.name=A", "-c", "user.email=a@b.invalid", ...args], { cwd: folder });
  git("init", "-q");
  if (!untracked) {
    git("add", ".");
    git("commit", "-qm", "all");
  }
  const job = { GITHUB_ACTIONS: "true", GITHUB_REF_NAME: "v1.2.3", GITHUB_REPOSITORY: "acme/hydrates" };
  const { status, stdout, stderr } = spawnSync(process.execPath, [`${root}test/tools/release.js`], {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, ...job, ...env },
  });
  return { status, said: stdout + stderr };
}

test("a tagged commit with a public place can be released", () => {
  expect(gate()).toEqual({ status: 0, said: "ok  hydrates 1.2.3 can be published\n" });
});

test.for([
  ["no repository", { manifest: { repository: undefined } }, 'package.json has no "repository": provenance'],
  [
    "an address that is no clone",
    { manifest: { repository: "acme/hydrates" } },
    "as git+https://HOST/OWNER/NAME.git, not acme/hydrates",
  ],
  [
    "a stand-in",
    { manifest: { repository: { url: "git+https://git.invalid/OWNER/NAME.git" } } },
    '"repository" holds a stand-in, git+https://git.invalid/OWNER/NAME.git',
  ],
  [
    "a fork",
    { env: { GITHUB_REPOSITORY: "else/hydrates" } },
    '"repository" says acme/hydrates, this job runs in else/hydrates',
  ],
  ["a desk", { env: { GITHUB_ACTIONS: "" } }, "publish by pushing the tag, never from a desk"],
  ["another tag", { env: { GITHUB_REF_NAME: "v1.2.4" } }, "The tag is v1.2.4, the version 1.2.3: tag it v1.2.3"],
  [
    "no entry in the changelog",
    { changelog: "## 1.2.2\n" },
    "CHANGELOG.md: the newest entry is 1.2.2, the version 1.2.3",
  ],
  ["something not committed", { untracked: true }, "Not committed: ?? CHANGELOG.md, ?? package.json"],
] as const)("refused: %s", ([, how, said]) => {
  const gated = gate(how);
  expect(gated.status).toBe(1);
  expect(gated.said.match(/^not released: /gm)).toHaveLength(1);
  expect(gated.said).toContain(said);
});

test("publishing asks the gate first, by the job that may ask for an identity", () => {
  const { scripts } = jsonOf<{ scripts: Record<string, string> }>("package.json");
  expect(scripts.prepublishOnly).toBe("node test/tools/release.js && node test/tools/audit.js --required");
  const job = textOf(".github/workflows/publish.yml");
  for (const line of [
    "id-token: write",
    'tags: ["v*"]',
    "- run: bash .ci/run",
    "- run: npm publish --provenance --access public",
  ]) {
    expect(job).toContain(line);
  }
  // By identity, with no token that could be stolen.
  expect(job).not.toMatch(/secrets\.|TOKEN/);
});
