/** A spike stands this many times further off its neighbours than readings do on average: about 8 σ of even noise. */
const spikeRatio = 14;

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
export function findSpikes(
  values: Float64Array,
  { resolution, share, floor }: { resolution: number; share: number; floor: number },
): { rows: number[]; scatters: boolean } {
  const end = values.length - 2;
  if (end < 8) return { rows: [], scatters: false };
  // What never falls stands between its neighbours everywhere.
  if (neverFalls(values)) return { rows: [], scatters: false };
  const { sum, far } = sumOfOffsets(values, end);
  const scatters = scatter(values, end);
  const least = Math.max(3 * resolution, floor);
  let limit = Math.max((spikeRatio * sum) / end, least);
  // Nearly every run ends here.
  if (far <= limit) return { rows: [], scatters };
  const offsets = values.map((_, i) => (i >= 2 && i < end ? offset(values, i) : 0));
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

/** Sum and largest of all offsets. A function of its own: within a longer one the engine compiles the loop anew at every call. */
function sumOfOffsets(values: Float64Array, end: number): { sum: number; far: number } {
  // As `offset` says, without a branch: the distance of v from the range of a and b is ½(|v − a| + |v − b| − |a − b|), the
  // larger of x and y ½(x + y + |x − y|). Noise goes up and down by chance, and branches that nobody can foretell cost more
  // than all the rest.
  let sum = 0;
  let far = 0;
  for (let i = 2; i < end; i++) {
    const v = values[i]!;
    const a = values[i - 2]!;
    const b = values[i - 1]!;
    const c = values[i + 1]!;
    const d = values[i + 2]!;
    const near = Math.abs(v - b) + Math.abs(v - c) - Math.abs(b - c);
    const wide = Math.abs(v - a) + Math.abs(v - d) - Math.abs(a - d);
    const off = 0.25 * (near + wide + Math.abs(near - wide));
    sum += off;
    if (off > far) far = off;
  }
  return { sum, far };
}

/** Whether many readings stand off their neighbours; so many are looked at that chance plays no part. */
function scatter(values: Float64Array, end: number): boolean {
  const stride = Math.max(1, Math.floor(end / 1000));
  let [looked, scattered] = [0, 0];
  for (let i = 2; i < end; i += stride) {
    looked++;
    if (offset(values, i) > 0) scattered++;
  }
  return scattered > 0.3 * looked;
}

function neverFalls(values: Float64Array): boolean {
  for (let i = 1; i < values.length; i++) if (values[i]! < values[i - 1]!) return false;
  return true;
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
