import { expect, test } from "vitest";
import { readPreamble } from "../../src/read/readPreamble.ts";
import { readStated } from "../../src/read/readStated.ts";

test.for([
  ["Sample mass: 20.5 mg", 20.5],
  ["Sample mass [mg]: 20.5", 20.5],
  ["Initial weight\t0.0205\tg", 20.5],
  ["Einwaage;20,50;mg", 20.5],
  ["# Probenmasse = 20500 µg", 20.5],
  ["Masse initiale : 20,5 mg", 20.5],
  ["Peso de la muestra: 20,5 mg", 20.5],
  ["Masa próbki: 20,5 mg", 20.5],
  ["样品质量：20.5 mg", 20.5],
  ["試料重量: 20.5mg", 20.5],
  // Nothing is taken without a unit, and no other mass.
  ["Sample mass: 20.5", null],
  ["Sample mass: 20.5 lb", null],
  ["Crucible mass: 152.3 mg", null],
  ["Mass loss: 4.2 mg", null],
  ["Molar mass: 258.2 g", null],
] as const)("%s states a mass of %s mg", ([line, mass]) => {
  expect(readStated(readPreamble([line])).initial_mass_mg).toBe(mass);
});

test.for([
  ["Heating rate: 10 K/min", 10],
  ["Heating rate (K/min): 10", 10],
  ["Ramp: 10.0 °C min⁻¹", 10],
  ["Rate\t18 °F/min", 10],
  ["Aufheizrate;2,5;K/min", 2.5],
  ["Heating rate: 600 K/h", 10],
  ["升温速率：10 ℃/min", 10],
  ["Heating rate: 10", null],
  ["Heating rate: 9999999 K/min", null],
  ["Sampling rate: 10 Hz", null],
] as const)("%s states a heating rate of %s K/min", ([line, rate]) => {
  expect(readStated(readPreamble([line])).heating_rate_K_per_min).toBe(rate);
});

test.for([
  ["Gas: nitrogen", "nitrogen"],
  ["Atmosphere = synthetic air, 50 ml/min", "synthetic air, 50 ml/min"],
  ["Spülgas;Stickstoff", "Stickstoff"],
  ["Gas flow: 50 ml/min", null],
  ["Purge: 50", null],
] as const)("%s states the gas %s", ([line, gas]) => {
  expect(readStated(readPreamble([line])).gas).toBe(gas);
});

test("keys are data, whatever they are called; of equal keys the first counts", () => {
  const metadata = readPreamble(["__proto__: 1 x", "constructor: 2 x", "Note: first", "Note: second", "Nothing here"]);
  expect(Object.entries(metadata)).toEqual([
    ["__proto__", "1 x"],
    ["constructor", "2 x"],
    ["Note", "first"],
  ]);
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
});
