/** Repetitions that even noise brings about less often than this are no chance. */
const chance = 1e-6;
/** Shorter stretches happen. */
const LEAST = 8;

/** The longest stretch of equal masses, where the noise of the balance makes it impossible; null otherwise. */
export function findStuck(
  mass: Float64Array,
  scatters: boolean,
): { first: number; count: number; extreme: "highest mass" | "lowest mass" | null } | null {
  if (!scatters || !repeats(mass)) return null;
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
  if (count < LEAST || mass.length * elsewhere ** (count - 1) > chance) return null;
  const value = mass[first]!;
  const highest = mass.every((other) => other <= value);
  const lowest = mass.every((other) => other >= value);
  return { first, count, extreme: highest ? "highest mass" : lowest ? "lowest mass" : null };
}

/** Whether any stretch of equal masses can be long enough: it would cover every fourth reading and the four from there on. */
function repeats(mass: Float64Array): boolean {
  for (let i = 0; i + 4 < mass.length; i += 4) {
    if (mass[i] === mass[i + 4] && mass[i] === mass[i + 2]) return true;
  }
  return false;
}
