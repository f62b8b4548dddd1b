import { protocols } from "../protocol/protocols.ts";
import type { Protocol } from "../protocol/types.ts";
import { type TrueMass, trueMass } from "./trueMass.ts";
import type { Model } from "./types.ts";

/** What a window of a model truly loses, by the definitions of the rules. */
export interface TrueIndex {
  window: string;
  from_C: number;
  to_C: number;
  rule: string;
  /** mg, by the rule `step`. */
  step_mg: number;
  /** mg, by the rule `area`. */
  area_mg: number;
  /** g per 100 g of ignited mass. */
  index_step: number;
  index_area: number;
}

/** What a model truly holds for the windows of a protocol. */
export interface TrueIndices {
  /** Mean mass about the ignition temperature, mg. */
  ignited_mg: number;
  windows: TrueIndex[];
}

/**
 * True losses and indices of a model, from its exact mass and the definitions alone: nothing of the pipeline is used.
 * `step` is m(T₁) − m(T₂); `area` takes off ½(s₁ + s₂)(T₂ − T₁), s the slope of the straight line fitted by least squares
 * to the continuous TG over the anchor band about each edge.
 *
 * @param model One heating through all windows, from below the first to above the ignition temperature.
 * @param options `protocol` whose windows and ignition temperature are meant. @default the built-in csa
 * @throws {RangeError} The programme does not reach a temperature that is needed.
 */
export function trueIndices(
  model: Model,
  options: { protocol?: Pick<Protocol, "windows" | "ignition"> } = {},
): TrueIndices {
  const { windows, ignition } = options.protocol ?? protocols.csa;
  const massAt = byTemperature(trueMass(model));
  const around = { centre: ignition.temperature_C, width: 2 * ignition.half_width_C };
  const ignited_mg = integral((_, mass) => mass, massAt, around) / around.width;
  return {
    ignited_mg,
    windows: windows.map(({ name, from_C, to_C, rule, anchor_C = 10 }) => {
      /** −dm/dT of the line that minimises ∫(m − line)²dT over the anchor band. */
      const slope = (centre: number) =>
        (-12 / anchor_C ** 3) * integral((offset, mass) => offset * mass, massAt, { centre, width: anchor_C });
      const step_mg = massAt(from_C) - massAt(to_C);
      const area_mg = step_mg - 0.5 * (slope(from_C) + slope(to_C)) * (to_C - from_C);
      return {
        window: name,
        from_C,
        to_C,
        rule,
        step_mg,
        area_mg,
        index_step: (100 * step_mg) / ignited_mg,
        index_area: (100 * area_mg) / ignited_mg,
      };
    }),
  };
}

function byTemperature(truth: TrueMass): (temperature_C: number) => number {
  return (temperature_C) => {
    const minute = truth.minuteAt(temperature_C);
    if (minute === null) throw new RangeError(`The programme does not reach ${temperature_C} °C`);
    return truth.at(minute).mass_mg;
  };
}

/** ∫ f(T − centre, m(T)) dT over a band, by Simpson's rule with 40 steps: mass is smooth on the scale of a degree. */
function integral(
  f: (offset: number, mass: number) => number,
  massAt: (temperature_C: number) => number,
  band: { centre: number; width: number },
): number {
  const steps = 40;
  const h = band.width / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const offset = (i - steps / 2) * h;
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * f(offset, massAt(band.centre + offset));
  }
  return (sum * h) / 3;
}
