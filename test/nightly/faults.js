// npm run nightly:faults [-- --kills N --stops N --full N --pairs N --seed N --figures 0|1 --at-once N]
// Kills, stops, full disks and pairs of writers at random moments: no half file under a final name, no lost or altered input,
// and a next run that finishes as if nothing had been. The last line counts them; the exit code is 1 if anything was wrong. Ctrl+C ends
// it after the rounds at hand.
import { parseArgs } from "node:util";
import { seededRandom } from "../../dist/numerics/seededRandom.js";
import { fullRound } from "./fullRound.js";
import { ground } from "./ground.js";
import { killRound } from "./killRound.js";
import { pairRound } from "./pairRound.js";
import { scenarios } from "./scenarios.js";
import { stopRound } from "./stopRound.js";

const { values } = parseArgs({
  options: {
    kills: { type: "string", default: "280" },
    stops: { type: "string", default: "60" },
    full: { type: "string", default: "30" },
    pairs: { type: "string", default: "30" },
    seed: { type: "string", default: "1" },
    figures: { type: "string", default: "1" },
    "at-once": { type: "string", default: "2" },
  },
});
const {
  kills,
  stops,
  full,
  pairs,
  seed,
  figures,
  "at-once": atOnce,
} = Object.fromEntries(Object.entries(values).map(([name, value]) => [name, Number(value)]));
const chosen = scenarios.filter(({ args }) => figures > 0 || args.includes("--no-figures"));
const plain = chosen.filter(({ out, watch }) => out === "results" && !watch);
const done = { kill: 0, stop: 0, full: 0, pair: 0 };
const counts = { killed: 0, writing: 0, renaming: 0, stopped: 0, mixed: 0, faults: 0 };
let longest_ms = 0;

const pick = (list, i) => list[i % list.length];
const rounds = [
  ...Array.from({ length: kills }, (_, i) => ["kill", i, pick(chosen, i)]),
  ...Array.from({ length: stops }, (_, i) => ["stop", i, pick(chosen, i)]),
  ...Array.from({ length: full }, (_, i) => ["full", i, pick(plain, i)]),
  ...Array.from({ length: pairs }, (_, i) => ["pair", i, { name: "two processes" }]),
];
const work = {
  kill: (_, scenario, context) => killRound(scenario, context),
  stop: (i, scenario, context) => stopRound(scenario, i % 2 === 0 ? "SIGINT" : "SIGTERM", context),
  full: (_, scenario, context) => fullRound(scenario, context),
  pair: (_i, _scenario, context) => pairRound(context),
};

const place = ground(seed);
let isEnding = false;
process.once("SIGINT", () => {
  isEnding = true;
});

/** One round after another; what is wrong is printed at once. */
async function lane() {
  for (let next = rounds.shift(); next !== undefined && !isEnding; next = rounds.shift()) {
    const [what, i, scenario] = next;
    const random = seededRandom(`${seed}/${what} ${i}`);
    const { faults, took_ms = 0, ...signs } = await work[what](i, scenario, { ground: place, random });
    for (const fault of faults) console.log(`FAULT  ${what} ${i}, ${scenario.name}: ${fault}`);
    done[what]++;
    counts.faults += faults.length;
    longest_ms = Math.max(longest_ms, took_ms);
    for (const [sign, isSo] of Object.entries(signs)) if (isSo) counts[sign]++;
  }
}

try {
  await Promise.all(Array.from({ length: atOnce }, lane));
} finally {
  place.remove();
}

const parts = [
  `${done.kill} kills (${counts.killed} before the end, ${counts.writing} while files were written, ${counts.renaming} between two renamings)`,
  `${done.stop} signals to stop (${counts.stopped} before the end, the slowest obeyed in ${(longest_ms / 1000).toFixed(2)} s)`,
  `${done.full} full disks`,
  `${done.pair} pairs of writers (${counts.mixed} mixed and told)`,
];
console.log(`faults, seed ${seed}: ${parts.join(", ")}: ${counts.faults} faults`);
process.exitCode = counts.faults > 0 ? 1 : 0;
