import process from "node:process";
import { kernel } from "./kernel.ts";
import type { MimeBundle } from "./types.ts";

/**
 * How long a cell stays busy after an output, ms. The kernel may report itself idle before it has sent its last outputs, and who
 * executes the notebook then stops listening: measured with Deno 2.9.6 and nbclient 0.7.2, 1 to 17 of 100 outputs
 * are lost without a pause. With 20 ms small ones never were, but one large picture on a busy machine was: large outputs get
 * more time.
 */
const PAUSE_MS = 50;
/** Letters that take another millisecond. */
const LETTERS_PER_MS = 2000;
const LONGEST_MS = 500;

/** Hands an output to the notebook; outside of one, writes its text to stdout. */
export async function display(bundle: MimeBundle): Promise<void> {
  const notebook = kernel();
  if (notebook === null) {
    process.stdout.write(bundle["text/plain"]);
    return;
  }
  await notebook.display(bundle, { raw: true });
  const pause = Math.min(PAUSE_MS + Math.floor(JSON.stringify(bundle).length / LETTERS_PER_MS), LONGEST_MS);
  await new Promise((done) => setTimeout(done, pause));
}
