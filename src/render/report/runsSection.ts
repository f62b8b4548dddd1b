import { ageWords } from "../../campaign/ageWords.ts";
import type { Campaign } from "../../campaign/types.ts";
import { regimeWords } from "../../compare/words.ts";
import { valueOrNull } from "../../measured.ts";
import type { RunResult } from "../../protocol/types.ts";
import { flagLinks } from "./flagLinks.ts";
import { type Content, html } from "./html.ts";
import { label } from "./label.ts";
import { noBreak } from "./noBreak.ts";
import type { Section } from "./section.ts";
import { table } from "./table.ts";

/** More runs than this stand in runs.csv only. */
const MOST = 200;

/** The runs with their masses and noise; those that failed or are incomplete first where not all can stand here. */
export function runsSection({ runs }: Campaign): Section {
  const shown = (runs.length > MOST ? [...runs].sort((a, b) => rank(a) - rank(b)) : runs).slice(0, MOST);
  const left = runs.length - shown.length;
  const content =
    runs.length === 0
      ? html`<p>There is none.</p>\n`
      : html`<details><summary>${shown.length === runs.length ? `All ${runs.length} runs` : `${shown.length} of ${runs.length} runs`}</summary>
${table("runs-caption", {
  caption: "Runs: masses, heating and noise of a single reading",
  columns: [
    { heading: "file" },
    { heading: "mix" },
    { heading: "curing" },
    { heading: "age", align: "right" },
    { heading: "specimen" },
    { heading: "role" },
    { heading: "status" },
    { heading: "initial, mg", align: "right" },
    { heading: "ignited, mg", align: "right" },
    { heading: "ignition loss, %", align: "right" },
    { heading: "from–to, °C", align: "right" },
    { heading: "K/min", align: "right" },
    { heading: "noise, µg", align: "right" },
    { heading: "read with care" },
  ],
  bodies: [{ rows: shown.map(rowOf) }],
})}</details>
${left > 0 && html`<p class="aside">${left} more: they stand in runs.csv.</p>\n`}`;
  return { id: "runs", heading: "Runs", content };
}

function rank({ status }: RunResult): number {
  return ["failed", "incomplete", "done"].indexOf(status);
}

function rowOf(run: RunResult): Content[] {
  const head = [
    label(run.file),
    label(run.mix ?? ""),
    run.curing === null && run.curing_d === null ? "" : label(noBreak(regimeWords(run))),
    run.age_d === null ? "" : ageWords(run.age_d),
    label(run.specimen === run.file ? "" : run.specimen),
    run.role,
    run.status,
  ];
  if (run.status === "failed") return [...head, "", "", "", "", "", "", run.error.code];
  const { initial_mass_mg, ignited_mass_mg, loi_pct, heating_rate_K_per_min: rate, noise_ug } = run;
  const windows = [...run.windows, ...run.phases].flatMap(({ flags }) => flags);
  return [
    ...head,
    rounded(initial_mass_mg, 3),
    rounded(valueOrNull(ignited_mass_mg), 3),
    rounded(valueOrNull(loi_pct), 2),
    `${run.start_C.toFixed(0)}–${run.end_C.toFixed(0)}`,
    rounded(rate, 1),
    noise_ug === null ? "" : Number(noise_ug.toPrecision(2)),
    flagLinks([...run.flags, ...windows]),
  ];
}

function rounded(value: number | null, decimals: number): string {
  return value === null ? "" : value.toFixed(decimals);
}
