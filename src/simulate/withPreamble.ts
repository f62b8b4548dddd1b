import type { ExampleBalance } from "./exampleDesign.ts";
import { exportLayouts } from "./exportLayouts.ts";
import type { ExportLayout } from "./formatExport.ts";

/** Preambles as invented as the runs, in the language of each layout. */
export function withPreamble(layout: ExampleBalance["layout"], specimen: string, sample_mg: number): ExportLayout {
  const mass = sample_mg.toFixed(2);
  const preamble = {
    tabs: [`Specimen: ${specimen}`, `Initial mass: ${mass} mg`, "Gas: nitrogen", ""],
    semicolons: [`Probe;${specimen}`, `Einwaage;${mass.replace(".", ",")} mg`, "Gas;Stickstoff"],
    commas: [`# specimen ${specimen}`, "# gas nitrogen"],
  }[layout];
  return { ...exportLayouts[layout], preamble };
}
