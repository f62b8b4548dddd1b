import type { Composition } from "./types.ts";

/**
 * Reads a chemical formula: `Ca(OH)2`, `Ca6Al2(SO4)3(OH)12·26H2O`, `CaSO4·0.5H2O`, nested round and square brackets,
 * subscript digits, fractional counts. Water of hydration follows a raised dot (`·`, `•`, `⋅`) or an asterisk. A full stop is
 * only ever a decimal mark, and a formula in which it could be the other (`CaSO4.2H2O`) is refused.
 *
 * Cement shorthand (`C6A$3H32`) is another language: {@link parseShorthand}.
 *
 * @returns Moles of every element, in the order of their first appearance.
 * @throws {SyntaxError} The formula cannot be read; the message names it and the place.
 * Example: `parseFormula("Ca(OH)2")` is `{ Ca: 1, O: 2, H: 2 }`.
 */
export function parseFormula(formula: string): Composition {
  const text = formula.replace(/[₀-₉]/g, (digit) => String(digit.charCodeAt(0) - 0x2080)).replace(/\s+/g, "");
  const fail = (advice: string, at: number): never => {
    throw new SyntaxError(`Formula "${formula}", character ${at + 1}: ${advice}`);
  };
  if (text === "") fail("write at least one element", 0);
  let at = 0;

  const count = (): number | null => {
    const digits = /^\d+(\.\d+)?/.exec(text.slice(at))?.[0];
    if (digits === undefined) return null;
    at += digits.length;
    return Number(digits);
  };

  const groups = (closing: string | null, depth = 0): Composition => {
    if (depth > DEEPEST) fail(`nest at most ${DEEPEST} brackets`, at);
    const sum: Composition = {};
    const first = at;
    while (at < text.length && !hydrateDots.has(text[at]!) && text[at] !== closing) {
      const open = text[at]!;
      let inner: Composition;
      if (open in brackets) {
        const opened = at++;
        const end = brackets[open]!;
        inner = groups(end, depth + 1);
        if (text[at] !== end) fail(`close the bracket "${open}" with "${end}"`, opened);
        at++;
      } else {
        const symbol = /^[A-Z][a-z]?/.exec(text.slice(at))?.[0];
        if (symbol === undefined) return fail(`expected an element or a bracket, not "${open}"`, at);
        at += symbol.length;
        inner = { [symbol]: 1 };
      }
      const counted = at;
      const times = count() ?? 1;
      if (!Number.isInteger(times) && /^\(?H2O\)?$/.test(text.slice(at))) {
        fail('write "·" before the water of hydration: the full stop could be a decimal mark', counted);
      }
      add(sum, inner, times);
    }
    if (at === first) fail("expected an element or a bracket", at);
    return sum;
  };

  const whole: Composition = {};
  for (;;) {
    const times = count() ?? 1;
    add(whole, groups(null), times);
    if (at >= text.length) return whole;
    at++;
  }
}

/** No formula nests deeper, and each level takes its share of the stack. */
const DEEPEST = 50;
const hydrateDots = new Set(["·", "•", "⋅", "∙", "*"]);
const brackets: Record<string, string> = { "(": ")", "[": "]", "{": "}" };

function add(sum: Composition, part: Composition, times: number): void {
  for (const [element, moles] of Object.entries(part)) sum[element] = (sum[element] ?? 0) + moles * times;
}
