import type { RunResult } from "../protocol/types.ts";
import type { Row } from "./gridOf.ts";

/** Runs as rows: the cell, the status, masses and flags; what else a run has stands in its own table. */
export function resultRows(results: readonly RunResult[]): Row[] {
  return results.map((result) => {
    const { file, mix, curing, curing_d, age_d, specimen, role, status } = result;
    const head = { file, mix, curing, curing_d, age_d, specimen, role, status };
    if (result.status === "failed") return { ...head, flags: result.error.message };
    const { initial_mass_mg, ignited_mass_mg, heating_rate_K_per_min, flags } = result;
    return { ...head, initial_mass_mg, ignited_mass_mg, heating_rate_K_per_min, flags };
  });
}
