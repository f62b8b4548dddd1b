import { type Flag, flag } from "../flags.ts";
import type { Meaning } from "./meaningOf.ts";
import type { CellKind } from "./types.ts";

/** A clock that falls by more than this has passed midnight, s. */
const halfDay = 43_200;
/** No clock of a run goes further, s: thirty thousand years; its differences stay exact to the millisecond. */
const longest = 1e12;
/** Steps backwards in more than this share of the rows: no time. */
const mostBackwards = 0.02;

/**
 * Time in s since the first reading, non-decreasing. A clock goes on past midnight; a time that starts again (segments counted
 * from zero) is counted on; single steps backwards stand still. All of it is flagged.
 */
export function toSeconds(
  written: Float64Array,
  lines: Uint32Array,
  { column, cells }: { column: Meaning; cells: CellKind },
): { time: Float64Array | null; flags: Flag[] } {
  const count = written.length;
  const factor =
    cells === "number"
      ? (column.known?.factor ?? 1)
      : cells === "short-clock" && column.known?.clock === "hours"
        ? 60
        : 1;
  const beyond = written.findIndex((value) => !(Math.abs(value * factor) <= longest));
  if (beyond >= 0) {
    return { time: null, flags: [flag("time-unusable", `The time in line ${lines[beyond]} is impossible.`)] };
  }
  const time = new Float64Array(count);
  const start = written[0]!;
  let offset = 0;
  let repeats = 0;
  let backwards = 0;
  let firstRepeat = 0;
  const restarts: number[] = [];
  for (let i = 1; i < count; i++) {
    const before = time[i - 1]!;
    let now = (written[i]! - start) * factor + offset;
    if (now <= before) {
      const fall = before - now;
      if (fall === 0) {
        if (repeats++ === 0) firstRepeat = lines[i]!;
      } else if (cells !== "number" && cells !== "date" && fall > halfDay && fall <= 2 * halfDay) {
        offset += 86_400;
        now += 86_400;
      } else if (fall > 0.5 * before && before > 0 && i > 1) {
        // As far from the reading before as that one was from its own predecessor.
        offset += before + (before - time[i - 2]!) - now;
        now = before + (before - time[i - 2]!);
        restarts.push(lines[i]!);
      } else {
        backwards++;
        now = before;
      }
    }
    time[i] = now;
  }
  if (time[count - 1] === 0) {
    return { time: null, flags: [flag("time-unusable", `The time stands still in all ${count} rows.`)] };
  }
  if (backwards > mostBackwards * count || restarts.length > mostBackwards * count + 20) {
    const runs = `The time runs backwards in ${backwards + restarts.length} of ${count} rows.`;
    return { time: null, flags: [flag("time-unusable", runs)] };
  }
  const flags: Flag[] = [];
  if (repeats + backwards > 0) {
    const stands = `${repeats + backwards} readings have no later time than the one before`;
    flags.push(flag("time-repeats", `${stands}${repeats > 0 ? `, the first in line ${firstRepeat}` : ""}.`));
  }
  if (restarts.length > 0) {
    flags.push(flag("time-restarts", `The time starts again in line ${restarts.slice(0, 5).join(", ")}.`));
  }
  return { time, flags };
}
