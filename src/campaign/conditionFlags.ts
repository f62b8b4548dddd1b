import { type Flag, flag } from "../flags.ts";
import type { RunDone, RunResult } from "../protocol/types.ts";
import { someNames } from "./someNames.ts";

/**
 * Largest over smallest heating rate of one campaign. Common practice, no source. By Kissinger's relation (Anal Chem 29:1702, 1957)
 * a peak near 400 K with about 90 kJ/mol moves by R·T²/E ≈ 15 K per unit of ln β: 10 % move it by 1.4 K, as much as an
 * ordinary temperature calibration leaves open.
 */
const HEATING_RATE_RATIO = 1.1;

/** Largest over smallest initial mass of one campaign. Common practice, no source. */
const INITIAL_MASS_RATIO = 1.5;

/**
 * The flags `conditions-differ` of a campaign: heating rate, initial mass, gas and crucible of its specimens, where they are
 * known, should be alike.
 */
export function conditionFlags(runs: readonly RunResult[]): Flag[] {
  const specimens = runs.filter((run): run is RunDone => run.status !== "failed" && run.role === "specimen");
  return [
    ...spread(specimens, "heating_rate_K_per_min", { what: "Heating rates", unit: "K/min", most: HEATING_RATE_RATIO }),
    ...spread(specimens, "initial_mass_mg", { what: "Initial masses", unit: "mg", most: INITIAL_MASS_RATIO }),
    ...names(specimens, "gas", "gases"),
    ...names(specimens, "crucible", "crucibles"),
  ];
}

function spread(
  runs: readonly RunDone[],
  key: "heating_rate_K_per_min" | "initial_mass_mg",
  limits: { what: string; unit: string; most: number },
): Flag[] {
  const known = runs.flatMap((run) => (run[key] === null ? [] : [{ file: run.file, value: run[key] }]));
  const [first] = known;
  if (first === undefined) return [];
  const low = known.reduce((least, one) => (one.value < least.value ? one : least), first);
  const high = known.reduce((most, one) => (one.value > most.value ? one : most), first);
  if (!(high.value > limits.most * low.value)) return [];
  const range = `${low.value.toPrecision(3)} (${low.file}) to ${high.value.toPrecision(3)} ${limits.unit} (${high.file})`;
  const allowed = `the largest is more than ${limits.most} times the smallest`;
  return [flag("conditions-differ", `${limits.what} go from ${range}: ${allowed}.`)];
}

function names(runs: readonly RunDone[], key: "gas" | "crucible", what: string): Flag[] {
  const counts = new Map<string, { name: string; count: number }>();
  for (const run of runs) {
    const name = run[key];
    if (name === null) continue;
    const folded = name.toLowerCase().replaceAll(/\s+/g, " ").trim();
    counts.set(folded, { name: counts.get(folded)?.name ?? name, count: (counts.get(folded)?.count ?? 0) + 1 });
  }
  if (counts.size < 2) return [];
  const shown = [...counts.values()].map(({ name, count }) => `${name} (${count} run${count === 1 ? "" : "s"})`);
  return [flag("conditions-differ", `The run sheet names ${counts.size} ${what}: ${someNames(shown)}.`)];
}
