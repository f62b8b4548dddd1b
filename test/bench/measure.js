/** Rounds that are thrown away: the engine compiles what it sees often. */
const WARM_UP = 5;

/**
 * Times some stages in turns: every round runs each of them once, starting with another one each time, so that a busy
 * moment of the machine meets all of them.
 *
 * @param {Record<string, () => unknown>} stages What to run; what they return is looked at, so that none is left out.
 * @param {{ rounds: number, runs: number }} options `runs`: how many runs one call works off; times are per run.
 * @returns {Record<string, number[]>} ms per run, one value per round.
 */
export function measure(stages, { rounds, runs }) {
  const names = Object.keys(stages);
  const times = Object.fromEntries(names.map((name) => [name, []]));
  for (let round = -WARM_UP; round < rounds; round++) {
    for (let i = 0; i < names.length; i++) {
      const name = names[(i + round + WARM_UP) % names.length];
      const start = performance.now();
      const made = stages[name]();
      const took = performance.now() - start;
      if (made === undefined) throw new Error(`${name} made nothing`);
      if (round >= 0) times[name].push(took / runs);
    }
  }
  return times;
}
