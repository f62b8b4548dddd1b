import { defineConfig } from "vitest/config";

/** What needs modules and globals of its own, since it replaces some. */
const own = "test/show/**/*.test.ts";

export default defineConfig({
  test: {
    // Every processor works; left to itself vitest keeps one free, which of two is half.
    maxWorkers: "100%",
    // Modules are loaded once for each worker: for every file anew, several hundred small ones cost a good part of the time.
    projects: [
      {
        extends: true,
        test: { name: "shared", isolate: false, include: ["test/**/*.test.ts"], exclude: ["test/tools/**", own] },
      },
      { extends: true, test: { name: "own", include: [own] } },
    ],
    // No test is a race: a busy machine is no failure.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    coverage: {
      provider: "v8",
      include: ["src/**/*.ts"],
      // Types only: no statement to cover.
      exclude: ["src/**/types.ts", "src/**/*.d.ts"],
      reporter: ["text-summary", "html", "json-summary"],
      reportsDirectory: "out/coverage",
    },
  },
});
