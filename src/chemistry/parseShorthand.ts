import { oxides } from "./oxides.ts";

/**
 * Reads cement chemist notation: `C6A$3H32`, `C3A·3C$·H32`, `C1.7SH1.8`. Letters with a bar (S̄, C̄, c̄) are read as `$`
 * and `c`.
 *
 * @returns Moles of every oxide by its letter: `{ C: 6, A: 1, $: 3, H: 32 }`; {@link oxides} says what they are.
 * @throws {SyntaxError} The shorthand cannot be read; the message names it and the place.
 * Example: `parseShorthand("C$H2")` is `{ C: 1, $: 1, H: 2 }`.
 */
export function parseShorthand(shorthand: string): Record<string, number> {
  const text = shorthand
    .normalize("NFD")
    .replace(/S[\u0304\u0305]/g, "$")
    .replace(/[Cc][\u0304\u0305]/g, "c")
    .replace(/[₀-₉]/g, (digit) => String(digit.charCodeAt(0) - 0x2080))
    .replace(/\s+/g, "");
  const fail = (advice: string): never => {
    throw new SyntaxError(`Shorthand "${shorthand}": ${advice}`);
  };
  if (text.includes("-")) fail("write the counts: hyphens, as in C-S-H, mean that the composition varies");
  const moles: Record<string, number> = {};
  for (const part of text.split(/[·•⋅∙*]/)) {
    const [, coefficient, letters] = /^(\d+(?:\.\d+)?)?(.*)$/s.exec(part)!;
    if (letters === "") fail("expected an oxide");
    let rest = letters!;
    while (rest !== "") {
      const token = /^(.)(\d+(?:\.\d+)?)?/u.exec(rest)!;
      const [all, letter, count] = token;
      if (!Object.hasOwn(oxides, letter!)) {
        fail(`"${letter}" is none of ${Object.keys(oxides).join(", ")} (chemical formulas are read by parseFormula)`);
      }
      moles[letter!] = (moles[letter!] ?? 0) + Number(count ?? 1) * Number(coefficient ?? 1);
      rest = rest.slice(all.length);
    }
  }
  return moles;
}
