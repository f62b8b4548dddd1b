/** Names of the files that an output folder holds; they are never taken for runs. */
export const outputNames: readonly string[] = [
  "runs.csv",
  "losses.csv",
  "phases.csv",
  "ages.csv",
  "contrasts.csv",
  "growth.csv",
  "properties.csv",
  "together.csv",
  "pairs.csv",
  "sufficient.csv",
  "planning.csv",
  "campaign.json",
  "curves.ndjson",
  "datapackage.json",
  "report.html",
];
