import { test } from "vitest";
import { runCoverage } from "./runCoverage.ts";
const draws = Number(process.env.DRAWS ?? 100);
test("coverage", { timeout: 600_000 }, () => {
  for (const s of [
    { name: "noise only", draws, temperature_u_C: 0, buoyancy_u_mg: 0, noise_ug: 2, noise_correlation: 0 },
    { name: "noise .5", draws, temperature_u_C: 0, buoyancy_u_mg: 0, noise_ug: 2, noise_correlation: 0.5 },
    { name: "u_T 1", draws, temperature_u_C: 1, buoyancy_u_mg: 0.08, noise_ug: 2, noise_correlation: 0 },
    { name: "u_T 3", draws, temperature_u_C: 3, buoyancy_u_mg: 0.08, noise_ug: 2, noise_correlation: 0 },
    { name: "u_T 3 noise 6 r.4", draws, temperature_u_C: 3, buoyancy_u_mg: 0.08, noise_ug: 6, noise_correlation: 0.4 },
  ]) console.table(runCoverage(s, "1").map(({situation, ...r}) => ({...r, truth: r.truth.toFixed(3), bias: r.bias.toFixed(4), coverage: r.coverage.toFixed(1), sd: r.sd.toFixed(4), half_width: r.half_width.toFixed(4)})));
});
