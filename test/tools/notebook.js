// Executes the notebook of fixtures/notebooks as a person without a screen would: with Debian's Jupyter and the Deno kernel,
// several times, since outputs that are lost are lost only now and then. Looks at every output, and draws the figures to
// out/notebook. The plain script beside the notebook must print the same in Node and in Deno. Stops at the first
// thing that does not hold. Options: --times N (3).
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";

const root = fileURLToPath(new URL("../../", import.meta.url));
const folder = join(root, "fixtures", "notebooks");
const out = join(root, "out", "notebook");
const deno = fileURLToPath(new URL("node_modules/.bin/deno", import.meta.url));
const { values } = parseArgs({ options: { times: { type: "string", default: "3" } } });
const times = Number(values.times);
if (!(Number.isInteger(times) && times >= 1))
  throw new Error(`--times wants a whole number from 1 on, not ${values.times}`);

/** Everything that Jupyter and Deno write stays in out/. */
const data = join(root, "out", "jupyter");
const env = {
  ...process.env,
  NO_COLOR: "1",
  DENO_DIR: process.env.DENO_DIR ?? join(root, "out", "deno"),
  DENO_NO_UPDATE_CHECK: "1",
  XDG_DATA_HOME: data,
  JUPYTER_PATH: join(data, "jupyter"),
  JUPYTER_CONFIG_DIR: join(data, "config"),
  JUPYTER_RUNTIME_DIR: join(data, "runtime"),
  IPYTHONDIR: join(data, "ipython"),
};

function run(program, args, { cwd = root, stream = "stdout" } = {}) {
  const ended = spawnSync(program, args, { cwd, env, encoding: "utf8", maxBuffer: 2 ** 28 });
  if (ended.error) throw ended.error;
  if (ended.status !== 0) {
    throw new Error(`${program} ${args.join(" ")} ended with ${ended.status}\n${ended.stdout}${ended.stderr}`);
  }
  return ended[stream];
}

function expectThat(holds, sentence) {
  if (!holds) throw new Error(`not so: ${sentence}`);
  console.log(`ok  ${sentence}`);
}

/** The converter that answers: shims of other Pythons may stand before it and answer nothing. */
function findConverter() {
  const folders = [...(process.env.PATH ?? "").split(delimiter), "/usr/bin", "/usr/local/bin"].filter(Boolean);
  for (const program of folders.map((one) => join(one, "jupyter-nbconvert"))) {
    if (!existsSync(program)) continue;
    const { status, stdout } = spawnSync(program, ["--version"], { env, encoding: "utf8" });
    if (status === 0) return { program, version: stdout.trim() };
  }
  return null;
}

const converter = findConverter();
if (converter === null) {
  const optional = process.env.NOTEBOOK_OPTIONAL === "1";
  const how = "apt-get install jupyter-nbconvert python3-nbclient (needs root), then run this again";
  const skip = "set NOTEBOOK_OPTIONAL=1 to go on without";
  console.error(`notebook skipped: Jupyter is not installed: ${how}${optional ? "" : `; ${skip}`}`);
  process.exit(optional ? 0 : 1);
}

rmSync(out, { recursive: true, force: true });
for (const one of [out, data]) mkdirSync(one, { recursive: true });

// The script first: it is quick, and fills Deno's cache, which the kernel would fill in silence.
const inNode = run(process.execPath, ["explore.mjs"], { cwd: folder });
const inDeno = run(deno, ["run", "--quiet", "--allow-all", "explore.mjs"], { cwd: folder });
expectThat(inNode.split("\n").length > 50, "the script tells its story in Node");
expectThat(inDeno === inNode, "the script prints the same in Deno");
writeFileSync(join(out, "explore.txt"), inNode);

run(deno, ["jupyter", "--install", "--force"]);
const source = JSON.parse(readFileSync(join(folder, "explore.ipynb"), "utf8"));
const codeOf = (cell) => [cell.source].flat().join("");
const isCode = ({ cell_type }) => cell_type === "code";
/** Outputs that a cell asks for. */
const asked = source.cells.filter(isCode).map((cell) => codeOf(cell).match(/^await show\(/gm)?.length ?? 0);
expectThat(
  source.cells.filter(isCode).every(({ outputs, execution_count: count }) => outputs.length === 0 && count === null),
  "the notebook is kept without outputs",
);

const ofLibrary = createRequire(join(root, "package.json"));
const { compile } = await import(ofLibrary.resolve("vega-lite"));
const { Resvg } = ofLibrary("@resvg/resvg-js");
const textOf = (value) => [value].flat().join("");
let printed = "";

for (let time = 1; time <= times; time++) {
  const file = `explore-${time}.ipynb`;
  // In its own folder, where a person would run it; only the result is written elsewhere.
  const said = run(
    converter.program,
    ["--to", "notebook", "--execute", "--output-dir", out, "--output", file, "explore.ipynb"],
    { cwd: folder, stream: "stderr" },
  );
  writeFileSync(join(out, `explore-${time}.log`), said);
  const { cells } = JSON.parse(readFileSync(join(out, file), "utf8"));
  const outputs = cells.filter(isCode).map((cell) => cell.outputs);
  for (const [i, got] of outputs.entries()) {
    const kinds = got.map(({ output_type }) => output_type).join(", ");
    if (got.length !== asked[i] || got.some(({ output_type }) => output_type !== "display_data")) {
      const wanted = `${asked[i]} outputs`;
      throw new Error(
        `not so: code cell ${i + 1} of execution ${time} has ${wanted} and no more; it has: ${kinds || "none"}`,
      );
    }
  }
  const bundles = outputs.flat().map((output) => output.data);
  const text = bundles.map((bundle) => textOf(bundle["text/plain"])).join("");
  checkBundles(bundles, time);
  if (text !== inNode) writeFileSync(join(out, `explore-${time}.txt`), text);
  expectThat(
    text === inNode,
    `execution ${time}: ${bundles.length} outputs, none lost, their text is what the script prints`,
  );
  printed = text;
}
expectThat(printed !== "", `${times} executions with nbconvert ${converter.version}`);

run(converter.program, ["--to", "html", "--output-dir", out, "--output", "explore.html", join(out, "explore-1.ipynb")]);
const page = readFileSync(join(out, "explore.html"), "utf8");
const drawn = page.match(/<svg[^>]*>[\s\S]*?<\/svg>/g) ?? [];
expectThat(drawn.length > 0 && drawn.every((svg) => svg.includes("<path")), "the figures survive the export to HTML");
console.log(`to look at: ${join("out", "notebook")}`);

function checkBundles(bundles, time) {
  let figures = 0;
  let tables = 0;
  for (const bundle of bundles) {
    const spec = bundle["application/vnd.vegalite.v5+json"];
    const html = textOf(bundle["text/html"] ?? "");
    if (spec === undefined) {
      if (!html.includes("<div"))
        throw new Error(`not so: every output has HTML; this has not: ${textOf(bundle["text/plain"])}`);
      if (/<table/.test(html)) {
        tables++;
        if (!/<caption[^>]*>[^<]/.test(html))
          throw new Error(`not so: every table has a caption: ${html.slice(0, 200)}`);
        if (!/<th scope="col"/.test(html))
          throw new Error(`not so: headings say what they head: ${html.slice(0, 200)}`);
      }
      continue;
    }
    figures++;
    const svg = textOf(bundle["image/svg+xml"] ?? "");
    if (!/^<svg[\s\S]*<path[\s\S]*<\/svg>\s*$/.test(svg))
      throw new Error("not so: the picture of a figure is an SVG with paths");
    if (!/<svg[\s\S]*<path/.test(html)) throw new Error("not so: the HTML of a figure holds its picture");
    if (textOf(bundle["text/plain"]).length < 40)
      throw new Error("not so: a figure has a text in place of the picture");
    const said = [];
    const log = (...words) => said.push(words.join(" "));
    const logger = { level: () => logger, warn: log, error: log, info: () => logger, debug: () => logger };
    compile(spec, { logger });
    if (said.length > 0)
      throw new Error(`not so: vega-lite compiles the specification without a word: ${said.join("; ")}`);
    if (time === 1) {
      writeFileSync(join(out, `figure-${figures}.svg`), svg);
      writeFileSync(join(out, `figure-${figures}.png`), new Resvg(svg, { background: "white" }).render().asPng());
      writeFileSync(join(out, `figure-${figures}.vl.json`), `${JSON.stringify(spec)}\n`);
    }
  }
  if (figures === 0 || tables < 5)
    throw new Error(`not so: the notebook shows figures and tables: ${figures}, ${tables}`);
}
