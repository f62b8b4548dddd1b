import { expect, test } from "vitest";
import { parseUnit } from "../../src/read/parseUnit.ts";

/** °C, s, mg or % of a written value. */
const converted = (unit: string, value: number): number => {
  const { factor, offset } = parseUnit(unit)!;
  return value * factor + offset;
};

// Fixed points: SI Brochure, 9th edition, 2.3.1 (0 °C = 273.15 K) and NIST SP 811 (2008), B.8 (°F = 1.8 °C + 32).
test.for([
  ["K", 273.15, 0],
  ["K", 373.15, 100],
  ["°F", 32, 0],
  ["°F", 212, 100],
  ["°F", -40, -40],
  ["°C", 25, 25],
] as const)("in %s %d is %d °C", ([unit, value, celsius]) => {
  expect(converted(unit, value)).toBeCloseTo(celsius, 10);
});

test.for([
  ["µg", 1500, 1.5],
  ["g", 0.02, 20],
  ["kg", 2e-5, 20],
  ["ng", 5e5, 0.5],
  ["min", 1.5, 90],
  ["h", 2, 7200],
  ["ms", 250, 0.25],
  ["g/g", 0.75, 75],
  ["mg/mg", 0.75, 75],
] as const)("in %s %d is %d in mg, s or %%", ([unit, value, expected]) => {
  expect(converted(unit, value)).toBeCloseTo(expected, 12);
});

test.for([
  ["temperature", "°C C degC deg C ℃ º C ˚C oC Celsius °c \ufffdC ?C Â°C [°C] (°C) Grad C K kelvin [K] °F F ℉ degF"],
  [
    "time",
    "s sec Sek. seconds Sekunden segundos 秒 min Min. Minuten minutos 分 h hr Std. heures godz. hh:mm:ss h:min:s mm:ss min:s",
  ],
  ["mass", "mg µg μg ug g kg 毫克 [mg] (µg) Milligramm"],
  ["percent", "% wt% wt.% wt.-% Gew.-% Ma.-% mass% pct ％"],
  ["fraction", "g/g mg/mg (g/g) kg/kg"],
  ["derivative", "%/min mg/min %·min⁻¹ %/°C 1/K mg·s-1 µg/min %/K (%/min)"],
  ["heat-flow", "mW W/g mW/mg µV uV/mg µV/mg"],
] as const)("units of %s are known by many spellings: %s", ([dimension, spellings]) => {
  // A blank stands inside a few of them.
  const list = spellings
    .replace(/(deg|º|Grad) C/g, "$1_C")
    .split(" ")
    .map((unit) => unit.replace("_", " "));
  expect(list.map((unit) => [unit, parseUnit(unit)?.dimension])).toEqual(list.map((unit) => [unit, dimension]));
});

test.for([
  "",
  "lb",
  "sample",
  "corr.",
  "x",
  "°",
  "mgg",
  "a very long text that can be no unit at all, whatever it says",
])("'%s' is no unit", (text) => {
  expect(parseUnit(text)).toBeNull();
});
