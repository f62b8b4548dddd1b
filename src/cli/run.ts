import { CommanderError } from "commander";
import type { Io } from "./io.ts";
import { makeProgram } from "./makeProgram.ts";
import { reportError } from "./reportError.ts";

/**
 * Runs one command line.
 *
 * @param argv Arguments after the name of the program.
 * @param io Streams and surroundings.
 * @returns The exit code: 0 all done; 1 some runs failed or are incomplete; 2 nothing could be done; 130 stopped by the user.
 */
export async function runCli(argv: readonly string[], io: Io): Promise<number> {
  let exitCode = 0;
  try {
    const program = makeProgram(io, (code) => {
      exitCode = code;
    });
    await program.parseAsync([...argv], { from: "user" });
    return exitCode;
  } catch (error) {
    // commander ends with 1 after a usage error; in this program 1 means that some runs failed.
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    return reportError(error, io);
  }
}
