import { spawnSync } from "node:child_process";
import { accessSync, constants } from "node:fs";
import { expect, test } from "vitest";

/** A disk in memory, where there is one: the slice is about moments, not about how fast a disk is. */
function inMemory(): Record<string, string> {
  try {
    accessSync("/dev/shm", constants.W_OK);
    return { TMPDIR: "/dev/shm" };
  } catch {
    return {};
  }
}

// The whole is `npm run nightly:faults`.
test("a slice of the nightly faults: kills, stops, full disks and pairs of writers leave nothing half done", () => {
  const args = [
    "--kills",
    "20",
    "--stops",
    "5",
    "--full",
    "3",
    "--pairs",
    "2",
    "--figures",
    "0",
    "--seed",
    "7",
    "--at-once",
    "3",
  ];
  const { status, stdout, stderr } = spawnSync(process.execPath, ["test/nightly/faults.js", ...args], {
    encoding: "utf8",
    env: { ...process.env, ...inMemory() },
  });
  expect({ status, stderr, faults: stdout.split("\n").filter((line) => line.startsWith("FAULT")) }).toEqual({
    status: 0,
    stderr: "",
    faults: [],
  });
  const [, killed, writing] = /: 20 kills \((\d+) before the end, (\d+) while files were written/.exec(stdout) ?? [];
  // Otherwise nothing was tried.
  expect(Number(killed)).toBeGreaterThan(0);
  expect(Number(writing)).toBeGreaterThan(0);
}, 600_000);
