// The tests that judge mutants of the folder MUTATED: its own, and those of what stands directly on it. A mutant costs a run
// of every test that reaches it, so the slow ones that draw by the hundred are left out.
import { defineConfig } from "vitest/config";

const judges: Record<string, string[]> = {
  losses: ["test/losses/*.test.ts"],
  phases: ["test/phases/*.test.ts", "test/protocol/{indexRun,checkAmounts}.test.ts"],
  campaign: ["test/campaign/*.test.ts"],
};

export default defineConfig({
  test: {
    include: judges[process.env.MUTATED ?? ""] ?? [],
    exclude: [
      "test/phases/{n,amountN}oise.test.ts",
      "test/losses/peakStatistics.test.ts",
      "test/campaign/{limits,strangeText}.test.ts",
    ],
    // Modules are loaded once: no test leaves anything behind in them.
    isolate: false,
    testTimeout: 600_000,
    hookTimeout: 600_000,
  },
});
