import { join } from "node:path";
import { filesBelow } from "./filesBelow.js";
import { start } from "./start.js";

/** A disk on which only a part of the outputs has room. */
export async function fullRound(scenario, { ground, random }) {
  const { args, out } = scenario;
  const whole = await ground.undisturbed({ ...scenario, name: `${scenario.name}, whole` });
  const folder = await ground.place(scenario, { full: true });
  const before = filesBelow(join(folder, out));
  const bytes = [...whole.files.values()].reduce((sum, { length }) => sum + length, 0);
  const room = Math.floor(random.uniform() * bytes);
  const { code, last, said } = await start(["index", "runs", "--out", out, ...args], folder, { room }).ended;
  const faults = [];
  if (code !== 2) faults.push(`room for ${room} of ${bytes} bytes, and it ended with ${code}`);
  if (!/^results[\w./-]*: No space is left on the disk\. /.test(last) || /^\s+at /m.test(said)) {
    faults.push(`it said: ${said}`);
  }
  const after = filesBelow(join(folder, out));
  for (const name of after.keys()) if (!before.has(name)) faults.push(`${name} is left`);
  for (const [name, old] of before) if (!after.get(name)?.equals(old)) faults.push(`${name} is changed`);
  return { faults };
}
