// Loaded before a program by --require: leaves the peak of its resident memory, MB, in a file.
const { isMainThread } = require("node:worker_threads");
const { writeFileSync } = require("node:fs");

if (isMainThread) {
  process.on("exit", () => {
    writeFileSync(process.env.PEAK_MEMORY_FILE, String(process.resourceUsage().maxRSS / 1024));
  });
}
