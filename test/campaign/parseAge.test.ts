import { describe, expect, test } from "vitest";
import { ageText } from "../../src/campaign/ageText.ts";
import { parseAge } from "../../src/campaign/parseAge.ts";

describe("an age", () => {
  test.for([
    ["90min", 90],
    ["4h", 4 * 60],
    ["1d", 24 * 60],
    ["4w", 28 * 24 * 60],
    ["7 d", 7 * 24 * 60],
    ["28 Days", 28 * 24 * 60],
    ["1 week", 7 * 24 * 60],
    ["2 hrs", 120],
    ["1.5d", 36 * 60],
    ["0 min", 0],
    [" 3 hours. ", 180],
    // 0.0417 d are 60.048 min: what was typed for one hour is one hour.
    ["0.0417d", 60],
  ] as const)("%s is %i minutes", ([text, minutes]) => {
    expect(parseAge(text)).toBe(minutes);
  });

  test.for([
    ["7", SyntaxError, 'Give the age a unit (min, h, d or w), such as 7d, not "7"'],
    ["", SyntaxError, 'Write an age as a number with min, h, d or w, such as 4h or 28d, not ""'],
    ["d7", SyntaxError, 'Write an age as a number with min, h, d or w, such as 4h or 28d, not "d7"'],
    ["1,5d", SyntaxError, 'Write an age as a number with min, h, d or w, such as 4h or 28d, not "1,5d"'],
    [
      "3 months",
      SyntaxError,
      'Write an age in min, h, d or w (a month or a year has no fixed length: write days), not "3 months"',
    ],
    ["5m", SyntaxError, 'Write an age in min, h, d or w (a month or a year has no fixed length: write days), not "5m"'],
    ["-1d", RangeError, 'Give an age from 0 to 100 years (36525 d), not "-1d"'],
    ["\u22121d", RangeError, 'Give an age from 0 to 100 years (36525 d), not "\u22121d"'],
    ["36526d", RangeError, 'Give an age from 0 to 100 years (36525 d), not "36526d"'],
  ] as const)("%j is refused", ([text, kind, message]) => {
    expect(() => parseAge(text)).toThrow(new kind(message));
    expect(() => parseAge(text)).toThrow(kind);
  });

  test.for([
    [36525 * 1440, "36525d"],
    [28 * 1440, "28d"],
    [36 * 60, "36h"],
    [90, "90min"],
    [0, "0d"],
  ] as const)("%i minutes are written %s, which reads back", ([minutes, text]) => {
    expect(ageText(minutes)).toBe(text);
    expect(parseAge(text)).toBe(minutes);
  });
});
