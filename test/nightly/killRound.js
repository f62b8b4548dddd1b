import { readdirSync, utimesSync } from "node:fs";
import { join } from "node:path";
import { disturb } from "./disturb.js";
import { filesBelow } from "./filesBelow.js";
import { start } from "./start.js";
import { unsound } from "./unsound.js";

/**
 * Kills the command, looks at what it leaves, and runs it once more.
 *
 * @returns What is wrong, and where the kill fell.
 */
export async function killRound(scenario, context) {
  const { ground, random } = context;
  const { folder, whole, before, after, ending, faults } = await disturb(scenario, "SIGKILL", context);
  const { args, out, watch = false } = scenario;
  const litter = [...after.keys()].filter((name) => name.endsWith(".tmp"));
  let renamed = 0;
  for (const [name, bytes] of after) {
    if (litter.includes(name)) continue;
    const wrong = unsound(name, bytes, whole.files);
    if (wrong !== null) faults.push(`${name} ${wrong}`);
    const isOld = before.get(name)?.equals(bytes) ?? false;
    if (!isOld) renamed++;
    // A watched folder held fewer runs at the time.
    if (!watch && !isOld && !whole.files.get(name)?.equals(bytes)) faults.push(`${name} is neither old nor new`);
  }
  for (const name of before.keys()) if (!after.has(name)) faults.push(`${name} is lost`);

  if (watch) await ground.fill(folder);
  // Nothing that is left in the folder of the runs is taken for a run, whatever the next output folder is.
  if (out.startsWith("runs/") && random.uniform() < 0.5) {
    const other = await start(["index", "runs", "--out", "other", "--no-figures"], folder).ended;
    const campaign = filesBelow(join(folder, "other")).get("campaign.json");
    if (other.code !== 0 || !campaign?.equals(whole.files.get("campaign.json"))) {
      faults.push(`what was left is read as input: ${other.said}`);
    }
  }
  const isAged = random.uniform() < 0.5;
  if (isAged) for (const name of litter) utimesSync(join(folder, out, name), 0, 0);
  const again = await start(["index", "runs", "--out", out, ...args], folder).ended;
  if (again.code !== 0) faults.push(`the next run ended with ${again.code}: ${again.last}`);
  const made = filesBelow(join(folder, out));
  for (const [name, bytes] of whole.files) {
    if (!made.get(name)?.equals(bytes)) faults.push(`${name} of the next run is not that of an undisturbed one`);
  }
  const kept = [...made.keys()].filter((name) => name.endsWith(".tmp"));
  if (isAged && kept.length > 0) faults.push(`old temporary files stay: ${kept.join(", ")}`);
  if (kept.some((name) => !litter.includes(name))) faults.push("the next run leaves temporary files");
  const odd = readdirSync(folder).filter((name) => !["runs", "results", "other"].includes(name));
  if (odd.length > 0) faults.push(`files elsewhere: ${odd.join(", ")}`);
  const killed = ending.signal === "SIGKILL";
  return { faults, killed, writing: killed && litter.length > 0, renaming: litter.length > 0 && renamed > 0 };
}
