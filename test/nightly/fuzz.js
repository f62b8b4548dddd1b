// A million hostile inputs: runs, sheets, mix tables, property tables, protocols, names, campaigns and whole folders, spoilt in
// seeded ways. No crash, no hang, no growing heap, nothing written beside the output folder.
//
//   npm run nightly:fuzz -- --cases 1000000 --seed 1
//   npm run nightly:fuzz -- --seed 1 --case 4711     one case again, its input written to out/
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { parseArgs } from "node:util";
import { Worker } from "node:worker_threads";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../../", import.meta.url));
const { values } = parseArgs({
  options: {
    cases: { type: "string", default: "1000000" },
    seed: { type: "string", default: "1" },
    case: { type: "string" },
    /** Heap is measured after so many cases. */
    block: { type: "string", default: "50000" },
    /** Longest that a case may keep the processor, s. */
    limit: { type: "string", default: "20" },
  },
});
const [cases, seed, block, limit] = ["cases", "seed", "block", "limit"].map((name) => Number(values[name]));
/** The heap may grow by this much in all, MB: what is remembered on purpose is bounded well below. */
const GROWTH_MB = 10;

const script = join(root, "out", "nightly", `fuzzWorker-${process.pid}.js`);
await build({
  entryPoints: [join(root, "test/nightly/fuzzWorker.ts")],
  outfile: script,
  bundle: true,
  platform: "node",
  format: "esm",
  packages: "external",
  logLevel: "warning",
});
const { remade } = await import(pathToFileURL(script).href);

if (values.case === undefined) await fuzz();
else await again(Number(values.case));

async function fuzz() {
  console.log(`${cases} cases, seed ${seed}`);
  const start = performance.now();
  const at = new SharedArrayBuffer(8);
  // Whoever stops it is told how far it came.
  for (const signal of ["SIGINT", "SIGTERM"]) process.once(signal, () => Atomics.store(new Int32Array(at), 1, 1));
  const worker = new Worker(script, { workerData: { root, cases, seed, at, block } });
  const report = await Promise.race([
    new Promise((done, failed) => {
      worker.once("message", done);
      worker.once("error", failed);
    }).catch((error) => ({ died: error })),
    watch(new Int32Array(at)),
  ]);
  await worker.terminate();
  if (report.died)
    return fail(Atomics.load(new Int32Array(at), 0), `the thread died: ${report.died.stack ?? report.died}`);
  if (report.hung !== undefined) return fail(report.hung, `it took more than ${limit} s`);
  for (const { number, message } of report.faults) fail(number, message);
  const done = Object.values(report.kinds).reduce((sum, { cases: count }) => sum + count, 0);
  const minutes = ((performance.now() - start) / 60_000).toFixed(1);
  for (const [kind, { cases: count, ended, slowest_ms, slowest_case }] of Object.entries(report.kinds)) {
    const ends = Object.entries(ended).sort(([, a], [, b]) => b - a);
    const words = ends.map(([end, times]) => `${times} ${end}`).join(", ");
    console.log(`${kind}: ${count} cases, slowest ${slowest_ms.toFixed(0)} ms (case ${slowest_case}); ${words}`);
  }
  const heap = report.heap_MB;
  const slowest = Math.max(...Object.values(report.kinds).map(({ slowest_ms }) => slowest_ms));
  const errors = {};
  for (const { ended } of Object.values(report.kinds))
    for (const [end, times] of Object.entries(ended))
      if (end.endsWith("Error")) errors[end] = (errors[end] ?? 0) + times;
  const kinds = Object.entries(report.kinds).map(([kind, { cases: count }]) => `${kind} ${count}`);
  const byClass = Object.entries(errors).map(([name, times]) => `${name} ${times}`);
  console.log(
    `fuzz: ${done} cases (${kinds.join(", ")}), seed ${seed}, ${minutes} min; slowest case ${slowest.toFixed(0)} ms; ` +
      `heap ${heap[0]} MB first, ${heap.at(-1)} MB last, ${Math.max(...heap)} MB most; errors ${byClass.join(", ")}; ${report.faults.length} faults`,
  );
  // What the engine and the packages that draw keep on purpose is there after the first tenth.
  const settled = Math.max(...heap.slice(0, Math.ceil(heap.length / 10)));
  if (Math.max(...heap) - settled <= GROWTH_MB) return;
  console.error(`The heap grew by more than ${GROWTH_MB} MB: ${heap.join(", ")}`);
  process.exitCode = 1;
}

/** Resolves with the number of a case that has kept the processor for too long; a machine that is busy elsewhere does not count. */
function watch(at) {
  let [seen, since] = [-1, 0];
  return new Promise((hung) => {
    const timer = setInterval(() => {
      const now = Atomics.load(at, 0);
      const { user, system } = process.cpuUsage();
      const used = (user + system) / 1e6;
      if (now !== seen) [seen, since] = [now, used];
      else if (used - since > limit) {
        clearInterval(timer);
        hung({ hung: now });
      }
    }, 500);
    timer.unref();
  });
}

function fail(number, message) {
  console.error(`Fault in case ${number}, seed ${seed}: ${message}`);
  const { kind, input } = remade(root, seed, number);
  const folder = join(root, "out", "nightly", `fault-${seed}-${number}`);
  write(folder, input);
  console.error(
    `It is a case of ${kind}; its input is in ${folder}; again: npm run nightly:fuzz -- --seed ${seed} --case ${number}`,
  );
  process.exitCode = 1;
}

async function again(number) {
  const { allKinds, runAgain } = await import(pathToFileURL(script).href);
  const { kind, input } = remade(root, seed, number);
  const folder = join(root, "out", "nightly", `case-${seed}-${number}`);
  write(folder, input);
  console.log(`${kind}: input in ${folder}`);
  const start = performance.now();
  console.log(await runAgain(allKinds(root), kind, input));
  console.log(`${(performance.now() - start).toFixed(0)} ms`);
}

function write(folder, input) {
  mkdirSync(folder, { recursive: true });
  for (const [name, content] of Object.entries(input))
    writeFileSync(join(folder, `${encodeURIComponent(name.toWellFormed()).slice(0, 200)}.txt`), content);
}
