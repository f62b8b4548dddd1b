import { type Flag, flag } from "../flags.ts";
import { mostMass } from "../massLimits.ts";
import { checkReadings } from "./checkReadings.ts";
import { harmless } from "./collectDropped.ts";
import { keepReadings } from "./keepReadings.ts";
import { massScale } from "./massScale.ts";
import type { Meaning } from "./meaningOf.ts";
import { readStated } from "./readStated.ts";
import { toSeconds } from "./toSeconds.ts";
import type { DroppedRows, ReadOptions, Run, Table } from "./types.ts";
import { understandColumns } from "./understandColumns.ts";

/** Masses further apart than this share are not the same weighing; common practice, no source. */
const sameMass = 0.02;

/**
 * Makes a run of a table: finds temperature, mass and time, converts them to °C, mg (or % of the initial mass) and s, and leaves
 * out rows in which one of them is missing, counted with their lines. What is odd about the run is flagged, nothing repaired.
 *
 * @returns every number finite, time non-decreasing; arrays of the table are taken over where nothing had to be converted
 * @throws UnreadableError where the columns can't be told (`ambiguous-columns`, `no-temperature`, `no-mass`, `unknown-unit`,
 * `unknown-column`), a change of mass lacks the initial mass (`no-initial-mass`), or fewer than two rows remain (`no-readings`)
 */
export function toRun(table: Table, options: ReadOptions = {}): Run {
  const { columns: overrides = [], initialMass_mg } = options;
  const stated = readStated(table.metadata);
  const knownMass = initialMass_mg ?? stated.initial_mass_mg;
  const understood = understandColumns(table, { overrides, initialMassKnown: knownMass !== null });
  const { columns } = understood;
  const warm = columns[understood.temperature]!;
  const scale = massScale(table, columns, { at: understood.mass, initialMass: knownMass });
  const kept = keepReadings(table, understood, scale);
  const flags: Flag[] = [];
  const dropped = [...table.dropped, ...kept.dropped];
  const lost = dropped.filter(({ reason }) => !harmless.includes(reason));
  if (understood.guesses.length > 0) flags.push(flag("columns-guessed", understood.guesses.join(" ")));
  if (lost.length > 0) flags.push(flag("rows-dropped", lost.map(describe).join("; ")));
  const repeated = dropped.find(({ reason }) => reason === "repeated heading");
  if (repeated !== undefined) {
    flags.push(
      flag("tables-joined", `The heading stands again in line ${repeated.lines.join(", ")}: the tables were joined.`),
    );
  }
  const clock =
    understood.time === null ? null : { column: columns[understood.time]!, cells: table.cells[understood.time]! };
  const timing =
    clock === null || kept.time === null ? { time: null, flags: kept.flags } : toSeconds(kept.time, kept.lines, clock);
  flags.push(...timing.flags);
  const { factor, offset } = warm.known ?? { factor: 1, offset: 0 };
  const temperature = converted(kept.temperature, factor, offset);
  const mass = converted(kept.mass, scale.factor, scale.offset);
  const run: Run = {
    source: { name: table.source.name },
    temperature,
    mass,
    massUnit: scale.unit,
    time: timing.time,
    initialMass: scale.unit === "mg" ? mass[0]! : null,
    massResolution: resolutionOf(table.decimals[understood.mass]!, Math.abs(scale.factor)),
    temperatureResolution: resolutionOf(table.decimals[understood.temperature]!, factor),
    lines: kept.lines,
    metadata: table.metadata,
    reading: {
      encoding: table.encoding,
      delimiter: table.delimiter,
      decimal_mark: table.decimalMark,
      columns: columns.map(asData),
      rows_read: temperature.length,
      rows_dropped: dropped,
      stated,
    },
    flags,
  };
  if (scale.unit === "%")
    flags.push(flag("no-absolute-mass", "The file gives the mass only as a share of the initial mass."));
  flags.push(...checkInitialMass(run, initialMass_mg), ...checkReadings(run));
  return run;
}

/** What the sheet states, what the file states and what the balance first read should be one mass. */
function checkInitialMass({ initialMass, reading: { stated } }: Run, ofSheet: number | undefined): Flag[] {
  const masses: [string, number][] = [];
  if (initialMass !== null) masses.push(["the first reading is", initialMass]);
  if (stated?.initial_mass_mg != null) masses.push(["the file states", stated.initial_mass_mg]);
  if (ofSheet !== undefined) masses.push(["the run sheet states", ofSheet]);
  const values = masses.map(([, mass]) => mass);
  if (masses.length < 2 || Math.max(...values) - Math.min(...values) <= sameMass * Math.max(...values.map(Math.abs)))
    return [];
  const list = masses.map(([who, mass]) => `${who} ${Number(mass.toPrecision(6))} mg`).join(", ");
  return [flag("initial-mass-differs", `The initial masses differ: ${list}.`)];
}

function asData({ number, name, unit, quantity, by, reason, confidence }: Meaning): Run["reading"]["columns"][number] {
  const why = { ...(reason !== undefined && { reason }), ...(confidence !== undefined && { confidence }) };
  return { number, name, unit, quantity, by, ...why };
}

/** factor · value + offset; the same array where that changes nothing. */
function converted(values: Float64Array, factor: number, offset: number): Float64Array {
  if (factor === 1 && offset === 0) return values;
  const result = new Float64Array(values.length);
  // Dividing by 1000 is exact to the last digit, multiplying by 0.001 is not.
  const divisor = Math.abs(factor) < 1 && Number.isInteger(1 / factor) ? 1 / factor : 0;
  if (divisor !== 0) for (let i = 0; i < values.length; i++) result[i] = values[i]! / divisor + offset;
  else for (let i = 0; i < values.length; i++) result[i] = values[i]! * factor + offset;
  return result;
}

/** One unit of the last digit. A single cell such as 1e300 is left out as a reading; its digits must not be the run's either. */
function resolutionOf(decimals: number, factor: number): number {
  return Math.min(factor * Number(`1e${-decimals}`), mostMass);
}

function describe({ reason, count, lines }: DroppedRows): string {
  const list = `${lines.join(", ")}${count > lines.length ? ", …" : ""}`;
  return `${count} ${count === 1 ? "row was" : "rows were"} not read (${reason}): line${count === 1 ? "" : "s"} ${list}`;
}
