/** What stands in the README of an example. */
export function exampleReadme(options: { specimens: number; rows: number }): string {
  const { specimens, rows } = options;
  return `# An invented campaign

Everything here is made up: mixes, curing regimes, specimens and runs come from a forward model (sums of Arrhenius
reactions at 10 K/min with the noise, drift, buoyancy and temperature error of three balances). No laboratory measured it.

- \`sheet.csv\`: run sheet, one row per run. \`mixes.csv\`: mix table.
- \`truth.csv\`: what is true of each cell, from the chemistry that was put in: losses and indices in the windows of the
  protocol csa, and phases in g per 100 g of ignited mass and of anhydrous binder. It stands for the mean specimen of a cell.
- all other files: runs of ${rows} readings, exported in three ways: tabs and °C and mg; semicolons, decimal commas, a row of
  units, windows-1252; commas, kelvin and grams.

What was put in: ${specimens} specimens per cell that scatter by about 3 %; ye'elimite that hydrates with its sulfate to
ettringite, then monosulfate, always with aluminium hydroxide; hydration that nearly stops once moist curing ends; a little
carbonation of ettringite in air. One run was started in a furnace that was still warm, and should be flagged for it.
`;
}
