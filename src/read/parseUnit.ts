import { remember } from "./remember.ts";

/** What a unit measures. */
export type Dimension =
  | "temperature"
  | "time"
  | "mass"
  | "percent"
  | "fraction"
  | "none"
  | "derivative"
  | "heat-flow"
  | "other";

/** A unit: value in °C, s, mg or % = factor · written + offset. */
export interface Unit {
  dimension: Dimension;
  factor: number;
  offset: number;
  /** What a clock of two parts counts. */
  clock?: "hours" | "minutes";
}

/** Spellings after {@link foldUnit}; zero of the Celsius scale 273.15 K and 32 °F (SI Brochure 9th ed., 2.3.1; NIST SP 811, B.8). */
const spellings: [Dimension, number, number, string][] = [
  [
    "temperature",
    1,
    0,
    "°c c degc deg_c deg.c degrees_c degree_c grad_c grad gradc cel celsius celcius °celsius deg_celsius degrees_celsius degree_celsius grad_celsius degré_c gradi_c stopnie_c stopni_c 摄氏度 度 oc 0c",
  ],
  ["temperature", 1, -273.15, "k kelvin kelvins °k degk 开尔文 开 ケルビン"],
  ["temperature", 5 / 9, -160 / 9, "°f f degf deg_f degrees_f fahrenheit °fahrenheit 华氏度"],
  [
    "time",
    1,
    0,
    "s sec secs second seconds sek sek. sec. sekunde sekunden seconde secondes segundo segundos seg seg. secondo secondi sekunda sekundy sekund 秒 秒钟",
  ],
  ["time", 60, 0, "min mins min. minute minutes minuten minuto minutos minuti minuta minuty minut 分 分钟 分鐘"],
  [
    "time",
    3600,
    0,
    "h hr hrs hr. hour hours std std. stunde stunden heure heures hora horas ora ore godz godz. godzina godziny godzin 时 小时 小時",
  ],
  ["time", 0.001, 0, "ms msec millisecond milliseconds millisekunden 毫秒 ミリ秒"],
  ["time", 86400, 0, "d day days"],
  [
    "mass",
    1,
    0,
    "mg milligram milligrams milligramm milligramme milligrammes miligramo miligramos miligrama miligramas milligrammo milligrammi miligram miligramy 毫克 ミリグラム",
  ],
  [
    "mass",
    0.001,
    0,
    "µg ug mcg microgram micrograms mikrogramm microgramme microgrammes microgramo microgramos 微克 マイクログラム",
  ],
  ["mass", 1000, 0, "g gram grams gramm gramme grammes gramo gramos grama gramas grammo grammi gramy 克 グラム"],
  ["mass", 1e6, 0, "kg"],
  ["mass", 1e-6, 0, "ng"],
  [
    "percent",
    1,
    0,
    "% percent pct pct. percentage per_cent prozent wt% wt.% wt.-% wt-% wt_% weight% weight_% m% ma% ma.-% ma.% masse% masse-% mass% mass-% mass_% gew% gew.% gew.-% gew-% %m/m %(m/m) %_m/m %w/w %_w/w w/w% mg/100mg g/100g %wt %wt. %_wt %_mass % %masse %masa %massa %peso パーセント 百分比",
  ],
  ["percent", 0.1, 0, "‰"],
  ["fraction", 100, 0, "g/g mg/mg kg/kg µg/µg 1 g_g-1 mg_mg-1 g·g-1 g*g^-1 kg_kg-1 m/m w/w fraction"],
  ["none", 100, 0, "- – —"],
  [
    "heat-flow",
    1,
    0,
    "mw w µw uw w/g mw/mg µw/mg uw/mg mw/g µv uv mv v µv/mg uv/mg µvs/mg w_g-1 mw_mg-1 j/g j j/(g*k) j/(gk) cal/s kw/kg",
  ],
  [
    "other",
    1,
    0,
    "ml/min ml_min-1 cm3/min cm³/min cc/min sccm l/h l/min mbar bar pa kpa hpa psi hz a ma au a.u. rpm °c/min k/min °c_min-1 k_min-1 °c·min-1 k·min-1 °/min ppm",
  ],
];

const known: Map<string, Unit> = new Map(
  spellings.flatMap(([dimension, factor, offset, list]) =>
    list.split(" ").map((spelling) => [spelling.replaceAll("_", " "), { dimension, factor, offset }] as [string, Unit]),
  ),
);

const massPart = "(?:%|wt\\.?-? ?%|µg|ug|mg|g|kg|1|mass-?%|ma\\.?-?%|gew\\.?-?%|mg/mg|g/g|mw|w)";
const perPart = "(?:°c|k|degc|°f|s|sec|min|h|c)";
/** Something per time or per temperature: %/min, mg·s⁻¹, 1/K. */
const derivative = new RegExp(
  `^(?:${massPart} ?/ ?\\(?${perPart}\\)?|${massPart}[ ·*.]?\\(?${perPart}\\)? ?\\^?-1|${perPart} ?\\^?-1|${massPart} per ${perPart}|% ?/ ?\\d+ ?${perPart})$`,
);

/** Longest unit, characters. */
const longest = 40;

/**
 * Understands a unit of temperature, time, mass, share, rate or heat flow in the usual spellings; null where it is none.
 *
 * @example
 * ```ts
 * parseUnit("[µg]"); // { dimension: "mass", factor: 0.001, offset: 0 }
 * ```
 */
export function parseUnit(written: string): Unit | null {
  if (written === "" || written.length > longest) return null;
  return remember(seen, written, understood);
}

/** The same few headings come back with every file. */
const seen = new Map<string, Unit | null>();

function understood(written: string): Unit | null {
  const text = foldUnit(written);
  const unit = known.get(text);
  if (unit !== undefined) return unit;
  if (derivative.test(text)) return { dimension: "derivative", factor: 1, offset: 0 };
  if (/^h+:(m+|min)$/.test(text)) return { dimension: "time", factor: 1, offset: 0, clock: "hours" };
  if (/^(?:(?:d+[.: ])?h+:)?(?:m+|min):(?:s+|sec)(?:[.,][sf0x]+)?$/.test(text)) {
    return { dimension: "time", factor: 1, offset: 0, clock: "minutes" };
  }
  return null;
}

/** One spelling for brackets, degree signs, micro signs, superscripts and blanks. */
function foldUnit(written: string): string {
  let text = written
    .replace(/Â(?=[°µ])/g, "")
    .replace(/[º˚]/g, "°")
    .replace(/\ufffd(?=[CFK]\b)/g, "°")
    .replace(/^\?(?=[CFK]$)/, "°")
    .normalize("NFKC")
    .replace(/[\u2212\u2010-\u2013]/g, "-")
    .replace(/[⋅∙•×]/g, "·")
    .replace(/μ/g, "µ")
    .trim();
  const bracketed = /^[([{<]\s*(.*?)\s*[)\]}>]$/.exec(text);
  if (bracketed !== null) text = bracketed[1]!;
  // "K" is kelvin, "M" would be no unit: case matters nowhere else.
  return text.toLowerCase().replace(/^in /, "").replace(/° +/g, "°").replace(/ +%/g, " %").replace(/\s+/g, " ").trim();
}
