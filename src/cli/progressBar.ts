import type { Io } from "./io.ts";

/** More updates than this per second nobody sees. */
const UPDATES_PER_SECOND = 12;

/**
 * A bar on stderr where that is a terminal; elsewhere nothing is written. Returns what to call after every step, and what takes
 * the bar away.
 */
export function progressBar(io: Io, what: string): { step(done: number, total: number): void; clear(): void } {
  if (!io.isTTY || io.env.TERM === "dumb") return { step: () => undefined, clear: () => undefined };
  const columns = io.columns || 80;
  let last = Number.NEGATIVE_INFINITY;
  const step = (done: number, total: number): void => {
    const now = performance.now();
    if (done < total && now - last < 1000 / UPDATES_PER_SECOND) return;
    last = now;
    const label = ` ${done} of ${total} ${what}`;
    const width = Math.min(40, columns - label.length - 3);
    const filled = Math.round((width * done) / total);
    const bar = width < 5 ? "" : `[${"#".repeat(filled)}${"-".repeat(width - filled)}]`;
    io.stderr.write(`\r${(bar + label).slice(0, columns - 1)}`);
  };
  const clear = (): void => {
    if (last > Number.NEGATIVE_INFINITY) io.stderr.write(`\r${" ".repeat(columns - 1)}\r`);
  };
  return { step, clear };
}
