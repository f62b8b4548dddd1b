import { ageWords } from "../../campaign/ageWords.ts";
import type { AmountRow, Campaign } from "../../campaign/types.ts";
import { regimeWords } from "../../compare/words.ts";
import { type FlagCode, flagKinds } from "../../flags.ts";
import { valueOrNull } from "../../measured.ts";
import { decimalsFor, fixed } from "../decisionWords.ts";
import { flagLinks } from "./flagLinks.ts";
import { type Content, type Html, html } from "./html.ts";
import { joined } from "./joined.ts";
import { label } from "./label.ts";
import { noBreak } from "./noBreak.ts";
import { plainNumbers } from "./plainNumbers.ts";
import type { Section } from "./section.ts";
import { table } from "./table.ts";

/** Amounts of phases: one table per mix and phase, one column per basis; null where the protocol has none. */
export function amountsSection({ amounts }: Campaign): Section | null {
  if (amounts.length === 0) return null;
  const groups = new Map<string, AmountRow[]>();
  for (const row of amounts) {
    const key = JSON.stringify([row.mix, row.phase, row.window]);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return {
    id: "amounts",
    heading: "Amounts of phases",
    content: html`<p>By stoichiometry from the loss of one window, which is taken as the loss of this phase alone. Mean ± half of its 95 % interval, g per 100 g of what stands above the column; <em>net</em>: less what the anhydrous binder and the aggregate lose by themselves.</p>
${[...groups.values()].map((rows, i) => oneTable(rows, `amounts-${i + 1}`))}`,
  };
}

function oneTable(rows: readonly AmountRow[], id: string): Html {
  const { mix, phase, window, mol_lost } = rows[0]!;
  const all = [...new Set(rows.map(({ basis }) => basis))];
  const absent = all.filter((basis) => rows.every((row) => row.basis !== basis || valueOrNull(row.amount) === null));
  const bases = absent.length === all.length ? all : all.filter((basis) => !absent.includes(basis));
  const decimals = decimalsFor(
    rows.flatMap(({ amount, amount_hi95 }) => {
      const value = valueOrNull(amount);
      return value === null ? [] : [amount_hi95 === null ? Math.abs(value) / 100 : amount_hi95 - value];
    }),
  );
  const cells = new Map<string, AmountRow[]>();
  for (const row of rows) {
    const key = JSON.stringify([row.curing, row.curing_d, row.age_d]);
    cells.set(key, [...(cells.get(key) ?? []), row]);
  }
  const numberOf = (row: AmountRow | undefined): Content => {
    if (row === undefined) return "";
    const value = valueOrNull(row.amount);
    if (value === null) return "—";
    const half =
      row.amount_hi95 !== null && html` <span class="half">± ${fixed(row.amount_hi95 - value, decimals)}</span>`;
    const mark = row.flags.some(({ severity }) => severity !== "note") && "*";
    return html`${plainNumbers(fixed(value, decimals))}${half}${mark}`;
  };
  return html`${table(id, {
    caption: html`${label(mix ?? "No mix named")}: ${label(phase)} from ${label(window)}, ${mol_lost} mol of gas per mol`,
    columns: [
      { heading: "curing" },
      { heading: "age", align: "right" },
      ...bases.map((basis) => ({ heading: basisWords(basis), align: "right" }) as const),
      { heading: "read with care" },
    ],
    headers: 2,
    bodies: [
      {
        rows: [...cells.values()].map((own): Content[] => [
          label(noBreak(regimeWords(own[0]!))),
          noBreak(ageWords(own[0]!.age_d)),
          ...bases.map((basis) => numberOf(own.find((row) => row.basis === basis))),
          reasonsOf(own.filter(({ basis }) => bases.includes(basis))),
        ]),
      },
    ],
  })}${bases.length < all.length && whyAbsent(rows, absent)}`;
}

/** Codes of flags, with their links, and of missing numbers that no flag tells of. */
function reasonsOf(rows: readonly AmountRow[]): Content {
  const flags = rows.flatMap((row) => row.flags);
  const told = new Set<string>(flags.map(({ code }) => code));
  const missing = new Set(
    rows.flatMap(({ amount }) => ("missing" in amount && !told.has(amount.missing) ? [amount.missing] : [])),
  );
  const links = flags.some(({ severity }) => severity !== "note") ? [flagLinks(flags)] : [];
  return joined([...links, ...missing]);
}

/** Why no cell has an amount on these bases, and what to do. */
function whyAbsent(rows: readonly AmountRow[], bases: readonly AmountRow["basis"][]): Html {
  const codes = new Set(
    rows.flatMap(({ basis, amount }) => (bases.includes(basis) && "missing" in amount ? [amount.missing] : [])),
  );
  const advice = [...codes].map((code) =>
    Object.hasOwn(flagKinds, code) ? flagKinds[code as FlagCode].advice : `${code}.`,
  );
  return html`<p class="aside">Not per 100 g of ${joined(bases.map(basisWords))}: ${joined(advice, " ")}</p>\n`;
}

/** `ignited-binder-net` → `ignited binder, net`. */
function basisWords(basis: AmountRow["basis"]): string {
  return basis.replace(/-net$/, ", net").replace("-", " ");
}
