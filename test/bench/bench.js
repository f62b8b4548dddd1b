// npm run bench [-- --rows N --rounds N --seed N --json FILE --long MB --folder RUNS,RUNS,…]
// npm run bench -- --compare BEFORE.json AFTER.json
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { dirname } from "node:path";
import { parseArgs } from "node:util";
import { toCurve } from "../../dist/curve/toCurve.js";
import { losses } from "../../dist/losses/losses.js";
import { indexBytes } from "../../dist/protocol/indexBytes.js";
import { indexCurve } from "../../dist/protocol/indexCurve.js";
import { newJob } from "../../dist/protocol/newJob.js";
import { protocols } from "../../dist/protocol/protocols.js";
import { settle } from "../../dist/protocol/settle.js";
import { readRun } from "../../dist/read/readRun.js";
import { campaignTexts } from "./campaignTexts.js";
import { compareResults } from "./compareResults.js";
import { folder } from "./folder.js";
import { measure } from "./measure.js";
import { reading } from "./reading.js";
import { redraw } from "./redraw.js";
import { scan } from "./scan.js";
import { spread } from "./spread.js";
import { startUp } from "./startUp.js";
import { yardstick } from "./yardstick.js";

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    rows: { type: "string", default: "5000" },
    rounds: { type: "string", default: "40" },
    long: { type: "string", default: "20" },
    folder: { type: "string", default: "500,100,4000" },
    seed: { type: "string", default: "1" },
    json: { type: "string" },
    compare: { type: "boolean", default: false },
  },
});

if (values.compare) {
  if (positionals.length !== 2) throw new Error("Name two results: --compare BEFORE.json AFTER.json");
  const [before, after] = positionals.map((name) => ({ name, result: JSON.parse(readFileSync(name, "utf8")) }));
  console.log(compareResults(before, after));
} else {
  bench({
    rows: Number(values.rows),
    rounds: Number(values.rounds),
    seed: Number(values.seed),
    json: values.json,
    long: Number(values.long),
    sizes: values.folder
      .split(",")
      .map(Number)
      .filter((runs) => runs > 0),
  });
}

function bench({ rows, rounds, seed, json, long, sizes }) {
  const protocol = settle(protocols.csa);
  // What someone who moves a window asks for.
  const others = settle({
    ...protocols.csa,
    windows: protocols.csa.windows.map((window) => ({ ...window, to_C: window.to_C + 5 })),
  });
  const texts = campaignTexts({ runs: 8, rows, seed });
  const readings = texts.map((text) => readRun(text));
  const curves = readings.map((run) => toCurve(run, protocol));
  const stages = measure(
    {
      yardstick: () => texts.map(yardstick),
      scan: () => texts.map(scan),
      read: () => texts.map((text) => readRun(text)),
      curve: () => readings.map((run) => toCurve(run, protocol)),
      losses: () => curves.map((curve) => losses(curve, protocol)),
      "again, losses": () => curves.map((curve) => losses(curve, others)),
      "again, with budgets": () =>
        curves.map((curve) => indexCurve(curve, losses(curve, others), { job: newJob("a.txt"), protocol: others })),
      "whole run": () => texts.map((text) => indexBytes(text, newJob("a.txt"), { protocol })),
    },
    { rounds, runs: texts.length },
  );
  const megabytes = texts.reduce((sum, text) => sum + text.length, 0) / texts.length / 1e6;
  const result = {
    schema: "tg-hydrates/bench/1",
    node: process.version,
    processor: cpus()[0]?.model ?? "unknown",
    rows,
    seed,
    runs: texts.length,
    megabytes,
    stages,
  };
  print(result);
  if (long > 0) console.log(`\n${reading({ megabytes: long, rounds: Math.min(rounds, 7), seed })}`);
  const redrawn = redraw({ rounds: Math.min(rounds, 7), rows, seed });
  console.log(`\n${redrawn.lines.join("\n")}`);
  const starting = startUp({ rounds: Math.min(rounds, 11) });
  console.log(`\n${starting.lines.join("\n")}`);
  Object.assign(result, { redraw: redrawn.result, startUp: starting.result });
  if (sizes.length > 0) {
    const whole = folder({ sizes, rows, rounds: Math.min(rounds, 5), seed });
    console.log(`\n${whole.lines.join("\n")}`);
    Object.assign(result, { folder: whole.result });
  }
  if (json !== undefined) {
    mkdirSync(dirname(json), { recursive: true });
    writeFileSync(json, `${JSON.stringify(result)}\n`);
  }
}

function print({ node, processor, rows, seed, megabytes, stages }) {
  console.log(`${rows} rows (${megabytes.toFixed(2)} MB a run), seed ${seed}, Node ${node.slice(1)}, ${processor}`);
  console.log(
    `${"per run".padEnd(22)}${["median ms", "25–75 %", "MB/s", "/yardstick", "/scan"].map((s) => s.padStart(16)).join("")}`,
  );
  for (const [name, samples] of Object.entries(stages)) {
    const { median, low, high } = spread(samples);
    // Round by round, so that a busy moment touches both sides of the ratio.
    const ratio = spread(samples.map((ms, round) => ms / stages.yardstick[round]));
    const reads = ["yardstick", "scan", "read", "whole run"].includes(name);
    const cells = [
      median.toFixed(3),
      `${low.toFixed(3)}–${high.toFixed(3)}`,
      reads ? (megabytes / (median / 1000)).toFixed(0) : "",
      ratio.median.toFixed(2),
      spread(samples.map((ms, round) => ms / stages.scan[round])).median.toFixed(2),
    ];
    console.log(name.padEnd(22) + cells.map((cell) => cell.padStart(16)).join(""));
  }
}
