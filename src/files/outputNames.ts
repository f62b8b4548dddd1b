const pages = ["report.html", "datapackage.json", "campaign.json"];

/** Written by `index`, whatever it finds; figures stand in a folder of their own. */
export const indexOutputs: readonly string[] = [
  "runs.csv",
  "losses.csv",
  "phases.csv",
  "ages.csv",
  "curves.ndjson",
  ...pages,
];

/** Written by `compare`. */
export const compareOutputs: readonly string[] = [
  "contrasts.csv",
  "growth.csv",
  "properties.csv",
  "together.csv",
  "pairs.csv",
  "sufficient.csv",
  "planning.csv",
  ...pages,
];

/** Names of the files that an output folder holds; they are never taken for runs. */
export const outputNames: readonly string[] = [...new Set([...indexOutputs, ...compareOutputs])];
