import type { Io } from "./io.ts";
import { say } from "./say.ts";

/** Errors whose message is made for a person: by class name, so that this file loads no stage. */
const forPeople = new Set(["CompareError", "FileError", "PlanError", "ProtocolError", "UnreadableError", "UsageError"]);

/** So many problems of a table are told at once: repairing these often repairs the rest. */
const MOST = 40;

/** Says what went wrong, without a stack trace, and gives the exit code. */
export function reportError(error: unknown, io: Io): number {
  const { name, message, stack } = error instanceof Error ? error : new Error(String(error));
  if (io.signal?.aborted) {
    say(io, "Stopped.");
    return 130;
  }
  if (forPeople.has(name)) {
    const lines = message.split("\n");
    const more = lines.length - MOST;
    say(io, ...lines.slice(0, MOST), ...(more > 0 ? [`… and ${more} more; repair these and run it again`] : []));
    return 2;
  }
  say(
    io,
    `An error of tg-hydrates itself: ${name}: ${message}. Report it with the command line; TG_HYDRATES_DEBUG=1 shows where it happened.`,
  );
  if (io.env.TG_HYDRATES_DEBUG && stack) say(io, stack);
  return 2;
}
