/** Units that can be converted into one another: the factor to the first of their kind, by their spelling in plain letters. */
const kinds: Record<string, Record<string, number>> = {
  // 1 psi = 6894.757 293 168 Pa: the pound (0.453 592 37 kg), standard gravity (9.806 65 m/s²) and the inch (25.4 mm) are exact
  // (NIST Special Publication 811, 2008, appendix B).
  stress: {
    MPa: 1,
    "N/mm2": 1,
    Pa: 1e-6,
    kPa: 1e-3,
    GPa: 1e3,
    bar: 0.1,
    psi: 0.006894757293168361,
    ksi: 6.894757293168361,
    "kgf/cm2": 0.0980665,
  },
  strain: {
    microstrain: 1,
    "um/m": 1,
    "mm/m": 1e3,
    "%": 1e4,
    permille: 1e3,
    "m/m": 1e6,
    "mm/mm": 1e6,
    "in/in": 1e6,
  },
  length: { mm: 1, um: 1e-3, cm: 10, m: 1e3, in: 25.4 },
  mass: { g: 1, mg: 1e-3, kg: 1e3 },
};

/** Other spellings, in lower case. */
const spellings = new Map<string, string>([
  ["µstrain", "microstrain"],
  ["ustrain", "microstrain"],
  ["microstrains", "microstrain"],
  ["microstrain", "microstrain"],
  ["µε", "microstrain"],
  ["με", "microstrain"],
  ["µe", "microstrain"],
  ["um/m", "um/m"],
  ["percent", "%"],
  ["pct", "%"],
  ["‰", "permille"],
  ["n/mm²", "N/mm2"],
  ["n/mm^2", "N/mm2"],
  ["kgf/cm²", "kgf/cm2"],
  ["kg/cm2", "kgf/cm2"],
  ["kg/cm²", "kgf/cm2"],
  ["inch", "in"],
]);

/** A unit as it is understood. */
export interface PropertyUnit {
  /** As it is written in outputs. */
  unit: string;
  /** `stress`, `strain`, `length`, `mass`; otherwise the unit itself, which converts into nothing. */
  kind: string;
  /** Factor to the first unit of its kind. */
  factor: number;
}

/**
 * What a unit of a property means. `%` is a strain where the property is a change of length; elsewhere a share that converts into
 * nothing, and so is any unit that is not known.
 *
 * @param options `length`: whether the property is a change of length.
 */
export function propertyUnit(written: string, options: { length: boolean }): PropertyUnit {
  const plain = written.trim().replaceAll(/\s+/g, " ");
  const lower = plain.toLowerCase().replaceAll("μ", "µ");
  const spelt = spellings.get(lower) ?? spellings.get(lower.replace("µ", "u")) ?? lower.replace("µ", "u");
  for (const [kind, units] of Object.entries(kinds)) {
    const unit = Object.keys(units).find((known) => known.toLowerCase() === spelt.toLowerCase());
    if (unit === undefined || (unit === "%" && !options.length)) continue;
    return { unit, kind, factor: units[unit]! };
  }
  return { unit: spelt === "%" ? "%" : plain, kind: spelt === "%" ? "%" : plain, factor: 1 };
}

/** Units that convert into this one, for a message. */
export function unitsLike(unit: PropertyUnit): string[] {
  return Object.keys(kinds[unit.kind] ?? {});
}

/** Whether a property is a change of length by its name. */
export function isLengthChange(property: string): boolean {
  return /length|shrink|expan|swell|strain|retrait|schwind/i.test(property);
}
