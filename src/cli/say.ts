import { terminalSafe } from "../render/terminalSafe.ts";
import type { Io } from "./io.ts";

/** Writes messages to stderr, one line each; names from files cannot move the cursor or change colours. */
export function say(io: Io, ...messages: readonly string[]): void {
  for (const line of messages.flatMap((message) => message.split("\n"))) io.stderr.write(`${terminalSafe(line)}\n`);
}
