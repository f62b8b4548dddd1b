import { stat } from "node:fs/promises";
import { availableParallelism } from "node:os";
import { resolve } from "node:path";

/** Text that one thread measures in a second once it is warm, bytes: about 2 ms for a run of 5,000 rows (Node 20). */
const BYTES_PER_SECOND = 50e6;

/**
 * A further thread pays from about this much work for each on, s: it compiles everything anew, and below some 500 runs of 5,000
 * rows that costs two cores more than the second thread saves (`npm run bench` compares).
 */
const WORTH_A_WORKER = 0.5;

/**
 * How many threads a folder deserves: one for small work, otherwise at most one per core.
 *
 * @param files Names relative to the folder.
 */
export async function chooseThreads(files: readonly string[], folder: string): Promise<number> {
  const cores = availableParallelism();
  let bytes = 0;
  for (const file of files) {
    // A file that has vanished is reported when its turn comes.
    bytes += await stat(resolve(folder, file)).then(
      ({ size }) => size,
      () => 0,
    );
    if (bytes > cores * WORTH_A_WORKER * BYTES_PER_SECOND) return Math.min(cores, files.length);
  }
  return Math.max(1, Math.min(Math.floor(bytes / BYTES_PER_SECOND / WORTH_A_WORKER), files.length));
}
