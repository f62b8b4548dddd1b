import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { exampleCampaign } from "../../dist/index.js";
import { filesBelow } from "./filesBelow.js";
import { isWriting, start } from "./start.js";

/**
 * A small invented campaign in a folder of its own, and for each scenario what an undisturbed run leaves and how long it takes.
 * Call `remove` at the end.
 */
export function ground(seed) {
  const root = mkdtempSync(join(tmpdir(), "tg-hydrates-faults-"));
  const { files } = exampleCampaign(seed, { size: "small", specimens: 1, rows: 400 });
  const inputs = new Map(files.map(({ name, bytes }) => [name, Buffer.from(bytes)]));
  const known = new Map();
  let rounds = 0;

  /** A new folder with the runs in `runs`, and older outputs where the scenario wants them. */
  async function place({ older = false, watch = false, out }, { full = !watch } = {}) {
    const folder = join(root, String(rounds++));
    for (const [name, bytes] of inputs) {
      mkdirSync(dirname(join(folder, "runs", name)), { recursive: true });
      if (full || name.endsWith("sheet.csv") || name.endsWith("mixes.csv")) {
        writeFileSync(join(folder, "runs", name), bytes);
      }
    }
    if (older) {
      const before = await undisturbed({ name: "older", args: ["--protocol", "csa-amounts", "--no-figures"], out });
      cpSync(join(before.folder, out), join(folder, out), { recursive: true });
    }
    return folder;
  }

  /** The rest of the runs, one after another; those that are there already stay. */
  async function fill(folder, every_ms = 0) {
    for (const [name, bytes] of inputs) {
      writeFileSync(join(folder, "runs", name), bytes);
      if (every_ms > 0) await pause(every_ms);
    }
  }

  /** What an undisturbed run leaves; ms until the first temporary file, and from there to the end. */
  function undisturbed(scenario) {
    if (!known.has(scenario.name)) known.set(scenario.name, run(scenario));
    return known.get(scenario.name);
  }

  async function run(scenario) {
    const folder = await place(scenario, { full: true });
    const { args, out } = scenario;
    const from = performance.now();
    const { ended } = start(["index", "runs", "--out", out, ...args], folder);
    let outcome = null;
    ended.then((it) => {
      outcome = it;
    });
    while (outcome === null && !isWriting(join(folder, out))) await pause(1);
    const first = performance.now();
    const { code, last } = await ended;
    if (code !== 0) throw new Error(`${scenario.name}: the undisturbed run ended with ${code}: ${last}`);
    const files = filesBelow(join(folder, out));
    return { folder, files, before_ms: first - from, writing_ms: performance.now() - first };
  }

  return { inputs, place, fill, undisturbed, remove: () => rmSync(root, { recursive: true, force: true }) };
}
