import { disturb } from "./disturb.js";
import { strangers, unsound } from "./unsound.js";

/** Stops the command as a user does (`SIGINT`) or a system that goes down (`SIGTERM`), and holds what it says against what it leaves. */
export async function stopRound(scenario, signal, context) {
  const { whole, before, after, ending, took_ms, faults } = await disturb(scenario, signal, context);
  const { code, last, said } = ending;
  const { watch = false } = scenario;
  const isSame = (files) =>
    after.size === files.size && [...files].every(([name, bytes]) => after.get(name)?.equals(bytes));
  if (/^\s+at /m.test(said)) faults.push(`a stack trace: ${said}`);
  const isWritten = code === 0 || (ending.signal !== null && last.startsWith("Wrote "));
  if (ending.signal !== null && !isWritten) {
    // Before a command listens nothing is there to be tidied up.
    if (!isSame(before)) faults.push(`${ending.signal} ended it and it left something; it said: ${said}`);
  } else if (!watch && code === 130) {
    if (!/^Stopped (?:before|after) /.test(last)) faults.push(`its last line is: ${last}`);
    if (!isSame(before)) faults.push("it says that nothing was written");
  } else if (!watch && isWritten) {
    // Done, perhaps ended by the signal while the engine was leaving.
    if (!/^Wrote /.test(last)) faults.push(`its last line is: ${last}`);
    for (const [name, bytes] of whole.files)
      if (!after.get(name)?.equals(bytes)) faults.push(`${name} is not complete`);
  } else if (watch && code === 0) {
    const runs = Number(/^Stopped with (\d+) runs indexed/.exec(last)?.[1] ?? Number.NaN);
    const campaign = after.get("campaign.json");
    const has = campaign === undefined ? 0 : JSON.parse(campaign.toString("utf8")).runs.length;
    if (runs !== has) faults.push(`${has} runs are there, and its last line is: ${last}`);
    for (const [name, bytes] of after) {
      const wrong = unsound(name, bytes, whole.files);
      if (wrong !== null) faults.push(`${name} ${wrong}`);
    }
    const odd = after.size === 0 ? [] : strangers(after);
    if (odd.length > 0) faults.push(`not of one campaign: ${odd.join(", ")}`);
  } else faults.push(`it ended with ${code}: ${last}`);
  return { faults, took_ms, stopped: code !== 0 || watch };
}
