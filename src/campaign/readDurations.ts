import type { NamePart } from "./splitFileName.ts";

type Duration = Extract<NamePart, { kind: "duration" }>;

/** What the durations of one name mean. */
export interface ReadDurations {
  curing_d: number | null;
  /** Whole minutes. */
  age_min: number | null;
  /** Durations, as written, that could be either. */
  undecided: string[];
}

/**
 * Which duration of a name is the age and which that of curing. One alone is the age, unless it is glued to a curing word. Of two, one
 * that stands by a curing word is that of curing, as long as curing never outlasts the age; otherwise the order decides if
 * only one order keeps curing within the age in every name. What remains open stays open.
 *
 * @param names The parts of every name; the decision is one for all of them.
 */
export function readDurations(names: readonly NamePart[][]): { read: ReadDurations[]; remarks: string[] } {
  const all = names.map((parts) => parts.filter((part): part is Duration => part.kind === "duration"));
  const pairs = all.filter((durations) => durations.length === 2);
  const order = orderOf(pairs);
  const read = all.map((durations): ReadDurations => {
    const undecided = { curing_d: null, age_min: null, undecided: durations.map(({ text }) => text) };
    const [first, second] = durations;
    if (first === undefined) return { curing_d: null, age_min: null, undecided: [] };
    if (second === undefined) {
      return first.after === "glued-curing" ? undecided : { curing_d: null, age_min: first.minutes, undecided: [] };
    }
    if (durations.length > 2 || order === null) return undecided;
    const curing = order(first, second);
    const age = curing === first ? second : first;
    return { curing_d: curing.minutes / 1440, age_min: age.minutes, undecided: [] };
  });
  const remarks: string[] = [];
  const open = read.filter(({ undecided }) => undecided.length > 0).length;
  if (open > 0) {
    remarks.push(
      `Durations in ${open} of ${names.length} names could be an age or the length of curing: both columns are blank.`,
    );
  }
  if (pairs.length > 0 && order !== null) {
    const { text } = order(...(pairs[0] as [Duration, Duration]));
    const example = pairs[0]!.map((duration) => duration.text).join(" and ");
    remarks.push(
      `Of two durations in a name one is the length of curing, the other the age: of ${example}, ${text} is curing.`,
    );
  }
  return { read, remarks };
}

type Order = (first: Duration, second: Duration) => Duration;

/** Chooses the duration of curing out of two, or null where nothing tells. */
function orderOf(pairs: readonly Duration[][]): Order | null {
  const byWord: Order = (first, second) => (standsByCuring(first, second) ? first : second);
  const firstCures: Order = (first) => first;
  const secondCures: Order = (_, second) => second;
  const holds = (order: Order): boolean =>
    pairs.every(([first, second]) => {
      const curing = order(first!, second!);
      const age = curing === first ? second! : first!;
      return curing.after !== "age" && curing.minutes <= age.minutes;
    });
  const told = pairs.every(([first, second]) => standsByCuring(first!, second!) !== standsByCuring(second!, first!));
  if (told && holds(byWord)) return byWord;
  const possible = [firstCures, secondCures].filter(holds);
  return possible.length === 1 ? possible[0]! : null;
}

function standsByCuring(one: Duration, other: Duration): boolean {
  return one.after === "curing" || one.after === "glued-curing" || (other.after === "age" && one.after !== "age");
}
