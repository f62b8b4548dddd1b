const minutesPer = new Map([
  ["min", 1],
  ["h", 60],
  ["d", 1440],
  ["w", 10080],
]);

const units = new Map(
  Object.entries({
    min: ["min", "mins", "minute", "minutes"],
    h: ["h", "hr", "hrs", "hour", "hours"],
    d: ["d", "day", "days"],
    w: ["w", "wk", "wks", "week", "weeks"],
  }).flatMap(([unit, spellings]) => spellings.map((spelling) => [spelling, minutesPer.get(unit)!] as const)),
);

/** No hydration study is longer: 100 years, in minutes. */
const LONGEST = 36525 * 1440;

/**
 * An age with its unit in whole minutes, the form in which ages are compared.
 *
 * @param text A number with `min`, `h`, `d` or `w`, or their words: `90min`, `4h`, `7 d`, `4 weeks`, `1.5d`.
 * @returns Minutes, rounded to whole ones.
 * @throws SyntaxError where it is not a number with one of these units; RangeError where it is negative or above 100 years.
 *
 * @example
 * ```ts
 * import { parseAge } from "tg-hydrates";
 * if (parseAge("4w") !== 28 * 24 * 60) throw new Error("four weeks are 28 days");
 * ```
 */
export function parseAge(text: string): number {
  const shown = JSON.stringify(text.length > 60 ? `${text.slice(0, 57)}…` : text);
  const found = /^([-+]?(?:\d+(?:\.\d*)?|\.\d+))\s*([a-z]*)\.?$/i.exec(text.trim().replace("\u2212", "-"));
  if (!found) throw new SyntaxError(`Write an age as a number with min, h, d or w, such as 4h or 28d, not ${shown}`);
  const number = Number(found[1]);
  const unit = found[2]!.toLowerCase();
  if (unit === "") throw new SyntaxError(`Give the age a unit (min, h, d or w), such as ${found[1]}d, not ${shown}`);
  const factor = units.get(unit);
  if (factor === undefined) {
    throw new SyntaxError(
      `Write an age in min, h, d or w (a month or a year has no fixed length: write days), not ${shown}`,
    );
  }
  const minutes = Math.round(number * factor);
  if (number < 0 || minutes > LONGEST) {
    throw new RangeError(`Give an age from 0 to 100 years (36525 d), not ${shown}`);
  }
  return minutes;
}
