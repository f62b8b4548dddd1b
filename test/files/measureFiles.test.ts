import { mkdtempSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { FileJob } from "../../src/files/measureFile.ts";
import { measureFiles } from "../../src/files/measureFiles.ts";
import { runWorkers } from "../../src/files/runWorkers.ts";
import { newJob } from "../../src/protocol/newJob.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { exportBytes } from "./exportBytes.ts";
import { tempFolder } from "./tempFolder.ts";

const protocol = settle(protocols.csa);
const built = mkdtempSync(join(tmpdir(), "tg-hydrates-worker-"));
const worker = pathToFileURL(join(built, "worker.mjs"));

beforeAll(async () => {
  await build({
    entryPoints: ["src/files/worker.ts"],
    outfile: join(built, "worker.mjs"),
    bundle: true,
    platform: "node",
    format: "esm",
    banner: { js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);' },
    logLevel: "silent",
  });
});
afterAll(() => rmSync(built, { recursive: true, force: true }));

/** Runs of different length, so that workers finish out of order, and files that are no runs between them. */
function campaign(): { folder: string; jobs: FileJob[] } {
  const folder = tempFolder({
    "a.txt": exportBytes({ seed: 1 }),
    "b.txt": "no table",
    "c.txt": exportBytes({ seed: 2, to_C: 300 }),
    "d.csv": exportBytes({ seed: 3, layout: "commas" }),
    "e.txt": "",
    "f.txt": exportBytes({ seed: 4 }),
  });
  const files = ["f.txt", "b.txt", "gone.txt", "a.txt", "c.txt", "e.txt", "d.csv"];
  return { folder, jobs: files.map((file) => ({ job: newJob(file), mix: null })) };
}

describe("files in worker threads", () => {
  test.for([1, 2, 4, 16])("%i threads give the same, in the order of the jobs", async (threads) => {
    const { folder, jobs } = campaign();
    const alone = await measureFiles(jobs, { folder, protocol, threads: 1, worker: null });
    const counts: number[] = [];
    const onProgress = (done: number, total: number): void => {
      expect(total).toBe(jobs.length);
      counts.push(done);
    };
    const measured = await measureFiles(jobs, { folder, protocol, threads, worker, onProgress });
    expect(measured).toEqual(alone);
    expect(measured.map(({ result }) => result.file)).toEqual(jobs.map(({ job }) => job.file));
    expect(measured.map(({ result }) => result.status)).toEqual([
      "done",
      "failed",
      "failed",
      "done",
      "incomplete",
      "failed",
      "done",
    ]);
    expect(measured.map(({ curve }) => curve === null)).toEqual([false, true, true, false, false, true, false]);
    expect(counts).toEqual(jobs.map((_, i) => i + 1));
  });

  test("a worker that dies fails its file only and is replaced", async () => {
    const { folder, jobs } = campaign();
    const script = join(built, "mortal.mjs");
    writeFileSync(
      script,
      `import { parentPort } from "node:worker_threads";
      parentPort.on("message", ({ job }) => {
        if (job.file === "a.txt" || job.file === "e.txt") throw new Error("out of memory");
        parentPort.postMessage({ result: { file: job.file, status: "done" }, line: new Uint8Array(), curve: null });
      });`,
    );
    const options = { folder, protocol, threads: 2, worker: pathToFileURL(script), takesPart: false };
    const measured = await runWorkers(jobs, options);
    const failed = measured.filter(({ result }) => result.status === "failed");
    expect(measured.map(({ result }) => result.file)).toEqual(jobs.map(({ job }) => job.file));
    expect(failed.map(({ result }) => result.status === "failed" && result.error)).toEqual(
      ["a.txt", "e.txt"].map((file) => ({
        code: "internal-error",
        message: `${file}: The thread that measured this file ended (out of memory). Run with --jobs 1; if that fails too, report it.`,
      })),
    );
  });

  test("the calling thread takes its share of the small files and leaves the large ones", async () => {
    const { folder, jobs } = campaign();
    writeFileSync(join(folder, "large.txt"), `${" ".repeat(79)}\n`.repeat(110_000));
    const script = join(built, "echo.mjs");
    writeFileSync(
      script,
      `import { parentPort } from "node:worker_threads";
      parentPort.on("message", ({ job }) =>
        parentPort.postMessage({ result: { file: job.file, status: "elsewhere" }, line: new Uint8Array(), curve: null }));`,
    );
    const large = { job: newJob("large.txt"), mix: null };
    const options = { folder, protocol, worker: pathToFileURL(script) };
    // More small ones than a worker is given before it has answered.
    const many = [...jobs, ...jobs];
    const shared = await runWorkers(many, { ...options, threads: 2 });
    const places = new Set(shared.map(({ result }) => (result.status as string) === "elsewhere"));
    expect(places).toEqual(new Set([true, false]));
    const [alone] = await runWorkers([large], { ...options, threads: 1 });
    expect(alone!.result).toEqual({ file: "large.txt", status: "elsewhere" });
  });

  test("a worker that ends without a word fails its file only; nobody waits for it", async () => {
    const { folder, jobs } = campaign();
    const script = join(built, "silent.mjs");
    writeFileSync(
      script,
      `import { parentPort } from "node:worker_threads";
      parentPort.on("message", ({ job }) => {
        if (job.file === "a.txt") process.exit(3);
        parentPort.postMessage({ result: { file: job.file, status: "done" }, line: new Uint8Array(), curve: null });
      });`,
    );
    const options = { folder, protocol, threads: 2, worker: pathToFileURL(script), takesPart: false };
    const measured = await runWorkers(jobs, options);
    const failed = measured.filter(({ result }) => result.status === "failed");
    expect(measured.map(({ result }) => result.file)).toEqual(jobs.map(({ job }) => job.file));
    expect(failed.map(({ result }) => result.status === "failed" && result.error.message)).toEqual([
      "a.txt: The thread that measured this file ended (exit code 3). Run with --jobs 1; if that fails too, report it.",
    ]);
  });

  test("a large file is measured in a worker even with one thread, so that the calling one hears a signal", async () => {
    const { folder, jobs } = campaign();
    truncateSync(join(folder, "d.csv"), 8_000_001);
    const script = join(built, "never.mjs");
    writeFileSync(script, 'import { parentPort } from "node:worker_threads"; parentPort.on("message", () => {});');
    const stop = new AbortController();
    const done: number[] = [];
    const onProgress = (count: number): void => {
      done.push(count);
      if (count === jobs.length - 1) setTimeout(() => stop.abort(new RangeError("enough")), 50);
    };
    const options = { folder, protocol, threads: 1, worker: pathToFileURL(script), signal: stop.signal, onProgress };
    await expect(measureFiles(jobs, options)).rejects.toThrow("enough");
    // The others came from the calling thread: this worker answers nothing.
    expect(done).toEqual([1, 2, 3, 4, 5, 6]);
  });

  test.for([1, 2])("stopped at once with %i threads", async (threads) => {
    const { folder, jobs } = campaign();
    const stop = new AbortController();
    const onProgress = (): void => stop.abort(new RangeError("enough"));
    const measured = measureFiles(jobs, { folder, protocol, threads, worker, signal: stop.signal, onProgress });
    await expect(measured).rejects.toThrow("enough");
    const thrown = measureFiles(jobs, {
      ...{ folder, protocol, threads, worker },
      onProgress() {
        throw new RangeError("my own mistake");
      },
    });
    await expect(thrown).rejects.toThrow("my own mistake");
    const before = measureFiles(jobs, {
      folder,
      protocol,
      threads,
      worker,
      signal: AbortSignal.abort(new RangeError("never")),
    });
    await expect(before).rejects.toThrow("never");
  });
});

test("an error of the program itself is a failed run with its stack, and stops no other", async () => {
  const { folder } = campaign();
  const jobs = ["a.txt", "f.txt"].map((file) => ({ job: newJob(file), mix: null }));
  // A job without its list of columns can only come from a mistake of ours.
  const [first] = jobs;
  const broken = { ...first!, job: { ...first!.job, columns: null as unknown as [] } };
  const [bad, good] = await measureFiles([broken, jobs[1]!], { folder, protocol, threads: 1 });
  expect(bad!.result).toMatchObject({ status: "failed", error: { code: "internal-error" } });
  expect(bad!.result.status === "failed" && bad!.result.error.message).toMatch(
    /^a\.txt: An error of tg-hydrates itself \(.+\)\. Report it with this file; the other runs are not affected\.$/,
  );
  expect(bad!.stack).toMatch(/\n\s+at /);
  expect(good!.result.status).toBe("done");
});
