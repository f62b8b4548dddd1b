import { expect, test } from "vitest";
import { parseColumns } from "../../src/read/parseColumns.ts";

test.for([
  ["temperature=2", [{ column: "2", quantity: "temperature" }]],
  ["temperature=2:K", [{ column: "2", quantity: "temperature", unit: "K" }]],
  [
    " Temperature = 2 : K ; mass = 4 : mg , time=1:hh:mm:ss ",
    [
      { column: "2", quantity: "temperature", unit: "K" },
      { column: "4", quantity: "mass", unit: "mg" },
      { column: "1", quantity: "time", unit: "hh:mm:ss" },
    ],
  ],
  ['mass="Weight, corr.: 2":µg', [{ column: "Weight, corr.: 2", quantity: "mass", unit: "µg" }]],
  ["mass=Specimen weight", [{ column: "Specimen weight", quantity: "mass" }]],
  ["ignore=3", [{ column: "3", quantity: "other" }]],
  ["", []],
] as const)("%s", ([text, expected]) => {
  expect(parseColumns(text)).toEqual(expected);
});

test.for([
  ["masss=3", '"masss" is no quantity: did you mean mass?'],
  ["mass", 'Write columns as temperature=2:K,mass=4:mg (quantity=column[:unit], column by number or name), not "mass"'],
  ["mass=3,time=3", 'Name every column once: "3" stands twice'],
  ["mass=3:stone", 'Name a known unit (°C, K, °F, s, min, h, mg, µg, g, %), not the one in "mass=3:stone"'],
  [
    "__proto__=3",
    '"__proto__" is no quantity: use one of temperature, time, mass, mass-percent, mass-fraction, mass-change, mass-change-percent, ignore',
  ],
] as const)("%s is refused", ([text, message]) => {
  expect(() => parseColumns(text)).toThrow(new SyntaxError(message));
});
