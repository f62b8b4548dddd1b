import { someNames } from "../campaign/someNames.ts";
import { nearestName } from "../nearestName.ts";
import type { CellKey } from "../protocol/types.ts";
import { cellKey } from "./cellKey.ts";
import { CompareError } from "./compareError.ts";
import { regimeText } from "./regimeText.ts";
import type { Regime } from "./types.ts";

/**
 * The regime that is meant by `CURING` or `CURING:DAYS`. A curing without days stands for whatever days it has, as long as there is
 * one cell of it per mix and age.
 *
 * @param cells All cells that there are.
 * @throws CompareError for an unknown regime, or one that is not one: the message lists the regimes that there are.
 */
export function findRegime(written: string, cells: readonly CellKey[]): Regime {
  const curings = [...new Set(cells.flatMap(({ curing }) => curing ?? []))];
  if (curings.includes(written)) return oneRegime(written, cells);
  const found = /^(.+?):\s*(\d+(?:[.,]\d+)?)\s*d?$/.exec(written.trim());
  const regimes = [...new Set(cells.filter(({ curing }) => curing !== null).map(regimeText))].sort();
  if (found) {
    const curing = found[1]!.trim();
    const curing_d = Number(found[2]!.replace(",", "."));
    if (cells.some((cell) => isRegime(cell, { curing, curing_d }))) return { curing, curing_d };
  }
  if (regimes.length === 0) throw new CompareError("No run has a curing: give the run sheet a column curing.");
  const nearest = nearestName(written, [...regimes, ...curings]);
  const help = nearest === null ? "" : `Did you mean ${nearest}? `;
  throw new CompareError(
    `There is no curing regime ${JSON.stringify(written)}. ${help}There are: ${someNames(regimes, { most: 20 })}.`,
  );
}

/** Whether a cell belongs to a regime. */
export function isRegime(cell: Pick<CellKey, "curing" | "curing_d">, regime: Regime): boolean {
  if (cell.curing !== regime.curing) return false;
  if (regime.curing_d === undefined) return true;
  if (cell.curing_d === null || regime.curing_d === null) return cell.curing_d === regime.curing_d;
  return Number(cell.curing_d.toPrecision(9)) === Number(regime.curing_d.toPrecision(9));
}

function oneRegime(curing: string, cells: readonly CellKey[]): Regime {
  const own = cells.filter((cell) => cell.curing === curing);
  const days = [...new Set(own.map(regimeText))].sort();
  if (days.length === 1) return { curing, curing_d: own[0]!.curing_d };
  // Days that follow the age (cured until the test) leave one cell per mix and age.
  const perAge = new Map<string, string>();
  for (const cell of own) {
    const [mix, , , age] = cellKey(cell);
    const key = JSON.stringify([mix, age]);
    const regime = regimeText(cell);
    if ((perAge.get(key) ?? regime) !== regime) {
      throw new CompareError(`The curing ${curing} has several durations: name one of ${someNames(days)}.`);
    }
    perAge.set(key, regime);
  }
  return { curing };
}
