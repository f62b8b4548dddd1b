import { describe, expect, test } from "vitest";
import { gasConstant } from "../../src/simulate/constants.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { scaledE2 } from "../../src/simulate/scaledE2.ts";
import { trueMass } from "../../src/simulate/trueMass.ts";
import type { Model, Programme, Reaction } from "../../src/simulate/types.ts";
import { readReference } from "../readReference.ts";

/** mpmath 1.2.1: test/reference/quantiles.py. */
const { rows: e2 } = readReference<{ scaled_e2: { rows: [number, number][] } }>("quantiles").scaled_e2;

test.for(e2)("exponential integral of order two at %d as mpmath gives it", ([x, exact]) => {
  expect(Math.abs(scaledE2(x) / exact - 1)).toBeLessThan(1e-14);
});

test("exponential integral of what is not positive is refused", () => {
  expect(() => scaledE2(0)).toThrow(new RangeError("The exponential integral needs a positive argument, not 0"));
});

interface Case {
  name: string;
  programme: Programme;
  reactions: Reaction[];
  minutes: number[];
  mass_pct: number[];
}
/** scipy.integrate.solve_ivp 1.10.1: test/reference/forwardModel.py. */
const { cases } = readReference<{ cases: Case[] }>("forwardModel");

test.for(cases.map((one) => [one.name, one] as const))(
  "%s: the closed form agrees with stepwise integration",
  ([, { programme, reactions, minutes, mass_pct }]) => {
    const truth = trueMass({ sample_mg: 100, reactions, programme });
    expect(truth.duration_min).toBeCloseTo(minutes.at(-1)!, 9);
    minutes.forEach((minute, i) => {
      // The integrator stops at 1e-12 relative; for orders below one its corner at the end of the reaction costs digits.
      expect(Math.abs(truth.at(Math.min(minute, truth.duration_min)).mass_mg - mass_pct[i]!)).toBeLessThan(2e-8);
    });
  },
);

interface RunReference {
  sample_mg: number;
  reactions: Reaction[];
  temperatures_C: number[];
  masses_mg: number[];
}
const many = readReference<{ programme: Programme; runs: RunReference[] }>("twentyFourRuns");

test.for(many.runs.map((one, i) => [i + 1, one] as const))(
  "run %i of 24: masses as adaptive quadrature gives them",
  ([, { sample_mg, reactions, temperatures_C, masses_mg }]) => {
    const truth = trueMass({ sample_mg, reactions, programme: many.programme });
    temperatures_C.forEach((temperature, i) => {
      const { mass_mg } = truth.at(truth.minuteAt(temperature)!);
      // SciPy writes the gas constant with ten figures: that alone is some 1e-10 mg.
      expect(Math.abs(mass_mg - masses_mg[i]!)).toBeLessThan(1e-9);
    });
  },
);

const bicarbonate = readReference<{
  E_kJ_mol: number;
  A_per_min: number;
  peaks: { rate_K_per_min: number; peak_C: number }[];
}>("sodiumBicarbonate");

/** Temperature of the largest rate of loss, by golden-section search on differences of the exact mass. */
function peakOf(model: Model, from: number, to: number): number {
  const truth = trueMass(model);
  const slope = (T: number) => {
    const h = 0.02;
    return truth.at(truth.minuteAt(T - h)!).mass_mg - truth.at(truth.minuteAt(T + h)!).mass_mg;
  };
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  while (high - low > 1e-4) {
    const a = high - ratio * (high - low);
    const b = low + ratio * (high - low);
    if (slope(a) > slope(b)) high = b;
    else low = a;
  }
  return 0.5 * (low + high);
}

test.for(bicarbonate.peaks)(
  "sodium bicarbonate by the kinetics of Wu and Shih 1993 peaks where root finding says: %j",
  ({ rate_K_per_min, peak_C }) => {
    const model: Model = {
      sample_mg: 10,
      reactions: [{ loss_pct: 36.916, ln_A_per_min: Math.log(bicarbonate.A_per_min), E_kJ_mol: bicarbonate.E_kJ_mol }],
      programme: { start_C: 25, segments: [{ to_C: 250, rate_K_per_min }] },
    };
    expect(Math.abs(peakOf(model, peak_C - 30, peak_C + 30) - peak_C)).toBeLessThan(0.005);
  },
);

describe("a reaction placed by its peak", () => {
  const heated = (reaction: Reaction, rate: number): Model => ({
    sample_mg: 100,
    reactions: [reaction],
    programme: { start_C: -150, segments: [{ to_C: 1200, rate_K_per_min: rate }] },
  });
  test.for([
    { peak_C: 110, width_C: 35, order: 1, rate_K_per_min: 10 },
    { peak_C: 270, width_C: 40, order: 1.4, rate_K_per_min: 5 },
    { peak_C: 190, width_C: 60, order: 2, rate_K_per_min: 20 },
    { peak_C: 450, width_C: 30, order: 0.6, rate_K_per_min: 10 },
    { peak_C: 720, width_C: 70, order: 1, rate_K_per_min: 10 },
  ])("peaks there with that width at half height: %j", (placement) => {
    const { peak_C, width_C, rate_K_per_min } = placement;
    const reaction = placeReaction({ loss_pct: 30, ...placement });
    const model = heated(reaction, rate_K_per_min);
    expect(Math.abs(peakOf(model, peak_C - 60, peak_C + 40) - peak_C)).toBeLessThan(0.02);

    const truth = trueMass(model);
    const speed = (T: number) =>
      truth.at(truth.minuteAt(T - 0.005)!).mass_mg - truth.at(truth.minuteAt(T + 0.005)!).mass_mg;
    const half = speed(peak_C) / 2;
    let low = peak_C;
    while (speed(low) > half) low -= 0.01;
    let high = peak_C;
    while (speed(high) > half) high += 0.01;
    expect(Math.abs(high - low - width_C)).toBeLessThan(0.05);
  });

  test("with an activation energy obeys Kissinger's equation exactly", () => {
    const { ln_A_per_min } = placeReaction({ loss_pct: 1, peak_C: 110, E_kJ_mol: 80 });
    const peak_K = 383.15;
    const x = 80_000 / (gasConstant * peak_K);
    expect(ln_A_per_min).toBeCloseTo(Math.log((10 * x) / peak_K) + x, 12);
  });

  test.for([
    [{ loss_pct: 1, peak_C: 110 }, "Give either width_C or E_kJ_mol to place a reaction"],
    [{ loss_pct: 1, peak_C: 110, width_C: 30, E_kJ_mol: 80 }, "Give either width_C or E_kJ_mol to place a reaction"],
    [
      { loss_pct: 1, peak_C: 110, width_C: -1 },
      'Give a positive width or energy, rate and absolute temperature, not {"loss_pct":1,"peak_C":110,"width_C":-1}',
    ],
    [{ loss_pct: 1, peak_C: 110, width_C: 30, order: 0 }, "Give a positive order: a reaction of order 0 has no peak"],
    [{ loss_pct: 1, peak_C: 110, width_C: 2000 }, "No reaction of order 1 has a peak at 110 °C that is 2000 °C wide"],
  ] as const)("%j is refused", ([placement, message]) => {
    expect(() => placeReaction(placement)).toThrow(new RangeError(message));
  });
});

test("doubling the heating rate moves ettringite's peak by about 10 K (arithmetic from Kissinger's equation, E 80 kJ/mol)", () => {
  const reaction = placeReaction({ loss_pct: 10, peak_C: 105, E_kJ_mol: 80, rate_K_per_min: 10 });
  const model: Model = {
    sample_mg: 10,
    reactions: [reaction],
    programme: { start_C: 25, segments: [{ to_C: 300, rate_K_per_min: 20 }] },
  };
  expect(Math.abs(peakOf(model, 90, 150) - 105 - 10)).toBeLessThan(1.5);
});

describe("background", () => {
  const model: Model = {
    sample_mg: 50,
    reactions: [],
    background: [{ from_C: 400, to_C: 500, loss_pct_per_C: 0.002 }],
    programme: {
      start_C: 25,
      segments: [
        { to_C: 450, rate_K_per_min: 10 },
        { to_C: 300, rate_K_per_min: 10 },
        { to_C: 600, rate_K_per_min: 10 },
      ],
    },
  };
  const truth = trueMass(model);
  test.for([
    [400, 50],
    [425, 50 * (1 - 0.05 / 100)],
  ] as const)("at %d °C the mass is %d mg", ([temperature, mass]) => {
    expect(truth.at(truth.minuteAt(temperature)!).mass_mg).toBeCloseTo(mass, 10);
  });

  test("does not come back on cooling and goes on where the sample gets hotter than before", () => {
    expect(truth.at(42.5 + 10).mass_mg).toBeCloseTo(50 * (1 - 0.1 / 100), 10);
    expect(truth.at(truth.duration_min).mass_mg).toBeCloseTo(50 * (1 - 0.2 / 100), 10);
  });
});

describe("a model without physical meaning is refused", () => {
  const programme: Programme = { start_C: 25, segments: [{ to_C: 100, rate_K_per_min: 10 }] };
  const reaction: Reaction = { loss_pct: 10, ln_A_per_min: 20, E_kJ_mol: 80 };
  test.for([
    [{ sample_mg: -1, reactions: [], programme }, "Give a mass of zero or more at sample_mg, not -1"],
    [
      { sample_mg: 1, reactions: [{ ...reaction, name: "AFt", E_kJ_mol: 0 }], programme },
      "Give a positive activation energy at reactions[0] (AFt).E_kJ_mol, not 0",
    ],
    [
      { sample_mg: 1, reactions: [{ ...reaction, order: -1 }], programme },
      "Give a reaction order of zero or more at reactions[0].order, not -1",
    ],
    [
      { sample_mg: 1, reactions: [{ ...reaction, ln_A_per_min: Number.NaN }], programme },
      "Give a finite logarithm at reactions[0].ln_A_per_min, not NaN",
    ],
    [
      { sample_mg: 1, reactions: [{ ...reaction, loss_pct: 101 }], programme },
      "The losses add up to 101 % of the sample: at most 100 % can leave",
    ],
    [
      { sample_mg: 1, reactions: [], background: [{ from_C: 50, to_C: 40, loss_pct_per_C: 1 }], programme },
      "background[0] must rise: from_C 50 is not below to_C 40",
    ],
    [
      { sample_mg: 1, reactions: [], programme: { start_C: 25, segments: [] } },
      "Give a programme that heats or holds: it has no segment with a duration",
    ],
    [
      { sample_mg: 1, reactions: [], programme: { start_C: 25, segments: [{ to_C: 100, rate_K_per_min: 0 }] } },
      "Give a positive rate at segments[0].rate_K_per_min, not 0",
    ],
    [
      { sample_mg: 1, reactions: [], programme: { start_C: -300, segments: [] } },
      "Give a temperature above absolute zero at programme.start_C, not -300",
    ],
  ] as [Model, string][])("%j", ([model, message]) => {
    expect(() => trueMass(model)).toThrow(new RangeError(message));
  });
});
