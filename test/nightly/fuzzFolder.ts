// Cases of the fuzz test that need a disk: a folder of a stranger, links and all, goes through the command. Around it lies a
// place with a secret and a witness: nothing there may change, and the secret may not come out.
import {
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { runCli } from "../../src/cli/run.ts";
import type { Random } from "../read/spoil.ts";
import { Fault, hold } from "./fault.ts";
import type { Input, Kind } from "./fuzzCases.ts";
import { pick, strangeText } from "./strangeText.ts";

const SECRET = "S3CRET-TOKEN";

/** A run that anybody could index, with the secret in it where it lies outside of the folder. */
function runText(note: string, shift = 0): string {
  const rows = Array.from(
    { length: 97 },
    (_, i) => `${25 + 10 * i};${(30 - 6 / (1 + Math.exp((13 + shift - i) / 2))).toFixed(4)}`,
  );
  return `${note}\nT/°C;m/mg\n${rows.join("\n")}\n`;
}

/** Makes the kind: `others` are kinds whose texts lie in the folders as sheets, protocols and runs. */
export function folderKind(others: Record<string, Kind>): Kind {
  return { share: 1, make: (random) => makeFolder(others, random), run: folderCase };
}

function makeFolder(others: Record<string, Kind>, random: Random): Input {
  const of = (kind: string, name: string): string | Uint8Array => others[kind]!.make(random)[name]!;
  const files: Input = { "data/a.txt": runText("a"), "data/deep/c.txt": runText("c", 1) };
  if (random(2) === 0) files["data/b.txt"] = of("made run", "run");
  if (random(2) === 0) files["data/blank.txt"] = runText("blank");
  if (random(3) === 0) files[`data/${fileName(random)}.txt`] = runText("strange");
  if (random(3) > 0) files["data/sheet.csv"] = random(3) > 0 ? plausibleSheet(random) : of("sheet", "sheet");
  if (random(6) === 0) files["data/mixes.csv"] = of("mixes", "mixes");
  if (random(3) === 0) files["data/properties.csv"] = of("properties", "properties");
  if (random(3) === 0) files["p.json"] = of("protocol", "protocol");
  if (random(4) === 0) files["out/campaign.json"] = pick(["{}", "", runText("x")], random);
  const places = ["data/link.txt", "data/loop", "data/all", "data/sheet.csv", "data/mixes.csv", "data/properties.csv"];
  places.push("out", "out/figures", "out/runs.csv", "out/report.html", "out/campaign.json", "out/curves.ndjson");
  const targets = [
    "elsewhere/secret.txt",
    "elsewhere/folder",
    "elsewhere",
    "data",
    ".",
    "/dev/null",
    "nowhere",
    "data/loop",
  ];
  const links: Record<string, string> = {};
  for (let i = random(4); i > 0; i--) links[pick(places, random)] = pick(targets, random);
  return { ...files, "//links": JSON.stringify(links), "//argv": JSON.stringify(commandLine(files, random)) };
}

/** A name that the file system takes. */
function fileName(random: Random): string {
  return strangeText(random, 50).replaceAll(/[/\0]/g, "_").replace(/^\.+$/, "_").slice(0, 60);
}

/** A sheet without the faults that would end the work before it begins, but for strange labels. */
function plausibleSheet(random: Random): string {
  const label = (): string => `"${strangeText(random, 100).replaceAll('"', '""')}"`;
  const path = (): string => (random(6) === 0 ? label() : "deep/c.txt");
  return `file,mix,curing,curing_d,age_d,specimen,note\na.txt,M1,moist,7,28,${label()},${label()}\n${path()},${label()},${label()},7,28,,\n`;
}

function commandLine(files: Input, random: Random): string[] {
  const protocol = "p.json" in files ? ["--protocol", "p.json"] : [];
  const figures = random(60) === 0 ? [] : ["--no-figures"];
  const commands = [
    ["index", "data", "--out", "out", ...figures, ...protocol],
    ["index", "data", "--out", "out", ...figures, ...protocol],
    ["index", "data", pick(["--json", "--ndjson"], random), ...protocol],
    ["compare", "data", "--reference", "moist", "--out", "out", ...figures, ...protocol],
    ["compare", "out/campaign.json", "--reference", strangeText(random, 50), "--out", "out", ...figures],
    ["sheet", "data", ...(random(2) === 0 ? ["--json"] : [])],
    ["read", "data/a.txt", "data/b.txt", "data/link.txt", "data/deep", ...(random(2) === 0 ? ["--json"] : [])],
    ["protocol", "p.json", ...(random(2) === 0 ? ["--settle", "data"] : [])],
    ["check", "data/b.txt", "--substance", "gypsum"],
  ];
  return pick(commands, random);
}

async function folderCase(input: Input): Promise<string> {
  const top = mkdtempSync(join(tmpdir(), "tg-hydrates-fuzz-"));
  try {
    return await inPlace(input, top);
  } finally {
    rmSync(top, { recursive: true, force: true });
  }
}

async function inPlace({ "//links": links, "//argv": written, ...files }: Input, top: string): Promise<string> {
  const cwd = join(top, "one", "two", "three");
  const put = (name: string, content: string | Uint8Array): void => {
    mkdirSync(dirname(join(cwd, name)), { recursive: true });
    writeFileSync(join(cwd, name), content);
  };
  put("elsewhere/secret.txt", runText(SECRET));
  put("elsewhere/folder/secret.txt", runText(SECRET));
  put("witness.txt", "as it was");
  for (const [name, content] of Object.entries(files)) put(name, content);
  const linked = new Map(Object.entries(JSON.parse(links as string) as Record<string, string>));
  for (const [name, target] of linked) link(join(cwd, name), target.startsWith("/") ? target : join(cwd, target));
  const argv: string[] = JSON.parse(written as string);
  // The output folder may be a link, since the user names it: then its files go where it leads.
  const out = linked.has("out") ? join(cwd, linked.get("out")!) : join(cwd, "out");
  const before = snapshot(top, out);
  const secrets = new Set(secretFiles(top));
  const { code, stdout, stderr } = await run(argv, cwd);
  hold([0, 1, 2].includes(code), () => `exit code ${code}`);
  hold(!/^\s+at |An error of tg-hydrates itself/m.test(stderr), () => stderr.slice(0, 2000));
  hold(
    !/(?!\n)(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Cs}]/u.test(stderr),
    () => `stderr is not safe: ${JSON.stringify(stderr.slice(0, 500))}`,
  );
  if (argv[0] !== "sheet" || argv.includes("--json")) {
    hold(
      !/(?![\n])(?![\u200c\u200d])[\p{Cc}\p{Cf}]/u.test(stdout),
      () => `stdout is not safe: ${JSON.stringify(stdout.slice(0, 500))}`,
    );
  }
  const after = snapshot(top, out);
  hold(after === before, () => `outside of the output folder\n${before}\nbecame\n${after}`);
  // A link that the user names himself may be read.
  if (argv[0] !== "read" && argv[1] !== "out/campaign.json") {
    hold(!(stdout + stderr).includes(SECRET), () => "the secret came out on the terminal");
    const leaked = secretFiles(top).filter((file) => !secrets.has(file));
    hold(leaked.length === 0, () => `the secret came out in ${leaked.join(", ")}`);
  }
  return `exit ${code}`;
}

/** A place that a link before it has led elsewhere gets none. */
function link(path: string, target: string): void {
  try {
    mkdirSync(dirname(path), { recursive: true });
    rmSync(path, { recursive: true, force: true });
    symlinkSync(target, path);
  } catch {
    // The case goes on without it.
  }
}

async function run(argv: readonly string[], cwd: string): Promise<{ code: number; stdout: string; stderr: string }> {
  const [out, err]: string[][] = [[], []];
  try {
    const code = await runCli(argv, {
      stdout: { write: (text) => out!.push(text) },
      stderr: { write: (text) => err!.push(text) },
      ...{ cwd, env: {}, isTTY: false },
    });
    return { code, stdout: out!.join(""), stderr: err!.join("") };
  } catch (error) {
    throw new Fault(`the command threw: ${error instanceof Error ? error.stack : error}`);
  }
}

/** Everything below a folder but the output folder, links as links, with content. */
function snapshot(top: string, out: string): string {
  const lines: string[] = [];
  const look = (path: string): void => {
    const stats = lstatSync(path);
    if (stats.isSymbolicLink()) lines.push(`${path} -> ${readlinkSync(path)}`);
    else if (stats.isDirectory()) {
      if (path !== out) lines.push(`${path}/`);
      for (const name of readdirSync(path).sort()) {
        if (path !== out) look(join(path, name));
      }
    } else lines.push(`${path} ${stats.size} ${stats.mtimeMs} ${readFileSync(path, "latin1").slice(0, 60)}`);
  };
  look(top);
  return lines.join("\n");
}

/** Files that hold the secret; links are not followed. */
function secretFiles(top: string): string[] {
  return readdirSync(top, { recursive: true, withFileTypes: true }).flatMap((entry) => {
    const path = join(entry.parentPath, entry.name);
    return entry.isFile() && readFileSync(path, "latin1").includes(SECRET) ? [path] : [];
  });
}
