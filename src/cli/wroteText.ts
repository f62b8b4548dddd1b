/** Files of an output folder by name, figures by their number. */
export function wroteText(files: readonly string[]): string {
  const names = files.filter((name) => !name.startsWith("figures/"));
  const figures = files.length - names.length;
  return [...names, ...(figures === 0 ? [] : [`${figures} ${figures === 1 ? "file" : "files"} in figures/`])].join(
    ", ",
  );
}
