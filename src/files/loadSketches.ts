import { lstatSync, readFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import type { Sketch } from "../curve/sketch.ts";

/**
 * TG and DTG for the eye from the curves.ndjson beside a campaign.json; none where it is missing or is no such file: figures
 * of curves are then left out, nothing else needs them.
 */
export function loadSketches(campaign: string, { cwd }: { cwd: string }): (Sketch & { file: string })[] {
  try {
    const path = join(dirname(resolve(cwd, campaign)), "curves.ndjson");
    // A pipe would never end, and a link may lead anywhere.
    if (!lstatSync(path).isFile()) return [];
    const text = readFileSync(path, "utf8");
    const sketches: unknown[] = text.split("\n").flatMap((line) => (line === "" ? [] : [JSON.parse(line)]));
    return sketches.filter(isSketch);
  } catch {
    return [];
  }
}

function isSketch(value: unknown): value is Sketch & { file: string } {
  if (typeof value !== "object" || value === null) return false;
  const { file, temperature_C, mass_pct, dtg_pct_per_C } = value as Record<string, unknown>;
  const lists = [temperature_C, mass_pct, dtg_pct_per_C];
  return (
    typeof file === "string" &&
    lists.every((list) => Array.isArray(list) && list.every(Number.isFinite) && list.length === (lists[0] as []).length)
  );
}
