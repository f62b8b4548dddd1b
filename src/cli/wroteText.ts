import type { OutputFile } from "../files/writeOutputs.ts";

/** What was written, by name; figures by their number. */
export function wroteText(files: readonly OutputFile[]): string {
  const names = files.map(({ name }) => name).filter((name) => !name.startsWith("figures/"));
  const figures = files.length - names.length;
  return [...names, ...(figures === 0 ? [] : [`${figures} ${figures === 1 ? "file" : "files"} in figures/`])].join(
    ", ",
  );
}
