// Whether the sources could be published to JSR: a dry run of `deno publish` on a copy with the name, version and entry
// points that JSR wants in deno.json. Nothing is uploaded.
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const json = (file) => JSON.parse(readFileSync(join(root, file), "utf8"));
const { name, version, license, exports } = json("package.json");
const entries = Object.entries(exports).flatMap(([entry, target]) =>
  typeof target === "string" ? [] : [[entry, target.default.replace("/dist/", "/src/").replace(/\.js$/, ".ts")]],
);
const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-jsr-"));
try {
  cpSync(join(root, "src"), join(folder, "src"), { recursive: true });
  cpSync(join(root, "test/tools/deno.d.ts"), join(folder, "test/tools/deno.d.ts"));
  // JSR names have a scope; the one that is used here is a stand-in.
  const manifest = { name: `@scope/${name}`, version, license, exports: Object.fromEntries(entries) };
  const publish = { include: ["src", "deno.json"] };
  writeFileSync(join(folder, "deno.json"), JSON.stringify({ ...json("deno.json"), ...manifest, publish }));
  const deno = join(root, "test/tools/node_modules/.bin/deno");
  const { status } = spawnSync(deno, ["publish", "--dry-run", "--allow-dirty"], { cwd: folder, stdio: "inherit" });
  process.exitCode = status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
