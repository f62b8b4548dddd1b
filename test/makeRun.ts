import type { Run } from "../src/read/types.ts";

/** A run made in memory: `mass(T)` in mg over a programme given as readings. For tests of the stages after reading. */
export function makeRun(
  temperature: ArrayLike<number>,
  mass: ArrayLike<number>,
  options: { time?: ArrayLike<number> | null; massUnit?: "mg" | "%"; resolution?: number; name?: string } = {},
): Run {
  const { time = null, massUnit = "mg", resolution = 0, name = "run" } = options;
  return {
    source: { name },
    temperature: Float64Array.from(temperature),
    mass: Float64Array.from(mass),
    massUnit,
    time: time === null ? null : Float64Array.from(time),
    initialMass: massUnit === "mg" ? (mass[0] ?? null) : null,
    massResolution: resolution,
    temperatureResolution: 0,
    lines: Uint32Array.from(temperature, (_, i) => i + 2),
    metadata: {},
    reading: {
      encoding: "utf-8",
      delimiter: "\t",
      decimal_mark: ".",
      columns: [],
      rows_read: temperature.length,
      rows_dropped: [],
    },
    flags: [],
  };
}

/** Readings at a constant rate from `from` to `to` °C: temperatures and times in s. */
export function ramp(from: number, to: number, options: { rows: number; rate: number; start?: number }) {
  const { rows, rate, start = 0 } = options;
  const temperature = Array.from({ length: rows }, (_, i) => from + ((to - from) * i) / (rows - 1));
  return { temperature, time: temperature.map((T) => start + ((T - from) / rate) * 60) };
}
