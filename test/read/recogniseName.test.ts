import { expect, test } from "vitest";
import { meaningOf } from "../../src/read/meaningOf.ts";
import { parseUnit } from "../../src/read/parseUnit.ts";
import { splitHeading } from "../../src/read/splitHeading.ts";

const quantityOf = (heading: string): string => {
  const { name, unit } = splitHeading(heading);
  return meaningOf(name, parseUnit(unit)).quantity;
};

// Words of the trade in nine languages, and symbols as in ISO 80000 and IUPAC: quantity/unit.
test.for([
  [
    "temperature",
    "T/K",
    "ϑ/°C",
    "θ_S/°C",
    "Temp. (°C)",
    "temperature_K",
    "Probentemperatur/°C",
    "Temp. muestra (ºC)",
    "Température échantillon (°C)",
    "Temperatura próbki [°C]",
    "温度（℃）",
    "样品温度/℃",
    "試料温度(℃)",
    "SampleTemp",
    "thermocouple (°C)",
  ],
  [
    "furnace-temperature",
    "Ofentemp. [°C]",
    "Furnace T/°C",
    "Temperatura del horno",
    "Temperatura do forno",
    "Temperatura pieca",
    "炉温/℃",
    "Température four (°C)",
  ],
  ["programme-temperature", "Setpoint (°C)", "Sollwert/°C", "T_prog (K)", "Programme temp.", "设定温度", "設定温度"],
  ["reference-temperature", "Ref. temp. (°C)", "Referenztemperatur", "参比温度"],
  [
    "time",
    "t/s",
    "Zeit/min",
    "Temps (min)",
    "Tiempo (s)",
    "Tempo/s",
    "Czas [min]",
    "时间（秒）",
    "時間(分)",
    "Elapsed time (s)",
  ],
  [
    "mass",
    "m/mg",
    "TG/mg",
    "Masse m in mg",
    "Sample mass (mg)",
    "Peso (mg)",
    "Massa [mg]",
    "Masa próbki (mg)",
    "质量/mg",
    "重量(mg)",
    "Mass (corr.) [mg]",
  ],
  ["mass-percent", "m/%", "Weight (%)", "Mass%", "wt%", "Gew.-%", "% mass", "Restmasse/%", "质量（%）", "Mass [wt.%]"],
  [
    "mass-fraction",
    "m/m0",
    "m/m0 (-)",
    "M/Mo",
    "Mass/initial mass",
    "Mass fraction (g/g)",
    "Norm. mass [-]",
    "Fracción másica",
    "Fração mássica",
    "Frazione massica",
    "Ułamek masowy",
    "mass_frac",
  ],
  [
    "mass-change",
    "Δm/mg",
    "Mass loss (mg)",
    "Massenänderung/mg",
    "Variation de masse (mg)",
    "Variazione di massa (mg)",
    "质量变化/mg",
    "重量変化(mg)",
  ],
  [
    "mass-change-percent",
    "Δm/%",
    "Weight loss (%)",
    "Gewichtsverlust/%",
    "Perte de masse (%)",
    "Pérdida de masa [%]",
    "Perda de massa (%)",
    "Ubytek masy (%)",
    "失重率/%",
  ],
  [
    "derivative",
    "dm/dt / mg·s-1",
    "DTG/(%/min)",
    "dTG (%/min)",
    "Deriv. weight (%/°C)",
    "Mass loss rate (1/s)",
    "d(TG)/dT",
    "质量微分",
    "Ableitung",
  ],
  ["heat-flow", "DSC/(mW/mg)", "DTA (µV)", "Heat flow (W/g)", "热流/mW", "Wärmestrom/mW"],
  ["index", "#", "No.", "Index", "lfd. Nr.", "序号"],
  [
    "other",
    "ΔT/K",
    "Error (g/g)",
    "Gas flow (ml/min)",
    "Crucible mass (mg)",
    "Reference mass (mg)",
    "Std dev (mg)",
    "Ratio [-]",
    "Channel 3",
    "Temperature/mg",
    "Pressure (mbar)",
  ],
] as [string, ...string[]][])("%s", ([quantity, ...headings]) => {
  expect(headings.map((heading) => [heading, quantityOf(heading)])).toEqual(
    headings.map((heading) => [heading, quantity]),
  );
});

test.for([
  ["Temperature (°C)", "Temperature", "°C"],
  ["Temperature [°C]", "Temperature", "°C"],
  ["Temperature, °C", "Temperature", "°C"],
  ["Temperature in °C", "Temperature", "°C"],
  ["Temperature °C", "Temperature", "°C"],
  ["Temperature_C", "Temperature", "C"],
  ["Temperature(sample) (°C)", "Temperature(sample)", "°C"],
  ["DTG/%/min", "DTG", "%/min"],
  ["Mass fraction, g/g", "Mass fraction", "g/g"],
  ["温度（℃）", "温度", "℃"],
  ["Channel C", "Channel C", ""],
  ["m/m0", "m/m0", ""],
  ["Mass [stone]", "Mass", "stone"],
  ["Mass (corrected)", "Mass (corrected)", ""],
  ["[mg]", "", "mg"],
] as const)("%s parts into '%s' and '%s'", ([heading, name, unit]) => {
  expect(splitHeading(heading)).toEqual({ name, unit });
});
