import { describe, expect, test } from "vitest";
import type { ReferenceSubstanceName } from "../../src/chemistry/referenceSubstances.ts";
import { theoreticalSteps } from "../../src/chemistry/theoreticalSteps.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import { checkSubstance } from "../../src/phases/checkSubstance.ts";
import type { SubstanceCheck } from "../../src/phases/checkTypes.ts";
import { partSteps } from "../../src/phases/partSteps.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import { makeRun } from "../makeRun.ts";

interface Recipe {
  /** Position and width of every step, °C. */
  peaks: [peak_C: number, width_C: number][];
  /** The losses are these; @default theory */
  losses?: number[];
  start_C?: number;
  to_C?: number;
  rate?: number;
  noise_ug?: number;
  /** Water that leaves early, %. */
  moisture?: number;
  buoyancy_ug?: number;
}

/** A degree is fine enough for steps that are told to 0.03 %. */
const options = { ...protocols.csa, grid: { step_C: 1 } };

/** A run of 20 mg of a substance; theoretical losses from the atomic weights unless told otherwise. */
function runOf(substance: ReferenceSubstanceName, recipe: Recipe) {
  const { peaks, start_C = 25, to_C = 950, rate = 10, noise_ug = 1, moisture = 0, buoyancy_ug = 0 } = recipe;
  const losses = recipe.losses ?? theoreticalSteps(substance).map(({ lossPct }) => lossPct);
  const reactions = peaks.map(([peak_C, width_C], i) =>
    placeReaction({ loss_pct: losses[i]! * (1 - moisture / 100), peak_C, width_C, rate_K_per_min: rate }),
  );
  if (moisture > 0)
    reactions.push(placeReaction({ loss_pct: moisture, peak_C: 42, width_C: 10, rate_K_per_min: rate }));
  const programme = { start_C, segments: [{ to_C, rate_K_per_min: rate }] };
  const run = simulateRun({ sample_mg: 20, reactions, programme }, { rows: 3000, noise_ug, buoyancy_ug, seed: 11 });
  return toCurve(makeRun(run.temperature_C, run.mass_mg, { time: run.time_s, name: "check.txt" }), options);
}
const oxalate = (recipe: Partial<Recipe> = {}) =>
  checkSubstance(
    runOf("calcium-oxalate-monohydrate", {
      peaks: [
        [175, 30],
        [490, 30],
        [720, 50],
      ],
      ...recipe,
    }),
    "calcium-oxalate-monohydrate",
  );
const verdicts = ({ steps, residue, closure }: SubstanceCheck) =>
  [...steps, residue, closure].map(({ verdict }) => verdict);
const codes = ({ flags }: SubstanceCheck) => flags.map(({ code }) => code);

describe("calcium oxalate monohydrate", () => {
  test("of theoretical losses holds, each step within 0.03 % of theory", () => {
    const check = oxalate();
    expect(check.holds).toBe(true);
    expect(check.steps.map(({ name }) => name)).toEqual(["water", "carbon monoxide", "carbon dioxide"]);
    // From the atomic weights, worked out apart from this code: 12.330, 19.170, 30.120, residue 38.380 %.
    [12.33, 19.17, 30.12].forEach((theory, i) => {
      const { theory_pct, deviation_pct, measured_pct } = check.steps[i]!;
      expect(Math.abs(theory_pct - theory)).toBeLessThan(0.005);
      expect(Math.abs(deviation_pct!)).toBeLessThan(0.03);
      expect("u" in measured_pct && measured_pct.u!).toBeGreaterThan(0);
    });
    expect(Math.abs(check.residue.theory_pct - 38.38)).toBeLessThan(0.005);
    expect(verdicts(check)).toEqual(Array(5).fill("holds"));
    expect(codes(check)).toEqual([]);
    expect(Math.abs(check.steps[0]!.peak_C! - 175)).toBeLessThan(1);
    expect(check.steps[0]!.published_C).toBe(162);
    expect(JSON.parse(JSON.stringify(check))).toEqual(check);
  });

  test("with one step off by half a per cent does not hold, and it is that step", () => {
    const check = oxalate({ losses: [12.33, 19.67, 30.12] });
    expect(check.holds).toBe(false);
    expect(verdicts(check)).toEqual(["holds", "does not hold", "holds", "does not hold", "holds"]);
    expect(check.steps[1]!.deviation_pct).toBeCloseTo(0.5, 1);
  });

  test("judged by another tolerance", () => {
    const curve = runOf("calcium-oxalate-monohydrate", {
      ...{
        losses: [12.33, 19.67, 30.12],
        peaks: [
          [175, 30],
          [490, 30],
          [720, 50],
        ],
      },
    });
    expect(checkSubstance(curve, "calcium-oxalate-monohydrate", { tolerance: 1 }).holds).toBe(true);
    for (const tolerance of [0, -1, Number.NaN]) {
      expect(() => checkSubstance(curve, "calcium-oxalate-monohydrate", { tolerance })).toThrow(
        new RangeError(`Give a tolerance above 0 % of the mass, not ${tolerance}`),
      );
    }
  });

  test("that was moist does not close: what leaves before the first step is not accounted for", () => {
    const check = oxalate({ moisture: 1 });
    expect(check.closure.verdict).toBe("does not hold");
    expect(check.closure.deviation_pct).toBeCloseTo(-1, 1);
    // 1 % less substance: its first step is 0.12 % smaller, and holds.
    expect(check.steps[0]!.verdict).toBe("holds");
    expect(check.holds).toBe(false);
  });

  test("that ends after the second step is judged as far as it goes", () => {
    const check = oxalate({ to_C: 600 });
    expect(check.steps.map(({ verdict }) => verdict)).toEqual(["holds", "holds", "not measured"]);
    expect(check.steps[2]!.measured_pct).toEqual({ missing: "step-not-covered" });
    expect(check.residue.theory_pct).toBeCloseTo(68.5, 2);
    expect(check.holds).toBe(true);
    expect(check.flags.map(({ sentence }) => sentence)).toEqual([
      "The heating from 25 to 600 °C does not show: carbon dioxide.",
    ]);
  });

  test("that ends in the middle of the third step is flagged there, and does not hold", () => {
    const check = oxalate({
      to_C: 785,
      peaks: [
        [175, 30],
        [490, 30],
        [760, 60],
      ],
    });
    expect(check.holds).toBe(false);
    expect(codes(check)).toContain("step-incomplete");
  });

  test("that starts too hot shows nothing, and nothing holds", () => {
    const check = oxalate({ start_C: 140 });
    expect(verdicts(check)).toEqual(Array(5).fill("not measured"));
    expect(check.holds).toBe(false);
    const none = { measured_pct: { missing: "step-not-covered" }, deviation_pct: null, clear: null };
    for (const number of [...check.steps, check.residue, check.closure]) expect(number).toMatchObject(none);
    expect([check.residue.theory_pct, check.closure.theory_pct]).toEqual([100, 100]);
    expect(check.steps.map(({ from_C, to_C, peak_C }) => [from_C, to_C, peak_C])).toEqual(
      Array(3).fill([null, null, null]),
    );
  });

  test("is judged up to the tolerance, that included, and clearly where its uncertainty leaves no doubt", () => {
    const curve = runOf("calcium-oxalate-monohydrate", {
      ...{ losses: [12.33, 19.67, 30.12] },
      peaks: [
        [175, 30],
        [490, 30],
        [720, 50],
      ],
    });
    const by = (tolerance: number) => checkSubstance(curve, "calcium-oxalate-monohydrate", { tolerance });
    const off = Math.abs(by(1).steps[1]!.deviation_pct!);
    expect([by(off).steps[1]!.verdict, by(0.999 * off).steps[1]!.verdict]).toEqual(["holds", "does not hold"]);
    const seen = new Set<boolean | null>();
    for (const tolerance of [0.05, 0.3, 0.5, 1, 2]) {
      for (const { deviation_pct, measured_pct, clear } of [...by(tolerance).steps, by(tolerance).closure]) {
        if ("missing" in measured_pct) throw new Error(measured_pct.missing);
        // Two-sided 95 % of a normal distribution.
        const beyond = Math.abs(Math.abs(deviation_pct!) - tolerance) - 1.96 * (measured_pct.u ?? 0);
        expect(clear).toBe(beyond > 0);
        seen.add(clear);
      }
    }
    expect(seen).toEqual(new Set([true, false]));
  });

  test("has the budget of the protocol csa, or the one it is given, and that of its blank run", () => {
    const curve = runOf("calcium-oxalate-monohydrate", {
      peaks: [
        [175, 30],
        [490, 30],
        [720, 50],
      ],
    });
    const terms = (options: Parameters<typeof checkSubstance>[2]) => {
      const [step] = checkSubstance(curve, "calcium-oxalate-monohydrate", options).steps;
      if ("missing" in step!.measured_pct) throw new Error(step!.measured_pct.missing);
      return step!.measured_pct.terms.map(({ key }) => key);
    };
    const temperature = ["temperature:the balance", "temperature:the balance, squared"];
    expect(terms({})).toEqual(["noise:check.txt", ...temperature, "buoyancy:the balance"]);
    expect(terms({ blank: "empty.txt" })).toEqual(["noise:check.txt", ...temperature, "blank:empty.txt"]);
    expect(terms({ uncertainty: { ...protocols.csa.uncertainty, temperature_u_C: 0 } })).toEqual([
      ...["noise:check.txt", "buoyancy:the balance"],
    ]);
  });

  test("that goes on losing while it is held hot at the end does not close", () => {
    const heated = runOf("calcium-oxalate-monohydrate", {
      peaks: [
        [175, 30],
        [490, 30],
        [720, 50],
      ],
    }).run;
    const last = heated.mass.length - 1;
    const held = (lost_mg: number) => {
      const more = Array.from({ length: 300 }, (_, i) => (i + 1) / 300);
      const run = makeRun(
        [...heated.temperature, ...more.map(() => heated.temperature[last]!)],
        [...heated.mass, ...more.map((share) => heated.mass[last]! - lost_mg * share)],
        { time: [...heated.time!, ...more.map((share) => heated.time![last]! + 600 * share)], name: "check.txt" },
      );
      return checkSubstance(toCurve(run, options), "calcium-oxalate-monohydrate");
    };
    expect(held(0).closure.verdict).toBe("holds");
    // 0.1 of 20 mg.
    expect(held(0.1).closure.deviation_pct! - held(0).closure.deviation_pct!).toBeCloseTo(-0.5, 2);
    expect(held(0.1).residue.verdict).toBe("holds");
  });

  test("with buoyancy of 60 µg stays within what its uncertainty allows", () => {
    const check = oxalate({ buoyancy_ug: 60 });
    for (const { deviation_pct, measured_pct } of check.steps) {
      if ("missing" in measured_pct) throw new Error(measured_pct.missing);
      expect(Math.abs(deviation_pct!)).toBeLessThan(2 * measured_pct.u!);
    }
    expect(check.steps.some(({ clear }) => clear === false)).toBe(true);
  });

  test("warns of carbon monoxide", () => {
    expect(oxalate().cautions.join(" ")).toContain("carbon monoxide");
  });
});

describe("other substances", () => {
  test("copper sulfate to 400 °C: the two first steps run into one another at 10 K/min and are judged as one", () => {
    const curve = runOf("copper-sulfate-pentahydrate", {
      peaks: [
        [88, 25],
        [115, 25],
        [240, 25],
      ],
      to_C: 400,
    });
    const check = checkSubstance(curve, "copper-sulfate-pentahydrate");
    expect(check.steps.map(({ name, verdict }) => [name, verdict])).toEqual([
      ["first two water + second two water", "holds"],
      ["last water", "holds"],
      ["sulfur trioxide", "not measured"],
      ["oxygen", "not measured"],
    ]);
    // 14.431 + 14.431 and 7.215 % (atomic weights).
    expect(Math.abs(check.steps[0]!.theory_pct - 28.862)).toBeLessThan(0.005);
    expect(check.holds).toBe(true);
    expect(codes(check)).toEqual(["step-not-covered", "steps-merged"]);
    expect(check.cautions.join(" ")).toContain("do not calibrate the temperature");
    expect(check.cautions.join(" ")).toContain("Sulfur oxides");
  });

  test("copper sulfate with steps of 8 °C width 45 °C apart: three steps", () => {
    const curve = runOf("copper-sulfate-pentahydrate", {
      peaks: [
        [60, 8],
        [105, 8],
        [220, 12],
      ],
      to_C: 400,
      rate: 1,
    });
    const check = checkSubstance(curve, "copper-sulfate-pentahydrate");
    expect(check.steps.map(({ name }) => name).slice(0, 3)).toEqual([
      "first two water",
      "second two water",
      "last water",
    ]);
    expect(check.holds).toBe(true);
  });

  test("gypsum at 10 K/min: one loss of 20.928 %", () => {
    const curve = runOf("gypsum", {
      peaks: [
        [135, 25],
        [150, 20],
      ],
      to_C: 400,
    });
    const check = checkSubstance(curve, "gypsum");
    expect(check.steps.length).toBe(1);
    expect(Math.abs(check.steps[0]!.theory_pct - 20.928)).toBeLessThan(0.005);
    expect(check.holds).toBe(true);
  });

  test("an impure synthetic gypsum of 16.5 % (65.46–78.84 % pure by its losses) does not hold", () => {
    const curve = runOf("gypsum", {
      losses: [12.4, 4.1],
      peaks: [
        [135, 25],
        [150, 20],
      ],
      to_C: 400,
    });
    const check = checkSubstance(curve, "gypsum");
    expect(check.holds).toBe(false);
    expect(check.steps[0]!.deviation_pct).toBeCloseTo(16.5 - 20.928, 1);
  });

  test("sodium bicarbonate by its published kinetics (Wu and Shih, Thermochim Acta 223:177, 1993) loses 36.916 %", () => {
    const run = simulateRun(
      {
        sample_mg: 10,
        reactions: [{ loss_pct: 36.916, ln_A_per_min: Math.log(6.7e12), E_kJ_mol: 105.8 }],
        programme: { start_C: 25, segments: [{ to_C: 300, rate_K_per_min: 5 }] },
      },
      { rows: 2000, noise_ug: 1 },
    );
    const curve = toCurve(makeRun(run.temperature_C, run.mass_mg, { time: run.time_s }), options);
    const check = checkSubstance(curve, "sodium-bicarbonate");
    expect(check.holds).toBe(true);
    expect(Math.abs(check.steps[0]!.deviation_pct!)).toBeLessThan(0.05);
  });

  test("calcium carbonate taken for calcium oxalate does not hold", () => {
    const curve = runOf("calcium-carbonate", { peaks: [[720, 50]] });
    expect(checkSubstance(curve, "calcium-carbonate").holds).toBe(true);
    expect(checkSubstance(curve, "calcium-oxalate-monohydrate").holds).toBe(false);
  });
});

describe("where a run is parted", () => {
  const gypsum = (start_C: number, to_C: number) =>
    partSteps(
      runOf("gypsum", {
        ...{ start_C, to_C },
        peaks: [
          [115, 12],
          [170, 12],
        ],
      }),
      "gypsum",
    );
  const names = (steps: readonly { name: string }[]) => steps.map(({ name }) => name);

  test("a run shows the steps before its end, if it starts cold enough, these limits included", () => {
    const [first, second] = names(theoreticalSteps("gypsum"));
    expect(names(gypsum(25, 300).missed)).toEqual([]);
    expect(names(gypsum(80, 300).missed)).toEqual([]);
    expect(names(gypsum(80.5, 300).missed)).toEqual([first, second]);
    expect(names(gypsum(25, 200).missed)).toEqual([]);
    expect(names(gypsum(25, 199).missed)).toEqual([second]);
    expect(names(gypsum(25, 150).missed)).toEqual([second]);
    expect(names(gypsum(25, 149).missed)).toEqual([first, second]);
    expect(gypsum(25, 149).flags.map(({ sentence }) => sentence)).toEqual([
      `The heating from 25 to 149 °C does not show: ${first}, ${second}.`,
    ]);
  });

  test("the first step begins where moisture has gone, or where the run does; the last ends with it", () => {
    const edges = (found: ReturnType<typeof gypsum>) => found.groups.map(({ from_C, to_C }) => [from_C, to_C]);
    const whole = edges(gypsum(25, 400));
    expect([whole[0]![0], whole[1]![1]]).toEqual([50, 300]);
    // The plateau between 115 and 170 °C, where one step ends and the next begins.
    expect(whole[0]![1]).toBe(whole[1]![0]);
    expect(Math.abs(whole[0]![1]! - 142)).toBeLessThan(15);
    expect(edges(gypsum(60, 250))[0]![0]).toBe(60);
    expect(edges(gypsum(60, 250))[1]![1]).toBe(250);
  });

  test("before a step that it does not show it ends at the flattest place there is", () => {
    const curve = runOf("copper-sulfate-pentahydrate", {
      ...{ to_C: 400, rate: 1 },
      peaks: [
        [60, 8],
        [105, 8],
        [220, 12],
      ],
    });
    const { groups, flags } = partSteps(curve, "copper-sulfate-pentahydrate");
    expect(groups.length).toBe(3);
    const { to_C } = groups[2]!;
    expect(to_C).toBeGreaterThanOrEqual(290);
    expect(to_C).toBeLessThanOrEqual(400);
    expect(flags.map(({ sentence }) => sentence)).toEqual([
      "The heating from 25 to 400 °C does not show: sulfur trioxide, oxygen.",
    ]);
    // A run that ends where such a place would begin ends there.
    const short = runOf("copper-sulfate-pentahydrate", {
      ...{ to_C: 290, rate: 1 },
      peaks: [
        [60, 8],
        [105, 8],
        [220, 12],
      ],
    });
    expect(partSteps(short, "copper-sulfate-pentahydrate").groups.at(-1)!.to_C).toBe(290);
  });

  test("steps that run into one another are named", () => {
    const curve = runOf("copper-sulfate-pentahydrate", {
      to_C: 400,
      peaks: [
        [88, 25],
        [115, 25],
        [240, 25],
      ],
    });
    expect(partSteps(curve, "copper-sulfate-pentahydrate").flags.map(({ sentence }) => sentence)).toEqual([
      "The heating from 25 to 400 °C does not show: sulfur trioxide, oxygen.",
      "There is no plateau between first two water and second two water.",
    ]);
  });

  test.for([
    [290, 25],
    [150, 25],
  ] as const)("a step that goes on where the run ends, at %d °C, is told with its share", ([to_C, width]) => {
    const curve = runOf("sodium-bicarbonate", { to_C, peaks: [[to_C - 8, width]], noise_ug: 0 });
    const found = partSteps(curve, "sodium-bicarbonate");
    if (to_C < 200) {
      expect(found.groups).toEqual([]);
      return;
    }
    // The mean DTG of the last half smoothing width against the highest.
    const near = curve.dtg.filter((_, k) => Math.abs(curve.temperature[k]! - to_C) <= 5);
    const share = near.reduce((sum, value) => sum + value, 0) / near.length / Math.max(...curve.dtg);
    expect(found.flags.map(({ sentence }) => sentence)).toEqual([
      `At 290 °C the step ${names(theoreticalSteps("sodium-bicarbonate")).join(" + ")} still goes on at ${(100 * share).toFixed(0)} % of its highest DTG.`,
    ]);
    expect(share).toBeGreaterThan(0.02);
  });
});
