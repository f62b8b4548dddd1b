import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { filesBelow } from "./filesBelow.js";
import { isWriting, start } from "./start.js";

/** A run comes so often while a folder is watched, ms. */
const EVERY = 60;
/** A slow disk waits so long before each write and each renaming, ms. */
const SLOW = 8;

/**
 * Runs the command in a scenario and sends it a signal at a random moment: half of the time any, half while it writes.
 *
 * @returns The folder, its outputs before and after, how the process ended and how long that took after the signal, and what is wrong
 * with the inputs.
 */
export async function disturb(scenario, signal, { ground, random }) {
  const { args, out, watch = false } = scenario;
  const whole = await ground.undisturbed({ ...scenario, name: `${scenario.name}, whole` });
  const folder = await ground.place(scenario);
  const before = filesBelow(join(folder, out));
  const slow = random.uniform() < 0.5;
  const atWriting = random.uniform() < 0.5;
  const writing_ms = whole.writing_ms + (slow ? 4 * SLOW * whole.files.size : 0);
  const filled_ms = watch ? EVERY * ground.inputs.size + 1000 : 0;
  const options = watch ? ["--watch", "--still", "0.1"] : [];
  const { child, ended } = start(
    ["index", "runs", "--out", out, ...args, ...options],
    folder,
    slow ? { slow_ms: SLOW } : {},
  );
  let outcome = null;
  const end = ended.then((it) => {
    outcome = it;
    return it;
  });
  const filling = watch ? ground.fill(folder, EVERY) : Promise.resolve();
  // The look that writes may be over between two looks of ours, and a watch waits for ever.
  let isOver = false;
  if (watch) filling.then(() => pause(3000)).then(() => (isOver = true));
  if (atWriting) {
    while (outcome === null && !isOver && !isWriting(join(folder, out))) await pause(1);
    await pause(random.uniform() * writing_ms);
  } else {
    await pause(random.uniform() * (whole.before_ms + writing_ms + filled_ms));
  }
  const sent = performance.now();
  if (outcome === null) child.kill(signal);
  const ending = await end;
  const took_ms = performance.now() - sent;
  const after = filesBelow(join(folder, out));
  await filling;
  const faults = [];
  for (const [name, bytes] of filesBelow(join(folder, "runs"))) {
    if (join("runs", name).startsWith(join(out, "/"))) continue;
    if (!ground.inputs.get(name)?.equals(bytes)) faults.push(`runs/${name} is not as it was`);
  }
  return { folder, whole, before, after, ending, took_ms, faults };
}
