import { type Flag, flag } from "../flags.ts";
import { endSpikes } from "./endSpikes.ts";
import { findSpikes } from "./findSpikes.ts";
import { findStuck } from "./findStuck.ts";
import { findWobble } from "./findWobble.ts";
import type { Run } from "./types.ts";

/** A spike stands off by at least this share of the mass range, or so many °C. */
const spikeShare = 1e-3;
const spikeWarmth = 2;
/** How many line numbers are named. */
const named = 5;

/**
 * What is odd about the readings: spikes of balance and thermocouple, a balance that stands still, a temperature that falls back
 * while heating. Limits are common practice, without a source; nothing is changed.
 */
export function checkReadings(run: Run): Flag[] {
  const { temperature, mass, massUnit, massResolution, temperatureResolution, lines } = run;
  const flags: Flag[] = [];
  const ofMass = findSpikes(mass, { resolution: massResolution, share: spikeShare, floor: 0 });
  const ofWarmth = findSpikes(temperature, { resolution: temperatureResolution, share: 0, floor: spikeWarmth });
  const odd = [...new Set([...endSpikes(mass), ...ofMass.rows])].sort((a, b) => a - b);
  const sentences = [
    odd.length === 0 ? "" : tell("mass", odd, lines),
    ofWarmth.rows.length === 0 ? "" : tell("temperature", ofWarmth.rows, lines),
  ].filter((sentence) => sentence !== "");
  if (sentences.length > 0) flags.push(flag("spikes", sentences.join(" ")));
  const stuck = findStuck(mass, ofMass.scatters);
  if (stuck !== null) {
    const { first, count, extreme } = stuck;
    const where = `lines ${lines[first]} to ${lines[first + count - 1]}`;
    const what = extreme === null ? "" : `, the ${extreme} of the run: the balance may have reached its limit`;
    flags.push(flag("balance-stuck", `${count} readings in a row are ${mass[first]} ${massUnit} (${where})${what}.`));
  }
  flags.push(...findWobble(run));
  return flags;
}

function tell(what: string, rows: number[], lines: Uint32Array): string {
  const list = rows.slice(0, named).map((row) => lines[row]);
  const more = rows.length > named ? ", …" : "";
  const few = rows.length === 1 ? "1 reading stands" : `${rows.length} readings stand`;
  return `${few} far off the neighbours in ${what}: line${rows.length === 1 ? "" : "s"} ${list.join(", ")}${more}.`;
}
