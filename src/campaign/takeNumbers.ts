import type { NamePart } from "./splitFileName.ts";

/**
 * Final numbers (`_03`): replicates where they count within groups, that is where a number comes back in another group or all
 * names are one group with an age. A number that runs through all names is only a number, and without an age in the name it may be an
 * age without its unit: such numbers stay words.
 *
 * @param names The parts of every name.
 * @returns The parts with the numbers turned into replicates, in the same order.
 */
export function takeNumbers(names: readonly NamePart[][]): { parts: NamePart[][]; remarks: string[] } {
  const numbered = names.map((parts) => (finalNumber(parts) === null ? null : { parts, number: finalNumber(parts)! }));
  const candidates = numbered.filter((entry) => entry !== null);
  if (candidates.length === 0) return { parts: names.map((parts) => [...parts]), remarks: [] };
  const groupsOf = new Map<number, Set<string>>();
  for (const { parts, number } of candidates) {
    const group = JSON.stringify(parts.slice(0, -1));
    groupsOf.set(Number(number), (groupsOf.get(Number(number)) ?? new Set()).add(group));
  }
  const groups = new Set([...groupsOf.values()].flatMap((set) => [...set]));
  const comesBack = [...groupsOf.values()].some((set) => set.size > 1);
  const aged = candidates.every(({ parts }) => parts.some(({ kind }) => kind === "duration"));
  // 1, 2, 3 or 01 count something; 7, 28, 90 more likely measure it.
  const counts =
    candidates.some(({ number }) => number.startsWith("0")) || Math.max(...groupsOf.keys()) <= 2 * groupsOf.size + 1;
  if (aged && counts && (comesBack || groups.size === 1)) {
    const parts = names.map((part, i): NamePart[] => {
      const entry = numbered[i];
      return entry ? [...part.slice(0, -1), { kind: "replicate", text: String(Number(entry.number)) }] : [...part];
    });
    return { parts, remarks: [] };
  }
  const remark = `The final numbers of ${candidates.length} names could be running numbers, ages or replicates: they are left out of the columns.`;
  return { parts: names.map((parts) => [...parts]), remarks: [remark] };
}

/** The number a name ends with, as written; null where it has none, or names its replicate by itself. */
function finalNumber(parts: readonly NamePart[]): string | null {
  const last = parts.at(-1);
  if (last?.kind !== "word" || !/^\d{1,3}$/.test(last.text)) return null;
  return parts.some(({ kind }) => kind === "replicate") ? null : last.text;
}
