// How the invented runs of the fixtures are made and written.

/** An invented run: water leaves about 110 and 270 °C, carbon dioxide about 700 °C. Time in s, temperature in °C, mass in mg. */
export function inventRun({ rows = 40, from = 25, to = 1000, mass = 20.5, rate = 10, start = 0 } = {}) {
  const step = (T, at, width) => 1 / (1 + Math.exp(-(T - at) / width));
  return Array.from({ length: rows }, (_, i) => {
    const T = from + ((to - from) * i) / (rows - 1);
    const left = 1 - 0.12 * step(T, 110, 12) - 0.06 * step(T, 270, 15) - 0.05 * step(T, 700, 20);
    return { t: start + ((T - from) / rate) * 60, T, m: mass * left };
  });
}

/** Half of the last written digit, with a little room for binary rounding. */
export const half = (decimals) => 0.5 * 10 ** -decimals * 1.0001;

export const withComma = (text) => text.replaceAll(".", ",");

export const utf8 = (text) => Buffer.from(text, "utf8");
export const utf16le = (text) => Buffer.from(text, "utf16le");
export const utf16be = (text) => Buffer.from(text, "utf16le").swap16();
/** The characters of the fixtures that windows-1252 writes in one byte (WHATWG Encoding, index windows-1252). */
export function windows1252(text) {
  const special = { "€": 0x80, "‰": 0x89, "–": 0x96, "’": 0x92, "…": 0x85 };
  return Buffer.from([...text].map((c) => special[c] ?? c.codePointAt(0)));
}

const round = (value) => Number(value.toFixed(9));

/** The expectation of one file: what was written, in °C, s and mg (or %). */
export function expectation(run, { tolerance, columns, ...rest }) {
  const unit = rest.mass_unit ?? "mg";
  const initial = rest.initial_mass_mg === undefined ? (unit === "mg" ? run[0].m : null) : rest.initial_mass_mg;
  const [dT, dm, dt] = tolerance;
  return {
    encoding: "utf-8",
    delimiter: "\t",
    decimal_mark: ".",
    rows_read: run.length,
    rows_dropped: [],
    flags: [],
    stated: { initial_mass_mg: null, heating_rate_K_per_min: null, gas: null },
    metadata: {},
    ...rest,
    mass_unit: unit,
    initial_mass_mg: initial === null ? null : round(initial),
    columns: columns.map(([name, unitWritten, quantity, by = "name"]) => ({ name, unit: unitWritten, quantity, by })),
    tolerance: { temperature_C: dT, mass: dm, time_s: dt ?? null },
    temperature_C: run.map(({ T }) => round(T)),
    mass: run.map(({ m }) => round(m)),
    time_s: dt == null ? null : run.map(({ t }) => round(t - run[0].t)),
  };
}
