import { draftText } from "./draftText.ts";
import { readDurations } from "./readDurations.ts";
import { someNames } from "./someNames.ts";
import { type NamePart, splitFileName } from "./splitFileName.ts";
import { takeNumbers } from "./takeNumbers.ts";
import type { DraftRow } from "./types.ts";

/** A drafted run sheet. */
export interface Draft {
  rows: DraftRow[];
  /** The sheet as CSV, for a person to finish. */
  text: string;
  /** What was read, what was concluded, and what was left blank, in sentences. */
  remarks: string[];
}

/**
 * Drafts a run sheet from file names: ages, days of curing, curing names, replicates, roles. What a name cannot tell stays
 * blank, and a remark says so.
 *
 * By themselves are understood: durations (`7d`, `7_days`, `28-d`, `4h`, `day 7`), words of the trade for curing (`moist`, `sealed`,
 * `rh95`), `r3`/`rep 2`, `specimen 2`/`prism2`, `mixA`, `blank`, `binder`, `aggregate`. By comparison of all names: words that every
 * name has say nothing; a final number is a replicate where it starts anew in another group; of two durations the one that is never
 * longer is that of curing. A word that stands in several cells cannot be a specimen: it is the mix where every name has
 * a curing, and the curing where every name has a mix; where neither is known it is left under `note`, since mix and
 * curing cannot be told apart. A word of one cell only is the specimen where mix, curing and age are known.
 *
 * @param files Names relative to the folder.
 * @returns Rows in code-unit order of the names.
 *
 * @example
 * ```ts
 * import { draftSheet } from "tg-hydrates";
 * const { rows } = draftSheet(["K_moist_7d_r1.txt", "K_moist_28d_r1.txt", "L_moist_7d_r1.txt"]);
 * const last = rows.at(-1)!;
 * if (last.mix !== "L" || last.curing !== "moist" || last.age_min !== 10080) throw new Error("L, moist, 7 days");
 * ```
 */
export function draftSheet(files: readonly string[]): Draft {
  const names = [...files].sort().map((file) => ({ file, parts: splitFileName(file) }));
  const remarks: string[] = [];
  const durations = readDurations(names.map(({ parts }) => parts));
  remarks.push(...durations.remarks);
  const numbers = takeNumbers(names.map(({ parts }) => parts));
  remarks.push(...numbers.remarks);
  const shared = sharedWords(numbers.parts.filter((parts) => roleOf(parts) === "specimen"));
  const rows = names.map(({ file }, i): DraftRow => {
    const parts = numbers.parts[i]!;
    const words = textsOf(parts, "word").filter((word) => !shared.has(word.toLowerCase()));
    const { curing_d, age_min, undecided } = durations.read[i]!;
    const label = [...words, ...undecided].join(" ") || null;
    return {
      file,
      mix: textsOf(parts, "mix").join("-") || null,
      curing: textsOf(parts, "curing").join("-") || null,
      curing_d,
      age_min,
      specimen: textsOf(parts, "specimen").join("-") || null,
      replicate: textsOf(parts, "replicate").join("-") || null,
      role: roleOf(parts),
      label,
    };
  });
  if (shared.size > 0) {
    remarks.push(`Every name has ${[...shared].join(", ")}: if that is a mix or a curing regime, fill it in.`);
  }
  remarks.push(...placeLabels(rows), ...blanksOf(rows, names));
  return { rows, text: draftText(rows), remarks };
}

function textsOf(parts: readonly NamePart[], kind: "word" | "mix" | "curing" | "specimen" | "replicate"): string[] {
  return parts.flatMap((part) => (part.kind === kind ? [part.text] : []));
}

function roleOf(parts: readonly NamePart[]): DraftRow["role"] {
  return parts.find((part) => part.kind === "role")?.role ?? "specimen";
}

/** Words (lower case) that stand in every name: a prefix, a project, the only mix. */
function sharedWords(names: readonly NamePart[][]): Set<string> {
  const [first = [], ...others] = names.map((parts) => textsOf(parts, "word").map((word) => word.toLowerCase()));
  return new Set(first.filter((word) => others.every((words) => words.includes(word))));
}

/** Puts labels where logic leaves one place for them; the rows are ours and changed in place. */
function placeLabels(rows: DraftRow[]): string[] {
  const open = rows.filter((row) => row.role === "specimen");
  const labelled = open.filter((row) => row.label !== null);
  if (labelled.length === 0) return [];
  const cells = new Map<string, Set<string>>();
  for (const { label, mix, curing, curing_d, age_min } of labelled) {
    const cell = JSON.stringify([mix, curing, curing_d, age_min]);
    cells.set(label!, (cells.get(label!) ?? new Set()).add(cell));
  }
  const crossed = [...cells.values()].some((set) => set.size > 1);
  const known = (key: "mix" | "curing" | "age_min") => open.every((row) => row[key] !== null);
  const unknown = (key: "mix" | "curing" | "specimen") => open.every((row) => row[key] === null);
  const aged = known("age_min");
  const place: "mix" | "curing" | "specimen" | null =
    crossed && aged && known("curing") && unknown("mix")
      ? "mix"
      : crossed && aged && known("mix") && unknown("curing")
        ? "curing"
        : !crossed && aged && known("mix") && known("curing") && unknown("specimen")
          ? "specimen"
          : null;
  const shown = someNames([...cells.keys()]);
  if (place === null) {
    return [
      `The names do not tell the meaning of ${shown} (mix, curing, specimen …): left under note, fill in the columns.`,
    ];
  }
  for (const row of labelled) {
    row[place] = row.label;
    row.label = null;
  }
  return [
    `Taken for the ${place}, since the names leave no other place for it: ${shown}. Correct it if it is something else.`,
  ];
}

function blanksOf(rows: readonly DraftRow[], names: readonly { parts: NamePart[] }[]): string[] {
  const remarks: string[] = [];
  const open = rows.filter((row) => row.role === "specimen");
  const without = (what: string, missing: readonly DraftRow[]): void => {
    if (missing.length === 0) return;
    remarks.push(
      `No ${what} in ${missing.length} of ${open.length} names (${someNames(missing.map(({ file }) => file))}).`,
    );
  };
  without(
    "age",
    open.filter((row) => row.age_min === null),
  );
  without(
    "mix",
    open.filter((row) => row.mix === null),
  );
  without(
    "curing",
    open.filter((row) => row.curing === null),
  );
  if (open.some((row) => row.replicate !== null && row.specimen === null)) {
    remarks.push(
      "Replicates are numbered but specimens are not named: each row counts as a specimen of its own unless aliquots of one specimen get its name.",
    );
  }
  const blanks = rows.filter((row) => row.role === "blank").map(({ file }) => file);
  if (blanks.length > 0) {
    remarks.push(`Blank runs: ${someNames(blanks)}. Name them under blank in the rows they belong to.`);
  }
  if (names.some(({ parts }) => parts.some(({ kind }) => kind === "date"))) {
    remarks.push("Dates in the names were left out: if they are days of measurement, put them under session.");
  }
  return remarks;
}
