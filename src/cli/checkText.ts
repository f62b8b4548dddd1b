import type { CheckedNumber, SubstanceCheck } from "../phases/checkTypes.ts";
import { terminalSafe } from "../render/terminalSafe.ts";

/** A check as lines for a terminal: one line per step, the residue, the closure, the verdict and what to mind. */
export function checkText(check: SubstanceCheck): string {
  const { file, label, formula, tolerance_pct, steps, residue, closure, holds, cautions, flags, source } = check;
  const heading = ["", "range", "peak", "published", "theory", "measured", "deviation", "verdict"];
  const degrees = (value: number | null) => (value === null ? "" : value.toFixed(0));
  const rows = [
    ...steps.map((step) => {
      const range = step.from_C === null ? "" : `${degrees(step.from_C)}–${degrees(step.to_C)}`;
      return [step.name, range, degrees(step.peak_C), degrees(step.published_C), ...cells(step)];
    }),
    ["residue", "", "", "", ...cells(residue)],
    ["steps and final mass", "", "", "", ...cells(closure)],
  ];
  const units = ["", "°C", "°C", "°C", "%", "%, ± 95 %", "%", `within ± ${tolerance_pct} %`];
  const table = [heading, units, ...rows];
  const widths = heading.map((_, i) => Math.max(...table.map((row) => row[i]!.length)));
  const aligned = table.map((row) =>
    row
      .map((cell, i) => (i === 0 || i === row.length - 1 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!)))
      .join("  ")
      .trimEnd(),
  );
  const unclear = [...steps, residue].some(({ clear }) => clear === false);
  return [
    `${file}: ${label}, ${formula}`,
    "",
    ...aligned,
    "",
    holds ? "The check holds." : "The check does not hold.",
    ...(unclear
      ? ["?: the uncertainty of the balance reaches across the tolerance; a blank run or more sample would tell."]
      : []),
    ...flags.map(({ code, sentence, advice }) => `${code}: ${sentence} ${advice}`),
    ...cautions.map((caution) => `Mind: ${caution}`),
    `Theory: standard atomic weights (Prohaska et al., Pure Appl Chem 94:573, 2022). Positions: ${source}. They are shown, not judged.`,
  ]
    .map((line) => `${terminalSafe(line)}\n`)
    .join("");
}

function cells({ theory_pct, measured_pct, deviation_pct, verdict, clear }: CheckedNumber): string[] {
  if ("missing" in measured_pct || deviation_pct === null) return [theory_pct.toFixed(3), "", "", verdict];
  const u = measured_pct.u === null ? "" : ` ± ${(1.96 * measured_pct.u).toFixed(3)}`;
  const sign = deviation_pct > 0 ? "+" : "";
  const shown = `${measured_pct.value.toFixed(3)}${u}`;
  return [
    theory_pct.toFixed(3),
    shown,
    `${sign}${deviation_pct.toFixed(3)}`,
    `${verdict}${clear === false ? "?" : ""}`,
  ];
}
