import { defineConfig } from "vitest/config";

/** Lines and branches of the core that the tests must reach, %. */
const least = { lines: 95, branches: 95 };

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
      // All but what talks to folders, terminals and browsers, which is run by processes of its own too.
      thresholds: {
        "src/*.ts": least,
        "src/{numerics,chemistry,read,curve,losses,phases,protocol,simulate,campaign,compare,render}/**/*.ts": least,
      },
    },
  },
});
