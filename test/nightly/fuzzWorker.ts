// The thread that runs fuzz cases: it says which one it is at in shared memory, so that the watchdog sees one that hangs.

import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { isMainThread, parentPort, workerData } from "node:worker_threads";
import { drawSvg } from "../../src/draw/drawSvg.ts";
import { caseOf, fuzzKinds, type Input, type Kind, runCase } from "./fuzzCases.ts";
import { folderKind } from "./fuzzFolder.ts";
import { material } from "./material.ts";

/** What the thread is told. */
export interface FuzzTask {
  root: string;
  cases: number;
  seed: number;
  /** Number of the case that runs, for the watchdog; and 1 behind it once the thread is to end early. */
  at: SharedArrayBuffer;
  /** Heap is measured after so many cases. */
  block: number;
}

/** What the thread says when it is done, or has found a fault. */
export interface FuzzReport {
  kinds: Record<string, { cases: number; ended: Record<string, number>; slowest_ms: number; slowest_case: number }>;
  /** MB after a collection, at the start and after every block. */
  heap_MB: number[];
  /** The first few. */
  faults: { number: number; kind: string; message: string }[];
}

const MOST_FAULTS = 20;
/** Asking for the time of the processor takes longer than most cases do. */
const LONG_ms = 20;

/** All kinds of cases. */
export function allKinds(root: string): Record<string, Kind> {
  const kinds = fuzzKinds(material(root));
  return { ...kinds, folder: folderKind(kinds) };
}

export { runCase as runAgain };

/** The case of a number, made again. */
export function remade(root: string, seed: number, number: number): { kind: string; input: Input } {
  return caseOf(allKinds(root), seed, number);
}

if (!isMainThread && parentPort) parentPort.postMessage(await fuzz(workerData as FuzzTask));

async function fuzz({ root, cases, seed, at, block }: FuzzTask): Promise<FuzzReport> {
  const kinds = allKinds(root);
  const now = new Int32Array(at);
  const report: FuzzReport = { kinds: {}, heap_MB: [], faults: [] };
  for (const name of Object.keys(kinds)) report.kinds[name] = { cases: 0, ended: {}, slowest_ms: 0, slowest_case: 0 };
  // The packages that draw are loaded by the first case that draws: not by what is measured here.
  await drawSvg({
    $schema: "https://vega.github.io/schema/vega-lite/v5.json",
    data: { values: [{ a: 1 }] },
    mark: "point",
    encoding: { x: { field: "a", type: "quantitative" } },
  });
  let used_ms = processorTime();
  for (let number = 0; number < cases && Atomics.load(now, 1) === 0; number++) {
    // What is made once and kept stands after the first thousand cases.
    if (number === 1000 || (number > 0 && number % block === 0)) report.heap_MB.push(heap());
    Atomics.store(now, 0, number);
    const { kind, input } = caseOf(kinds, seed, number);
    const told = report.kinds[kind]!;
    const start = performance.now();
    try {
      const ended = await runCase(kinds, kind, input);
      told.ended[ended] = (told.ended[ended] ?? 0) + 1;
    } catch (error) {
      const message = error instanceof Error ? (error.stack ?? error.message) : String(error);
      report.faults.push({ number, kind, message });
      if (report.faults.length >= MOST_FAULTS) return report;
    }
    let took = performance.now() - start;
    // Of the processor, not of the clock, where it was long: the machine may be busy elsewhere.
    if (took > LONG_ms) {
      const now_ms = processorTime();
      took = Math.min(took, now_ms - used_ms);
      used_ms = now_ms;
    }
    told.cases++;
    if (took > told.slowest_ms) Object.assign(told, { slowest_ms: took, slowest_case: number });
  }
  report.heap_MB.push(heap());
  return report;
}

/** Of this process, ms. */
function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** MB in use on this thread after a collection. */
function heap(): number {
  setFlagsFromString("--expose-gc");
  const collect = runInNewContext("gc") as () => void;
  collect();
  collect();
  const { heapUsed, external } = process.memoryUsage();
  return Number(((heapUsed + external) / 1e6).toFixed(2));
}
