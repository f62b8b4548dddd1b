import type { AgeRow, Campaign } from "../../campaign/types.ts";
import { valueOrNull } from "../../measured.ts";
import { decimalsFor, fixed } from "../decisionWords.ts";
import { counted } from "./counted.ts";
import { type Content, type Html, html } from "./html.ts";
import { label } from "./label.ts";
import { plainNumbers } from "./plainNumbers.ts";

/** What the means and their intervals say by themselves, and what they cannot say. */
export function indexFindings({ ages, decisions, runs }: Campaign): Html {
  const known = ages.filter(({ index }) => valueOrNull(index) !== null);
  const specimens = runs.filter(({ role }) => role === "specimen").length;
  const heading = html`<h3>The indices</h3>\n`;
  if (ages.length === 0) {
    return html`${heading}<p>None of ${counted(runs.length, "run")} has the role specimen: there is no cell, and no index.</p>\n`;
  }
  if (known.length === 0) {
    return html`${heading}<p>None of ${counted(specimens, "run")} of specimens gave an index: nothing can be said about hydrates. The reasons stand under <a href="#flags">what to look at</a>.</p>\n`;
  }
  const sure = known.filter(({ index_lo95 }) => index_lo95 !== null).length;
  const windows = [...new Set(ages.map(({ window }) => window))];
  const alone = new Set(known.filter(({ n_specimens }) => n_specimens === 1).map(cellOf)).size;
  return html`${heading}<p>${counted(new Set(ages.map(cellOf)).size, "cell")} (mix, curing, age) in ${counted(windows.length, "window")}: ${known.length} of ${counted(ages.length, "value")} ${known.length === 1 ? "is" : "are"} there, ${sure} with a 95 % interval.${
    alone > 0 && ` ${counted(alone, "cell")} ${alone === 1 ? "rests" : "rest"} on one specimen.`
  }${sure === 0 && " No cell has two specimens: how far specimens scatter is not known, and no difference can be judged."}</p>
<ul>
${windows.map((window) =>
  windowLine(
    known.filter((row) => row.window === window),
    window,
  ),
)}</ul>
${
  decisions === undefined &&
  html`<p>No regime was compared with another. ${
    sure === 0
      ? "The ranges above are no finding about curing: measure at least two specimens, better three, of each regime at one age; then the"
      : "These are means with their uncertainty, and the ranges above are no finding about curing: cells share errors (temperature, buoyancy), so that intervals that overlap show neither a difference nor agreement. The"
  } command <code>tg-hydrates compare</code> judges ${sure === 0 ? "differences" : "both"}.</p>\n`
}`;
}

function cellOf({ mix, curing, curing_d, age_d }: AgeRow): string {
  return JSON.stringify([mix, curing, curing_d, age_d]);
}

/** `aft-afm: means from 28.6 to 37.0 …`. */
function windowLine(rows: readonly AgeRow[], window: string): Content {
  if (rows.length === 0) return html`<li>${label(window)}: no value.</li>\n`;
  const values = rows.map(({ index }) => valueOrNull(index)!);
  const halves = rows.flatMap(({ index_hi95 }, i) => (index_hi95 === null ? [] : [index_hi95 - values[i]!]));
  const decimals = decimalsFor(halves.length > 0 ? halves : values.map((value) => Math.abs(value) / 100));
  const low = plainNumbers(fixed(Math.min(...values), decimals));
  const high = plainNumbers(fixed(Math.max(...values), decimals));
  const zero = rows.filter(({ index_lo95, index_hi95 }) => index_lo95 !== null && index_lo95 <= 0 && index_hi95! >= 0);
  const range = values.length === 1 ? low : `${low} to ${high}`;
  const nothing = zero.length > 0 && `; ${zero.length} of ${halves.length} intervals hold zero`;
  return html`<li>${label(window)}: ${values.length === 1 ? "mean" : "means from"} ${range} g per 100 g${nothing}.</li>\n`;
}
