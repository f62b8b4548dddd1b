/** What stands in the README of an example. */
export function exampleReadme(options: { specimens: number; rows: number }): string {
  const { specimens, rows } = options;
  return `# An invented campaign

Everything here is made up: mixes, curing regimes, specimens and runs come from a forward model (sums of Arrhenius
reactions at 10 K/min with the noise, drift, buoyancy and temperature error of three balances). No laboratory measured it.

- \`sheet.csv\`: run sheet, one row per run. \`mixes.csv\`: mix table.
- \`properties.csv\`: strength and length change of sister specimens, also where no run was made. M1 is written in MPa and
  microstrain, M2 in psi and %. Cubes are numbered within their cell; a prism keeps its name from age to age.
- \`truth.csv\`: what is true of each cell, from the chemistry that was put in: losses and indices in the windows of the
  protocol csa, and phases in g per 100 g of ignited mass and of anhydrous binder; and the means of the properties in MPa and
  microstrain. It stands for the mean specimen of a cell.
- all other files: runs of ${rows} readings, exported in three ways: tabs and °C and mg; semicolons, decimal commas, a row of
  units, windows-1252; commas, kelvin and grams.

What was put in: ${specimens} specimens per cell that scatter by about 3 %; ye'elimite that hydrates with its sulfate to
ettringite, then monosulfate, always with aluminium hydroxide; hydration that nearly stops once moist curing ends; a little
carbonation of ettringite in air. One run was started in a furnace that was still warm, and should be flagged for it.

What there is to find, against the regime sealed:

- More hydrate, no more strength: ponding makes about a fifth more AH3 at 28 d, and its strength is truly the same at every age.
- A clear loss: one day under wet cloth ends 22 % below in strength at 28 d, with less hydrate.
- A difference that is truly zero: the strength of ponding at every age, and that of one day under cloth at the age of 1 d.
- A difference too small to see: seven days under cloth end 2 % below in strength at 28 d; three specimens that scatter by
  3 % cannot show that.
- Strength is about 70 % of its 28-day value after one day (common practice, no source).
- How short is enough: at 28 d three days under cloth keep 96 % of the strength of seven days, one day keeps 80 %, none 69 %.
- Length: sealed specimens shrink a little, wet ones swell until they dry, dry ones shrink by several hundred microstrain.
`;
}
