// npm run nightly:faults [-- --kills N --stops N --full N --pairs N --seed N --figures 0|1]
// Kills, stops, full disks and pairs of writers at random moments: no half file under a final name, no lost or altered input,
// and a next run that finishes as if nothing had been. The last line counts them; the exit code is 1 if anything was wrong.
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
    kills: { type: "string", default: "240" },
    stops: { type: "string", default: "60" },
    full: { type: "string", default: "30" },
    pairs: { type: "string", default: "30" },
    seed: { type: "string", default: "1" },
    figures: { type: "string", default: "1" },
  },
});
const { kills, stops, full, pairs, seed, figures } = Object.fromEntries(
  Object.entries(values).map(([name, value]) => [name, Number(value)]),
);
const chosen = scenarios.filter(({ args }) => figures > 0 || args.includes("--no-figures"));
const counts = { killed: 0, writing: 0, renaming: 0, stopped: 0, mixed: 0, longest_ms: 0, faults: 0 };
const place = ground(seed);

/** One round; what is wrong is printed at once. */
async function round(what, scenario, work) {
  const random = seededRandom(`${seed}/${what}`);
  const { faults, ...found } = await work({ ground: place, random });
  for (const fault of faults) console.log(`FAULT  ${what}, ${scenario}: ${fault}`);
  counts.faults += faults.length;
  return found;
}

try {
  for (let i = 0; i < kills; i++) {
    const scenario = chosen[i % chosen.length];
    const found = await round(`kill ${i}`, scenario.name, (context) => killRound(scenario, context));
    for (const sign of ["killed", "writing", "renaming"]) if (found[sign]) counts[sign]++;
  }
  for (let i = 0; i < stops; i++) {
    const scenario = chosen[i % chosen.length];
    const signal = i % 2 === 0 ? "SIGINT" : "SIGTERM";
    const found = await round(`stop ${i}`, scenario.name, (context) => stopRound(scenario, signal, context));
    if (found.stopped) counts.stopped++;
    counts.longest_ms = Math.max(counts.longest_ms, found.took_ms);
  }
  const plain = chosen.filter(({ out, watch }) => out === "results" && !watch);
  for (let i = 0; i < full; i++) {
    const scenario = plain[i % plain.length];
    await round(`full disk ${i}`, scenario.name, (context) => fullRound(scenario, context));
  }
  for (let i = 0; i < pairs; i++) {
    const { mixed } = await round(`pair ${i}`, "two processes", pairRound);
    if (mixed) counts.mixed++;
  }
} finally {
  place.remove();
}

const parts = [
  `${kills} kills (${counts.killed} before the end, ${counts.writing} while files were written, ${counts.renaming} between two renamings)`,
  `${stops} signals to stop (${counts.stopped} heard before the end, the slowest obeyed in ${(counts.longest_ms / 1000).toFixed(2)} s)`,
  `${full} full disks`,
  `${pairs} pairs of writers (${counts.mixed} mixed and told)`,
];
console.log(`faults, seed ${seed}: ${parts.join(", ")}: ${counts.faults} faults`);
process.exitCode = counts.faults > 0 ? 1 : 0;
