// Entry of the bundled command.
import type { Io } from "./io.ts";
import { runCli } from "./run.ts";

const stop = new AbortController();
for (const name of ["SIGINT", "SIGTERM"] as const) process.once(name, () => stop.abort());
// Whoever reads the table may stop early (`| head`): that is no error of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(process.exitCode ?? 0);
  throw error;
});
const io: Io = {
  stdout: process.stdout,
  stderr: process.stderr,
  cwd: process.cwd(),
  env: process.env,
  isTTY: process.stderr.isTTY === true,
  columns: process.stderr.columns ?? 80,
  signal: stop.signal,
};
process.exitCode = await runCli(process.argv.slice(2), io);
