// Packs the package, looks at it as its users get it, and uses it: installed from the tarball into an empty folder, first
// without what draws, then with it; from its command, from Node as ES module and by require, from Deno, bundled for a
// browser, and under the type-checkers of both lines of TypeScript. Stops at the first thing that does not hold.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const { name, version, exports: entries } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const folder = mkdtempSync(join(tmpdir(), "tg-hydrates-installed-"));
const project = join(folder, "project");

/** Runs a program in the project and gives what it wrote; stops if it did not end as expected. */
function run(program, args, { cwd = project, status = 0 } = {}) {
  const ended = spawnSync(program, args, { cwd, encoding: "utf8" });
  if (ended.error) throw ended.error;
  if (ended.status !== status) {
    throw new Error(`${program} ${args.join(" ")} ended with ${ended.status}\n${ended.stdout}${ended.stderr}`);
  }
  return { out: ended.stdout, err: ended.stderr };
}

function expectThat(holds, sentence) {
  if (!holds) throw new Error(`not so: ${sentence}`);
  console.log(`ok  ${sentence}`);
}

const write = (file, text) => writeFileSync(join(project, file), text);
const results = (out) => readdirSync(join(project, out), { recursive: true, encoding: "utf8" });

try {
  const tarball = join(folder, `${name}-${version}.tgz`);
  const [packed] = JSON.parse(
    run("npm", ["pack", "--ignore-scripts", "--json", "--pack-destination", folder], { cwd: root }).out,
  );
  const kB = (bytes) => `${Math.round(bytes / 1000)} kB`;
  expectThat(
    existsSync(tarball),
    `npm packs it: ${kB(packed.size)}, unpacked ${kB(packed.unpackedSize)}, ${packed.entryCount} files`,
  );
  // Resolution as before Node 12 is not asked; that require gets an ES module is meant (Node 20.19).
  run("attw", [tarball, "--profile", "node16", "--ignore-rules", "cjs-resolves-to-esm", "--no-color"], { cwd: folder });
  expectThat(true, "consumers resolve every entry point to code and types (attw)");

  mkdirSync(project);
  write("package.json", '{ "name": "project", "private": true, "type": "module" }\n');
  const quiet = ["--omit=dev", "--ignore-scripts", "--no-audit", "--no-fund"];
  run("npm", ["install", ...quiet, "--omit=optional", tarball]);
  expectThat(
    !existsSync(join(project, "node_modules", "vega")),
    "without the optional packages nothing of vega is there",
  );

  const command = join(project, "node_modules", ".bin", name);
  expectThat(run(command, ["--version"]).out.trim() === version, "the command says its version");
  run(command, ["no-such-command"], { status: 2 });
  expectThat(true, "a misspelt command ends with 2");
  run(command, ["example", "runs"]);
  const index = run(command, ["index", "runs", "--out", "results", "--jobs", "2"]);
  expectThat(index.out.includes("aft-afm"), "the command indexes the example that it wrote");
  const files = [
    "runs.csv",
    "losses.csv",
    "ages.csv",
    "phases.csv",
    "campaign.json",
    "datapackage.json",
    "report.html",
  ];
  expectThat(
    files.every((file) => results("results").includes(file)),
    `it writes ${files.join(", ")}`,
  );
  expectThat(
    /^\d+ of \d+ figures were not drawn\. Install vega-lite to draw figures: npm install vega-lite\.$/m.test(index.err),
    "where figures cannot be drawn it says what to install, and ends with 0",
  );
  const png = run(command, ["index", "runs", "--out", "pictures", "--png"], { status: 2 });
  expectThat(
    png.err.includes("npm install @resvg/resvg-js") && !existsSync(join(project, "pictures")),
    "asked for PNG it says what to install before it does anything",
  );
  const campaign = join("results", "campaign.json");
  const compared = ["compare", campaign, "--reference", "sealed", "--properties", "runs/properties.csv"];
  run(command, [...compared, "--out", "decisions", "--no-figures"]);
  expectThat(results("decisions").includes("contrasts.csv"), "compare decides from campaign.json");
  const [heading, row] = run(command, ["sheet", "runs"]).out.split("\n");
  const [read] = JSON.parse(run(command, ["read", "--json", `runs/${row.split(",")[0]}`]).out);
  const { windows } = JSON.parse(run(command, ["protocol"]).out);
  expectThat(
    heading.startsWith("file,") && read.rows_read > 100 && windows.length > 0,
    "sheet, read and protocol do their work",
  );

  const faces = Object.keys(entries).filter((entry) => typeof entries[entry] !== "string");
  const documents = Object.keys(entries).filter((entry) => typeof entries[entry] === "string");
  const named = (entry) => entry.replace(".", name);
  const count = (of) => `console.log(${of}.map((face) => Object.keys(face).length).join(" "));\n`;
  const imports = (list) => list.map((entry, i) => `import * as face${i} from "${named(entry)}";\n`).join("");
  const list = `[${faces.map((_, i) => `face${i}`).join(", ")}]`;
  write("use.js", imports(faces) + count(list));
  const inNode = run(process.execPath, ["use.js"]).out;
  expectThat(
    /^[1-9]\d*( [1-9]\d*)*\n$/.test(inNode),
    `${faces.length} entry points import in Node, ${inNode.trim()} names`,
  );
  write("use.cjs", count(`[${faces.map((entry) => `require("${named(entry)}")`).join(", ")}]`));
  const required = run(process.execPath, ["use.cjs"]).out;
  expectThat(required === inNode, "the same come by require from CommonJS");
  write(
    "schemas.js",
    documents.map((entry) => `import "${named(entry)}" with { type: "json" };\n`).join("") + imports(["./node"]),
  );
  run(process.execPath, ["schemas.js"]);
  expectThat(true, `${documents.length} documents import in Node`);
  // A face that loaded its own copy of a module would not know the errors of the others.
  const same = faces.flatMap((_, i) =>
    i === 0 ? [] : [`Object.keys(face0).every((key) => face0[key] === face${i}[key])`],
  );
  write("same.js", `${imports(faces)}console.log(${same.join(" && ")});\n`);
  expectThat(run(process.execPath, ["same.js"]).out === "true\n", "what two entry points share is the same thing");
  const draw = `import { drawSvg } from "${name}/node";\nconst values = [{ a: 1 }];
const spec = { data: { values }, mark: "point", encoding: { x: { field: "a", type: "quantitative" } } };
try { console.log((await drawSvg(spec)).slice(0, 4)); } catch (error) { console.log(error.name + ": " + error.message); }\n`;
  write("draw.js", draw);
  expectThat(
    run(process.execPath, ["draw.js"]).out === "DrawError: Install vega-lite to draw figures: npm install vega-lite.\n",
    "drawSvg without vega says what to install",
  );
  const inDeno = run("deno", ["run", "--allow-all", "--node-modules-dir=manual", "use.js"]).out;
  expectThat(inDeno === inNode, "the same entry points import in Deno");

  write("page.js", `import * as hydrates from "${name}";\nconsole.log(Object.keys(hydrates).length);\n`);
  const esbuild = join(root, "node_modules/esbuild/bin/esbuild");
  run(esbuild, ["page.js", "--bundle", "--platform=browser", "--format=esm", "--minify", "--outfile=page.min.js"]);
  const page = readFileSync(join(project, "page.min.js"));
  expectThat(
    run(process.execPath, ["page.min.js"]).out.trim() === inNode.split(" ")[0],
    `the main entry bundles for a browser: ${kB(page.length)} minified`,
  );

  await checkTypes(faces, named);

  run("npm", ["install", ...quiet]);
  expectThat(run(process.execPath, ["draw.js"]).out === "<svg\n", "with the optional packages drawSvg draws");
  const drawn = run(command, ["index", "runs", "--out", "drawn"]);
  expectThat(
    !drawn.err.includes("not drawn") && results("drawn").some((file) => file.endsWith(".svg")),
    "and the command writes figures",
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** The entry points under strict consumers: both lines of TypeScript, both ways to resolve, with and without Node and DOM. */
async function checkTypes(faces, named) {
  write(
    "core.ts",
    `import { indexRun, protocols, readRun, settle, type RunResult } from "${name}";
const run = readRun(new Uint8Array(), { name: "a.txt" });
export const result: RunResult = indexRun(run, settle(protocols.csa));
// @ts-expect-error a run is no text
indexRun("a.txt", settle(protocols.csa));\n`,
  );
  write(
    "all.ts",
    `${faces.map((entry) => `export type {} from "${named(entry)}";\n`).join("")}import { indexFolder } from "${name}/node";
import { show } from "${name}/notebook";
import protocol from "${name}/schema/protocol.schema.json" with { type: "json" };
export const id: string = protocol.$id;
const { campaign } = await indexFolder("runs");
export const ages: readonly { index_u: number | null }[] = campaign.ages;
await show(campaign);
// @ts-expect-error a folder is needed
await indexFolder();\n`,
  );
  const strict = {
    strict: true,
    exactOptionalPropertyTypes: true,
    noUncheckedIndexedAccess: true,
    noPropertyAccessFromIndexSignature: true,
    verbatimModuleSyntax: true,
    resolveJsonModule: true,
    skipLibCheck: false,
    noEmit: true,
    target: "ES2023",
  };
  const typeRoots = [join(root, "node_modules/@types")];
  const nodeNext = { module: "NodeNext", moduleResolution: "NodeNext" };
  const bundler = { module: "ESNext", moduleResolution: "Bundler" };
  const bare = { lib: ["ES2023"], types: [] };
  const consumers = [
    { who: "the core, neither Node nor DOM", files: ["core.ts"], options: { ...nodeNext, ...bare } },
    { who: "the core, neither, bundler", files: ["core.ts"], options: { ...bundler, ...bare } },
    {
      who: "all, types of Node",
      files: ["all.ts"],
      options: { ...nodeNext, lib: ["ES2023"], types: ["node"], typeRoots },
    },
    { who: "all, DOM, bundler", files: ["all.ts"], options: { ...bundler, types: [] } },
  ];
  const compilers = [
    join(root, "node_modules/typescript/bin/tsc"),
    fileURLToPath(import.meta.resolve("typescript5/bin/tsc")),
  ];
  for (const compiler of compilers) {
    const version = run(process.execPath, [compiler, "--version"]).out.trim().replace("Version", "TypeScript");
    const checks = consumers.map(async ({ who, files, options }, i) => {
      write(`tsconfig.${i}.json`, JSON.stringify({ files, compilerOptions: { ...strict, ...options } }));
      const said = await typeErrors(compiler, `tsconfig.${i}.json`);
      if (said !== "") throw new Error(`${version}, ${who}:\n${said}`);
    });
    await Promise.all(checks);
    expectThat(
      true,
      `${version} finds the types, strict, libraries not skipped: ${consumers.map(({ who }) => who).join("; ")}`,
    );
  }
}

/** What a compiler says of a project, empty if nothing. */
function typeErrors(compiler, file) {
  return new Promise((done, fail) => {
    const child = spawn(process.execPath, [compiler, "-p", file], { cwd: project });
    let said = "";
    for (const stream of [child.stdout, child.stderr]) stream.on("data", (text) => (said += text));
    child.on("error", fail);
    child.on("close", (status) => done(status === 0 ? "" : `${said}exit code ${status}`));
  });
}
