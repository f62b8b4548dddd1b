import { spawn } from "node:child_process";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const command = fileURLToPath(new URL("../../bin/tg-hydrates.js", import.meta.url));
const disk = new URL("./disk.js", import.meta.url).href;

/**
 * Starts the command in a folder.
 *
 * @param {string[]} args
 * @param {string} cwd
 * @param {{ slow_ms?: number, room?: number }} options The disk it meets. @default the true one
 * @returns The process, and a promise of how it ended.
 */
export function start(args, cwd, { slow_ms, room } = {}) {
  const env = { ...process.env };
  delete env.NODE_OPTIONS;
  if (slow_ms !== undefined) env.DISK_SLOW_MS = String(slow_ms);
  if (room !== undefined) env.DISK_ROOM = String(room);
  const preload = slow_ms === undefined && room === undefined ? [] : ["--import", disk];
  const child = spawn(process.execPath, [...preload, command, ...args], {
    cwd,
    env,
    stdio: ["ignore", "ignore", "pipe"],
  });
  let said = "";
  child.stderr.on("data", (text) => {
    said += text;
  });
  const ended = new Promise((done) => {
    child.once("close", (code, signal) => done({ code, signal, said, last: said.trimEnd().split("\n").at(-1) ?? "" }));
  });
  return { child, ended, said: () => said };
}

/** Whether a file is being written in an output folder: a temporary one stands there. */
export function isWriting(out) {
  for (const folder of [out, join(out, "figures")]) {
    try {
      if (readdirSync(folder).some((name) => name.endsWith(".tmp"))) return true;
    } catch {
      // Not there yet.
    }
  }
  return false;
}
