import { ageText } from "./ageText.ts";

/** `28 d`, `6 h`; `unknown age`. */
export function ageWords(age_d: number | null): string {
  return age_d === null ? "unknown age" : ageText(Math.round(age_d * 1440)).replace(/(?<=\d)(?=[a-z])/, " ");
}
