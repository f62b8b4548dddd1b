import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { filesBelow } from "./filesBelow.js";
import { start } from "./start.js";

/** Two processes, of two protocols, write one folder at about the same time. */
export async function pairRound({ ground, random }) {
  const ways = [
    ["--protocol", "csa", "--no-figures", "--jobs", "1"],
    ["--protocol", "csa-amounts", "--no-figures", "--jobs", "1"],
  ];
  const whole = [];
  for (const args of ways) whole.push(await ground.undisturbed({ name: args.join(" "), args, out: "results" }));
  const folder = await ground.place({ out: "results" });
  const slow = () => ({ slow_ms: 2 + 10 * random.uniform() });
  const running = [];
  for (const args of ways) {
    running.push(start(["index", "runs", "--out", "results", ...args], folder, slow()));
    await pause(random.uniform() * 100);
  }
  const endings = await Promise.all(running.map(({ ended }) => ended));
  const faults = [];
  const owners = [0, 1].map(() => 0);
  for (const [name, bytes] of filesBelow(join(folder, "results"))) {
    const same = whole.map(({ files }) => files.get(name)?.equals(bytes) ?? false);
    if (!same.includes(true)) faults.push(`${name} is of neither process`);
    if (same[0] !== same[1]) owners[same.indexOf(true)]++;
  }
  const isMixed = owners.every((count) => count > 0);
  const told = endings.filter(({ code, last }) => code === 2 && last.includes("Another program wrote"));
  for (const { code, said } of endings) {
    if (code !== 0 && !told.some((one) => one.said === said)) faults.push(`one ended with ${code}: ${said}`);
  }
  if (isMixed && told.length === 0) faults.push(`the files are of both (${owners.join(" and ")}), and nobody was told`);
  return { faults, mixed: isMixed };
}
