import { normalQuantile } from "./normalQuantile.ts";

/** A stream of pseudo-random numbers: the same seed gives the same stream on every machine. */
export interface SeededRandom {
  /** The next number of the uniform distribution, strictly between 0 and 1, in steps of 2⁻³². */
  uniform(): number;
  /** The next number of the standard normal distribution (mean 0, standard deviation 1). */
  normal(): number;
}

/**
 * Starts a stream of pseudo-random numbers from a seed. Simulations and tests use nothing else, so that every number
 * they give can be had again. A stream for a part is started from a text: `seededRandom("7/run a.txt/noise")`.
 *
 * The generator is sfc32 (C. Doty-Humphrey, PractRand, small fast counting generator of 32 bits): four words of
 * state, a counter that guarantees a period of at least 2³². It is not for secrets.
 *
 * @param seed Any number or text; `1` and `"1"` are the same seed.
 * @throws {RangeError} A number that is not finite.
 * Example: `const random = seededRandom(7); const reading = 20.5 + 0.001 * random.normal();`
 */
export function seededRandom(seed: number | string): SeededRandom {
  if (typeof seed === "number" && !Number.isFinite(seed)) {
    throw new RangeError(`Give a finite number or a text as seed, not ${seed}`);
  }
  const text = String(seed);
  let a = hashOf(text, 0);
  let b = hashOf(text, 1);
  let c = hashOf(text, 2);
  let counter = 1;

  const next = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    return sum >>> 0;
  };
  // Twelve rounds mix the state, as the generator's author does after seeding.
  for (let round = 0; round < 12; round++) next();

  const uniform = () => (next() + 0.5) / 4294967296;
  return { uniform, normal: () => normalQuantile(uniform()) };
}

/** A word of 32 bits from a text: FNV-1a over its UTF-16 units, then the finaliser of MurmurHash3, both public domain. */
function hashOf(text: string, variant: number): number {
  let hash = 0x811c9dc5 ^ variant;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return hash ^ (hash >>> 16);
}
