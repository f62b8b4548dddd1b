// Preloaded into the command (`node --import`): a disk that is slow, so that kills fall between two writes or renamings, or
// full after so many bytes. Only files that are made anew are touched, that is temporary ones.
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { setTimeout as pause } from "node:timers/promises";

const slow_ms = Number(process.env.DISK_SLOW_MS ?? 0);
let room = Number(process.env.DISK_ROOM ?? Number.POSITIVE_INFINITY);
const { open, rename } = fs.promises;

fs.promises.rename = async (from, to) => {
  // Longer, so that more kills fall between two renamings.
  await pause(3 * slow_ms);
  await rename(from, to);
};

fs.promises.open = async (path, flags, mode) => {
  const file = await open(path, flags, mode);
  if (flags !== "wx") return file;
  const write = file.write.bind(file);
  file.write = async (bytes, offset = 0) => {
    await pause(slow_ms);
    // As a disk does it: what there is room for is written, the next call is refused.
    const length = Math.min(bytes.length - offset, room);
    if (length === 0 && bytes.length > offset) {
      throw Object.assign(new Error("ENOSPC: no space left on device, write"), {
        code: "ENOSPC",
        errno: -28,
        syscall: "write",
      });
    }
    room -= length;
    return write(bytes, offset, length);
  };
  return file;
};

syncBuiltinESMExports();
