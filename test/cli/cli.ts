import type { Io } from "../../src/cli/io.ts";
import { runCli } from "../../src/cli/run.ts";

/** Runs a command line in this process and catches what it writes. */
export async function cli(
  argv: readonly string[],
  options: Partial<Pick<Io, "cwd" | "env" | "isTTY" | "columns" | "signal">> = {},
): Promise<{ code: number; out: string; err: string }> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await runCli(argv, {
    stdout: { write: (text) => out.push(text) },
    stderr: { write: (text) => err.push(text) },
    cwd: process.cwd(),
    env: {},
    isTTY: false,
    ...options,
  });
  return { code, out: out.join(""), err: err.join("") };
}
