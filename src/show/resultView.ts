import type { Measured } from "../measured.ts";
import type { RunResult, WindowResult } from "../protocol/types.ts";
import { decimalsFor, fixed } from "../render/decisionWords.ts";
import { flagCodes } from "../render/flagCodes.ts";
import { cellText } from "./cellText.ts";
import { flagLines } from "./flagLines.ts";
import { shortNumber } from "./shortNumber.ts";
import type { ShowOptions, View } from "./types.ts";

const columns = [
  { heading: "window" },
  { heading: "from–to, °C" },
  { heading: "rule" },
  { heading: "loss, mg", align: "right" },
  { heading: "index, g/100 g", align: "right" },
  { heading: "by step", align: "right" },
  { heading: "by area", align: "right" },
  { heading: "DTG peak, °C", align: "right" },
  { heading: "flags" },
] as const;

/** A microgram is what thermobalances write. */
const MG_DECIMALS = 3;

/** What one run gave: one row per window, each index with its standard uncertainty; for a failed run the reason. */
export function resultView(result: RunResult, { caption }: ShowOptions = {}): View {
  if (result.status === "failed") {
    return [{ heading: caption ?? `${result.file}: failed`, lines: [result.error.message] }];
  }
  const { file, status, windows, ignited_mass_mg, flags } = result;
  const title = `Indices of ${file}${status === "incomplete" ? " (incomplete)" : ""}`;
  const ignited = "missing" in ignited_mass_mg ? "" : ` Ignited mass: ${shortNumber(ignited_mass_mg.value)} mg.`;
  const basis = windows[0]?.basis;
  return [
    { caption: caption ?? title, columns, rows: windows.map(rowOf), heads: 1 },
    {
      lines: [`Index: g per 100 g of reference mass (basis ${basis ?? "–"}), ± standard uncertainty.${ignited}`],
    },
    ...flagLines([...flags, ...windows.flatMap((window) => window.flags)]),
  ];
}

function rowOf(window: WindowResult): string[] {
  const { from_C, to_C, rule, loss_mg, index, index_step, index_area, peak_C, flags } = window;
  // What an index is known to, the same index by another rule is not known better.
  const decimals = "missing" in index || index.u === null ? 2 : decimalsFor([index.u]);
  const plain = (number: Measured, digits: number): string =>
    "missing" in number ? cellText(number) : fixed(number.value, digits);
  const range = from_C === to_C ? shortNumber(from_C) : `${shortNumber(from_C)}–${shortNumber(to_C)}`;
  return [
    window.window,
    range,
    rule,
    plain(loss_mg, MG_DECIMALS),
    cellText(index),
    plain(index_step, decimals),
    plain(index_area, decimals),
    cellText(peak_C),
    flagCodes(flags) ?? "",
  ];
}
