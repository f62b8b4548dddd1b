import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { spread } from "./spread.js";

const script = fileURLToPath(new URL("./redrawOnce.js", import.meta.url));
const RUNS = 100;

/**
 * What someone waits for who changes a window in a script or a notebook: new processes, nothing warm, a hundred runs from
 * their bytes to indices, then again under other windows from the same curves.
 *
 * @param {{ rounds: number, rows: number, seed: number }} options
 * @returns {{ lines: string[], result: Record<string, number[]> }} A table, and ms of every round.
 */
export function redraw({ rounds, rows, seed }) {
  const samples = Array.from({ length: rounds }, () => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [script, `${RUNS}`, `${rows}`, `${seed}`], {
      encoding: "utf8",
    });
    if (status !== 0) throw new Error(`${script} ended with ${status}: ${stderr}`);
    return JSON.parse(stdout);
  });
  const [first, again, whole] = [0, 1, 2].map((i) => samples.map((took) => took[i]));
  const line = (name, ms) => {
    const { median, low, high } = spread(ms);
    const ratio = spread(ms.map((value, round) => value / first[round])).median.toFixed(3);
    return `${name.padEnd(28)}${median.toFixed(0).padStart(8)}${`${low.toFixed(0)}–${high.toFixed(0)}`.padStart(12)}${ratio.padStart(12)}`;
  };
  const lines = [
    `${RUNS} runs in a new process, ms${"/first".padStart(34)}`,
    line("first pass", first),
    line("again, losses", again),
    line("again, with budgets", whole),
  ];
  return { lines, result: { first, again, whole } };
}
