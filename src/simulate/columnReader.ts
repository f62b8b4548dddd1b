import { zeroCelsius } from "./constants.ts";
import type { ExportColumn } from "./formatExport.ts";
import type { SimulatedRun } from "./types.ts";

/** The value of one cell in the column's own unit, by row. */
export function columnReader(run: SimulatedRun, column: ExportColumn): (row: number) => number {
  const { mass_mg, temperature_C, true_temperature_C, time_s, model } = run;
  const initial = model.sample_mg;
  switch (column.quantity) {
    case "index":
      return (i) => i + 1;
    case "time": {
      const seconds = factor(column, { s: 1, sec: 1, min: 60, h: 3600 });
      return (i) => time_s[i]! / seconds;
    }
    case "temperature":
      return inTemperatureUnit(column, temperature_C);
    case "programme-temperature":
      return inTemperatureUnit(column, true_temperature_C);
    case "mass": {
      const unit = factor(column, massUnits);
      return (i) => mass_mg[i]! / unit;
    }
    case "mass-change": {
      const unit = factor(column, massUnits);
      return (i) => (mass_mg[i]! - initial) / unit;
    }
    case "mass-percent":
      return (i) => (100 * mass_mg[i]!) / initial;
    case "mass-change-percent":
      return (i) => (100 * (mass_mg[i]! - initial)) / initial;
    case "mass-fraction":
      return (i) => mass_mg[i]! / initial;
    case "derivative": {
      // % of the initial mass per minute, by the difference of neighbouring readings, falling mass negative.
      factor(column, { "%/min": 1 });
      return (i) => {
        const before = Math.max(i - 1, 0);
        const after = Math.min(i + 1, mass_mg.length - 1);
        return ((mass_mg[after]! - mass_mg[before]!) / initial) * (6000 / (time_s[after]! - time_s[before]!));
      };
    }
  }
}

const massUnits = { mg: 1, µg: 1e-3, ug: 1e-3, g: 1e3 };

function inTemperatureUnit(column: ExportColumn, celsius: Float64Array): (row: number) => number {
  const unit = column.unit.replace("°", "");
  if (unit === "K") return (i) => celsius[i]! + zeroCelsius;
  if (unit === "F") return (i) => celsius[i]! * 1.8 + 32;
  factor({ ...column, unit }, { C: 1, "": 1, degC: 1 });
  return (i) => celsius[i]!;
}

/** Size of the column's unit; a column without one is in the first. */
function factor(column: ExportColumn, units: Record<string, number>): number {
  const size = column.unit === "" ? Object.values(units)[0] : units[column.unit];
  if (size === undefined) {
    throw new RangeError(
      `Choose a unit of ${Object.keys(units).join(", ")} for the column "${column.name}", not "${column.unit}"`,
    );
  }
  return size;
}
