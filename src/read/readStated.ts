import { leastMass, mostMass } from "../massLimits.ts";
import { parseUnit } from "./parseUnit.ts";
import { readCell } from "./readCell.ts";
import { splitHeading } from "./splitHeading.ts";
import type { Stated } from "./types.ts";

const massWord = /mass|weight|einwaage|gewicht|poids|peso|\bmasa|\bwaga|ciężar|质量|重量|質量|试样量|样品量|試料量/i;
/** Masses that are not the sample's own at the start. */
const otherMass =
  /crucible|\bpan\b|tiegel|creuset|crisol|crogiolo|cadinho|tygiel|坩埚|坩堝|るつぼ|refer|loss|change|final|end|residu|verlust|änderung|rest|perte|pérdida|perda|perdita|flow|molar|flux/i;
const rateWord =
  /heating|rate|ramp|heizrate|aufheiz|vitesse|chauff|velocidad|calentamiento|taxa|aquecimento|velocità|riscaldamento|szybkość|grzania|升温|昇温|加热速率/i;
const gasWord = /\bgas|gaz|gás|atmos|purge|spül|ambiente|气氛|氣氛|雰囲気|ガス|气体/i;
const flowOnly = /flow|durchfluss|débit|caudal|vazão|flusso|przepływ|流量|rate|druck|pressure/i;
const rate =
  /([\d.,]+)\s*\(?(?:°|deg\s?|º|˚)?\s*([CKF])\b\s*(?:\/|·|\*|\s|per)?\s*\(?(min|s|h)\b\s*\)?\s*(?:\^?\s*[-−–]\s*1|⁻¹)?/i;

/** No furnace heats faster, K/min: a greater number is a fault of writing. */
const fastest = 1e6;

/**
 * What the lines around a table state: mass of the sample and heating rate (with units only), and the gas.
 *
 * @example
 * ```ts
 * readStated({ "Sample mass": "10.2 mg" }).initial_mass_mg; // 10.2
 * ```
 */
export function readStated(metadata: Record<string, string>): Stated {
  const stated: Stated = { initial_mass_mg: null, heating_rate_K_per_min: null, gas: null };
  for (const [key, value] of Object.entries(metadata)) {
    if (massWord.test(key) && !otherMass.test(key)) stated.initial_mass_mg ??= massIn(key, value);
    if (rateWord.test(key))
      stated.heating_rate_K_per_min ??= rateIn(value) ?? rateIn(`${value} ${splitHeading(key).unit}`);
    if (gasWord.test(key) && !flowOnly.test(key) && /\p{L}/u.test(value)) stated.gas ??= value;
  }
  return stated;
}

/** A mass in mg: `10.2 mg`, or a number under a key that carries the unit. */
function massIn(key: string, value: string): number | null {
  const match = /^([-+\d.,' ]*\d)\s*(\D*)$/.exec(value.trim());
  if (match === null) return null;
  const unit = parseUnit(match[2]!.trim() || splitHeading(key).unit);
  const mass = quantity(match[1]!);
  const stated = unit?.dimension === "mass" && mass !== null ? mass * unit.factor : 0;
  return stated >= leastMass && stated <= mostMass ? stated : null;
}

function rateIn(text: string): number | null {
  // ℃ becomes °C.
  const match = rate.exec(text.normalize("NFKC"));
  if (match === null) return null;
  const value = quantity(match[1]!);
  const perMinute = { min: 1, s: 60, h: 1 / 60 }[match[3]!.toLowerCase()]!;
  const kelvin = match[2]!.toUpperCase() === "F" ? 5 / 9 : 1;
  const stated = value === null ? 0 : value * perMinute * kelvin;
  return stated > 0 && stated <= fastest ? stated : null;
}

/** A number with point or comma; the mark of the preamble is not always the table's. */
function quantity(text: string): number | null {
  for (const mark of [".", ","] as const) {
    const cell = readCell(text.trim(), mark);
    if (cell.kind === "number" && !cell.grouped) return cell.value;
  }
  return null;
}
