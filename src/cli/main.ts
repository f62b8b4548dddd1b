// Entry of the bundled command.
import type { Io } from "./io.ts";
import { reportError } from "./reportError.ts";
import { runCli } from "./run.ts";

let stop: AbortController | null = null;

/** Until a command asks for it a signal ends the process at once, however busy it is: nothing has to be tidied up. */
function listen(): AbortController {
  const control = new AbortController();
  for (const name of ["SIGINT", "SIGTERM"] as const) process.once(name, () => control.abort());
  return control;
}

let lost: Error | null = null;
// Whoever reads the table may stop early (`| head`): that is no error of ours, and the files are written all the same.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") lost ??= error;
});
// Nobody is left to be told.
process.stderr.on("error", () => undefined);

const io: Io = {
  stdout: process.stdout,
  stderr: process.stderr,
  cwd: process.cwd(),
  env: process.env,
  isTTY: process.stderr.isTTY === true,
  columns: process.stderr.columns ?? 80,
  get signal() {
    stop ??= listen();
    return stop.signal;
  },
};
const code = await runCli(process.argv.slice(2), io);
await new Promise<void>((flushed) => process.stdout.write("", () => flushed()));
if (lost === null) process.exitCode = code;
else {
  const { fileError } = await import("../files/fileError.ts");
  process.exitCode = reportError(fileError(lost, "The printed output"), io);
}
