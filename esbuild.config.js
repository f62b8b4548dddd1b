// Bundles the command, the worker and the entry points of the library: unbundled, the start-up of the command costs about
// 240 ms, bundled 17.
// `npm run build` runs this after tsc has built the library.
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { build } from "esbuild";

const bundles = { cli: "src/cli/main.ts", worker: "src/files/worker.ts" };

const { metafile } = await build({
  entryPoints: bundles,
  outdir: "dist",
  bundle: true,
  platform: "node",
  format: "esm",
  // Shared parts stand in chunks, so that --version and --help load next to nothing.
  splitting: true,
  chunkNames: "chunks/[name]-[hash]",
  target: "node20.19",
  // Heavy and optional: loaded only where a figure is drawn.
  external: ["vega", "vega-lite", "@resvg/resvg-js"],
  // Bundled CommonJS packages still call require for Node's own modules.
  banner: { js: 'import { createRequire } from "node:module";\nconst require = createRequire(import.meta.url);' },
  // Their licences stand together in one file beside the bundles instead.
  legalComments: "none",
  metafile: true,
  // ml-spectra-processing does not say that its unused functions, and the package they need, may be left out.
  plugins: [
    {
      name: "leave-out-unused",
      setup({ onResolve, resolve }) {
        onResolve({ filter: /./ }, async ({ path, pluginData, ...rest }) => {
          const its = /ml-spectra-processing/.test(path) || /ml-spectra-processing/.test(rest.importer);
          if (!its || pluginData === "seen") return undefined;
          return { ...(await resolve(path, { ...rest, pluginData: "seen" })), sideEffects: false };
        });
      },
    },
  ],
  logLevel: "warning",
});

// The entry points of the library, one file and what they share each: three hundred modules take a tenth of a second to load.
// Types and single modules stay as tsc has made them; of these only the types are packed.
const library = await build({
  entryPoints: { index: "src/index.ts", node: "src/node.ts", notebook: "src/notebook.ts" },
  outdir: "dist",
  bundle: true,
  platform: "node",
  format: "esm",
  splitting: true,
  chunkNames: "chunks/library-[hash]",
  target: "node20.19",
  packages: "external",
  allowOverwrite: true,
  metafile: true,
  logLevel: "warning",
});

// MIT, ISC and BSD ask that the notice goes with every copy, and the bundles are copies.
const packages = new Set(
  Object.values(metafile.outputs)
    .flatMap(({ inputs }) => Object.entries(inputs))
    // What was shaken out is not in the copy.
    .filter(([, { bytesInOutput }]) => bytesInOutput > 0)
    .flatMap(([file]) => /^node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file)?.[0] ?? []),
);
if (packages.size === 0) throw new Error("No package was bundled: the notices would be empty");
const notices = [...packages].sort().map((folder) => {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry));
  if (file === undefined) throw new Error(`${name} has no licence file to pass on: do not bundle it`);
  return `${name} ${version} (${license})\n\n${readFileSync(join(folder, file), "utf8").trim()}\n`;
});
writeFileSync("dist/THIRD-PARTY.txt", notices.join(`\n${"-".repeat(80)}\n\n`));

/** Adds a file of types and all that it imports: what the entry points show. */
function reach(file, reached) {
  if (reached.has(file)) return;
  reached.add(file);
  for (const [, name] of readFileSync(file, "utf8").matchAll(/(?:from|import\() ?"(\.[^"]+)"/g)) {
    reach(join(dirname(file), name.replace(/\.[jt]s$/, ".d.ts")), reached);
  }
}
const types = new Set();
for (const entry of ["index", "node", "notebook"]) reach(join("dist", `${entry}.d.ts`), types);

// What an earlier build made of a source that is no longer there would be shipped with the package, and so would the
// types of what stays inside.
const others = new Set([
  "dist/THIRD-PARTY.txt",
  "dist/chunks",
  ...Object.keys(metafile.outputs),
  ...Object.keys(library.metafile.outputs),
]);
for (const entry of readdirSync("dist", { recursive: true, withFileTypes: true })) {
  const file = join(entry.parentPath, entry.name);
  const source = file.replace(/^dist/, "src").replace(/(\.d\.ts|\.js)$/, ".ts");
  const inside = file.endsWith(".d.ts") && !types.has(file);
  const made = entry.isDirectory()
    ? entry.name === "chunks" || existsSync(source)
    : !inside && (others.has(file.replaceAll("\\", "/")) || existsSync(source));
  if (!made) rmSync(file, { recursive: true, force: true });
}
