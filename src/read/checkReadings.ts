import { type Flag, flag } from "../flags.ts";
import type { Run } from "./types.ts";

/** A spike stands this many times further off its neighbours than readings do on average: about 8 σ of even noise. */
const spikeRatio = 14;
/** … and at least this share of the mass range, or so many °C, off. */
const spikeShare = 1e-3;
const spikeWarmth = 2;
/** A fall of the temperature below this is the noise of a thermocouple; a deeper one than `cooling` is no wobble, °C. */
const wobble = 0.5;
const cooling = 5;
/** Repetitions that even noise brings about less often than this are no chance. */
const chance = 1e-6;
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
  const sentences = [
    ofMass.rows.length === 0 ? "" : tell("mass", ofMass.rows, lines),
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

/** How far a value stands outside the range of two others. */
function outside(value: number, a: number, b: number): number {
  if (a > b) return value > a ? value - a : value < b ? b - value : 0;
  return value > b ? value - b : value < a ? a - value : 0;
}

/** How far reading i stands off its neighbours, or, with one companion, off the next but one. */
function offset(values: Float64Array, i: number): number {
  const near = outside(values[i]!, values[i - 1]!, values[i + 1]!);
  const wide = outside(values[i]!, values[i - 2]!, values[i + 2]!);
  return Math.max(near, wide);
}

/** Single readings, or pairs, that stand off their surroundings; and whether noise shows at all. */
function findSpikes(
  values: Float64Array,
  { resolution, share, floor }: { resolution: number; share: number; floor: number },
): { rows: number[]; scatters: boolean } {
  const end = values.length - 2;
  if (end < 8) return { rows: [], scatters: false };
  const offsets = new Float64Array(values.length);
  let [sum, far, scattered] = [0, 0, 0];
  for (let i = 2; i < end; i++) {
    const off = offset(values, i);
    offsets[i] = off;
    sum += off;
    if (off > far) far = off;
    if (off > 0) scattered++;
  }
  const scatters = scattered > 0.3 * end;
  const least = Math.max(3 * resolution, floor);
  let limit = Math.max((spikeRatio * sum) / end, least);
  if (far <= least) return { rows: [], scatters };
  // One huge spike hides the others in the mean: leave out what stands off, until nothing more does.
  for (let round = 0; round < 8; round++) {
    const [kept, count] = meanBelow(offsets, limit);
    const next = Math.max((spikeRatio * kept) / Math.max(1, count), least);
    if (next >= limit) break;
    limit = next;
  }
  const rows: number[] = [];
  for (let i = 2; i < end; i++) if (offsets[i]! > limit && standsAlone(values, i, offsets[i]!)) rows.push(i);
  if (share === 0 || rows.length === 0) return { rows, scatters };
  const isSpike = new Set(rows);
  const rest = values.filter((_, i) => !isSpike.has(i));
  const range = rest.reduce((a, b) => Math.max(a, b)) - rest.reduce((a, b) => Math.min(a, b));
  return { rows: rows.filter((i) => offsets[i]! > share * range), scatters };
}

function meanBelow(offsets: Float64Array, limit: number): [number, number] {
  let [sum, count] = [0, 0];
  for (let i = 2; i < offsets.length - 2; i++) {
    if (offsets[i]! > limit) continue;
    sum += offsets[i]!;
    count++;
  }
  return [sum, count];
}

/** The top of a hump is no spike: there the readings beside it differ among themselves as much as it stands out. */
function standsAlone(values: Float64Array, i: number, off: number): boolean {
  const before = values[i - 1]! - values[i - 2]!;
  const after = values[i + 2]! - values[i + 1]!;
  const alone = outside(values[i]!, values[i - 1]!, values[i + 1]!) > 2 * Math.max(Math.abs(before), Math.abs(after));
  if (alone) return true;
  // With one companion at its side: the readings beyond both are calm.
  for (const side of [1, -1]) {
    const [near, far, further] = [values[i - side], values[i + 2 * side], values[i + 3 * side]];
    const beyond = values[i - 2 * side];
    if (near === undefined || far === undefined || further === undefined || beyond === undefined) continue;
    const calm = Math.max(Math.abs(near - beyond), Math.abs(further - far), Math.abs(near - far));
    if (outside(values[i]!, near, far) > 2 * calm && off > 2 * calm) return true;
  }
  return false;
}

/** The longest stretch of equal masses, where the noise of the balance makes it impossible; null otherwise. */
function findStuck(
  mass: Float64Array,
  scatters: boolean,
): { first: number; count: number; extreme: "highest mass" | "lowest mass" | null } | null {
  if (!scatters) return null;
  let [first, count, start, equal] = [0, 1, 0, 0];
  for (let i = 1; i <= mass.length; i++) {
    if (i < mass.length && mass[i] === mass[i - 1]) {
      equal++;
      continue;
    }
    if (i - start > count) [first, count] = [start, i - start];
    start = i;
  }
  const elsewhere = (equal - count + 1) / Math.max(1, mass.length - count);
  // Chance that so long a stretch begins somewhere in the run.
  if (count < 8 || mass.length * elsewhere ** (count - 1) > chance) return null;
  const value = mass[first]!;
  const highest = mass.every((other) => other <= value);
  const lowest = mass.every((other) => other >= value);
  return { first, count, extreme: highest ? "highest mass" : lowest ? "lowest mass" : null };
}

function findWobble({ temperature, lines, temperatureResolution }: Run): Flag[] {
  const least = Math.max(wobble, 3 * temperatureResolution);
  let [highest, depth, since] = [temperature[0]!, 0, 0];
  let [times, deepest, first] = [0, 0, 0];
  for (let i = 1; i < temperature.length; i++) {
    const now = temperature[i]!;
    if (now >= highest) {
      if (depth > least) {
        if (times++ === 0) first = lines[since]!;
        if (depth > deepest) deepest = depth;
      }
      highest = now;
      depth = 0;
    } else if (highest - now > cooling) {
      highest = now;
      depth = 0;
    } else if (highest - now > depth) {
      if (depth <= least) since = i;
      depth = highest - now;
    }
  }
  if (times === 0) return [];
  const often = times === 1 ? "once" : `${times} times`;
  const sentence = `The temperature falls back ${often} by up to ${Number(deepest.toPrecision(2))} °C while heating, first in line ${first}.`;
  return [flag("temperature-wobbles", sentence)];
}
