import { describe, expect, test } from "vitest";
import type { Amount } from "../../src/losses/types.ts";
import type { Measured } from "../../src/measured.ts";
import { amountBases } from "../../src/phases/amountBases.ts";
import { belowDetection } from "../../src/phases/belowDetection.ts";
import { combineTerms } from "../../src/phases/combineTerms.ts";
import { detectionLimit } from "../../src/phases/detectionLimit.ts";
import { phasePerGas } from "../../src/phases/phasePerGas.ts";
import type { Mix, PhaseResult } from "../../src/phases/types.ts";
import { indexRun } from "../../src/protocol/indexRun.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { SettledProtocol } from "../../src/protocol/types.ts";
import { readRun } from "../../src/read/readRun.ts";
import type { Run } from "../../src/read/types.ts";
import { placeReaction } from "../../src/simulate/placeReaction.ts";
import { simulateRun } from "../../src/simulate/simulateRun.ts";
import { analyticFixture } from "../analyticFixtures.ts";
import { makeRun } from "../makeRun.ts";
import { amountOf, codes, parted, protocolOf, row, step, water } from "./amountProtocol.ts";
import { makeMix } from "./makeMix.ts";

const made = new Map<string, Run>();
/** Made when a test first asks for it. */
const fixtureRun = (name: string): Run => {
  const known = made.get(name);
  if (known) return known;
  const { bytes, file } = analyticFixture(name);
  const run = readRun(bytes, { name: file });
  made.set(name, run);
  return run;
};
const termOf = ({ amount }: PhaseResult, key: string) =>
  "missing" in amount ? undefined : amount.terms.find((term) => term.key === key);

describe("mole counts", () => {
  // g of phase per g of water or carbon dioxide, from the abridged standard atomic weights (Prohaska et al., Pure Appl Chem
  // 94:573, 2022): M(phase)/(n·M(gas)) by hand.
  test.for([
    ["ettringite", 26, 2.6795],
    ["ettringite", 20, 3.4834],
    ["ettringite", 32, 2.1771],
    ["monosulfate", 6, 5.7591],
    ["ah3", 3, 2.8866],
    ["portlandite", 1, 4.1128],
    ["calcite", 1, 2.2742],
    ["C6A$3H32", 26, 2.6795],
  ] as const)("%s by %d mol is %d g per g", ([phase, mol_lost, expected]) => {
    expect(phasePerGas({ phase, mol_lost }).factor).toBeCloseTo(expected, 4);
  });

  test("a phase with both gases needs the gas named", () => {
    expect(phasePerGas({ phase: "monocarboaluminate", mol_lost: 11, gas: "H2O" }).factor).toBeCloseTo(2.8685, 4);
    // 568.443/44.009
    expect(phasePerGas({ phase: "monocarboaluminate", mol_lost: 1, gas: "CO2" }).factor).toBeCloseTo(12.9165, 4);
    expect(() => phasePerGas({ phase: "monocarboaluminate", mol_lost: 1 })).toThrow(
      new RangeError("Name the gas: monocarboaluminate loses both H2O (11 mol) and CO2 (1 mol)"),
    );
  });

  test.for([
    [{ phase: "ah3", mol_lost: 4 }, "Give a number of moles above 0 and at most 3, the H2O of ah3, not 4"],
    [{ phase: "ah3", mol_lost: 0 }, "Give a number of moles above 0 and at most 3, the H2O of ah3, not 0"],
    [{ phase: "anhydrite", mol_lost: 1 }, "Choose another phase: anhydrite has no water or carbon dioxide"],
    [{ phase: "ah3", mol_lost: 1, gas: "CO2" }, "Choose another phase: ah3 has no CO2"],
  ] as [Amount, string][])("%j is refused", ([amount, message]) => {
    expect(() => phasePerGas(amount)).toThrow(new RangeError(message));
  });
});

describe("hydroxyl water under AH3 (fixture FX2b: all of it leaves in the window of AH3, k = 1)", () => {
  const run = () => fixtureRun("FX2b");
  const all = { window: "ah3", aft: "aft", afm: "afm", k: 1, u_k: 0, u_k_afm: 0 };

  test("uncorrected, AH3 reads twice what is there, and says so", () => {
    const ah3 = row(indexRun(run(), protocolOf(parted)), "ah3");
    // 29.96 % of the specimen, of which 70.7595 % stay.
    expect(amountOf(ah3.amount)).toBeCloseTo(29.96 / 0.707595, 1);
    expect(codes(ah3)).toContain("hydroxyl-uncorrected");
  });

  test("corrected, AH3, ettringite and monosulfate are the true ones", () => {
    const result = indexRun(run(), protocolOf(parted, { hydroxyl: all }));
    // 15, 40, 10 and 5 % of the specimen over 70.7595 % that stay.
    expect(Math.abs((amountOf(row(result, "ah3").amount) as number) - 21.199)).toBeLessThan(0.003);
    expect(Math.abs((amountOf(row(result, "ettringite").amount) as number) - 56.53)).toBeLessThan(0.003);
    expect(Math.abs((amountOf(row(result, "monosulfate").amount) as number) - 14.132)).toBeLessThan(0.003);
    expect(Math.abs((amountOf(row(result, "calcite").amount) as number) - 7.066)).toBeLessThan(0.003);
    expect(codes(row(result, "ah3"))).toEqual(["hydroxyl-corrected"]);
  });

  test("by a stated share of AFm in the common window the same comes out", () => {
    const together = [step("aft-afm", 50, 230), ...parted.slice(2)];
    // AFt loses 14.9279 % by 26 mol and AFm 1.7364 % by 6 mol (arithmetic of the fixture).
    const afm_share = 1.73635 / (1.73635 + 14.92791);
    const hydroxyl = { window: "ah3", aft_afm: "aft-afm", afm_share, u_afm_share: 0.05, k: 1 };
    const ah3 = row(indexRun(run(), protocolOf(together, { hydroxyl })), "ah3");
    expect(Math.abs((amountOf(ah3.amount) as number) - 21.199)).toBeLessThan(0.003);
    // d/dshare = −f·L·(6/6 − 6/26), with L the common loss per 100 g ignited.
    const expected = -2.8866 * ((100 * (1.73635 + 14.92791)) / 70.7595) * (1 - 6 / 26) * 0.05;
    expect(termOf(ah3, "hydroxyl:afm-share")!.effect).toBeCloseTo(expected, 3);
  });

  test("k is uncertain by ± 0.3 and the same error in all runs: one signed term", () => {
    const ah3 = row(
      indexRun(run(), protocolOf(parted, { hydroxyl: { window: "ah3", aft: "aft", afm: "afm" } })),
      "ah3",
    );
    const aft = (100 * 14.92791) / 70.7595;
    const afm = (100 * 1.73635) / 70.7595;
    // Default k = 0.5 leaves half of AFt's hydroxyl water in AH3.
    expect(amountOf(ah3.amount) as number).toBeCloseTo(21.199 + 2.8866 * 0.5 * (6 / 26) * aft, 2);
    expect(termOf(ah3, "hydroxyl:k")!.effect).toBeCloseTo(-2.8866 * 0.3 * (6 / 26) * aft, 3);
    expect(termOf(ah3, "hydroxyl:k-afm")!.effect).toBeCloseTo(-2.8866 * 0.1 * afm, 3);
    if ("missing" in ah3.amount) throw new Error("there is an amount");
    expect(ah3.amount.u).toBeCloseTo(combineTerms(ah3.amount.terms), 12);
    expect(ah3.amount.u!).toBeGreaterThan(4);
  });

  test("with half of AFt's hydroxyl water above the window, k = 0.5 gives the true AH3", () => {
    const moles = (phase: number, M: number, n: number) => (phase * n * 18.015) / M;
    const model = {
      sample_mg: 40,
      reactions: (
        [
          [moles(40, 1255.074, 26), 105],
          [moles(10, 622.506, 6), 190],
          [moles(40, 1255.074, 3), 290],
          [moles(40, 1255.074, 3), 390],
          [moles(10, 622.506, 6), 280],
          [moles(15, 156.006, 3), 275],
        ] as const
      ).map(([loss_pct, peak_C]) => placeReaction({ loss_pct, peak_C, width_C: 12 })),
      programme: { start_C: 25, segments: [{ to_C: 1000, rate_K_per_min: 10 }] },
    };
    const { temperature_C, mass_mg, time_s } = simulateRun(model);
    const protocol = protocolOf(parted, { hydroxyl: { window: "ah3", aft: "aft", afm: "afm" } });
    const result = indexRun(makeRun(temperature_C, mass_mg, { time: time_s }), protocol);
    const residue = 100 - model.reactions.reduce((sum, { loss_pct }) => sum + loss_pct, 0);
    expect(Math.abs((amountOf(row(result, "ah3").amount) as number) - 1500 / residue)).toBeLessThan(0.02);
  });

  test("a campaign that does not part AFt and AFm has no AH3, and says why", () => {
    const protocol: SettledProtocol = {
      ...protocolOf([step("aft-afm", 50, 230), ...parted.slice(2)]),
      settled: { by: "6 runs of 2 regimes", resolved: [{ window: "aft-afm", at_C: null, prominence: null }] },
      corrections: { hydroxyl: { window: "ah3", aft: "aft", afm: "afm" } },
    };
    const ah3 = row(indexRun(run(), settle(protocol)), "ah3");
    expect(ah3.amount).toEqual({ missing: "hydroxyl-refused" });
    expect(ah3.flags.map(({ sentence }) => sentence)).toEqual([
      "The hydroxyl water under ah3 cannot be taken off: AFt and AFm are not parted into aft and afm in this campaign.",
    ]);
  });

  test("a window of AFm without a peak of its own is doubted", () => {
    const protocol = protocolOf([parted[0]!, step("afm", 160, 180, water("monosulfate", 6)), ...parted.slice(2)], {
      hydroxyl: all,
    });
    expect(codes(row(indexRun(run(), protocol), "ah3"))).toContain("afm-unproven");
  });
});

describe("portlandite", () => {
  const windows = [step("ch", 400, 500, water("portlandite", 1)), step("carbonate", 600, 850, water("calcite", 1))];
  const lime = makeMix({ contents: { lime_source: "hydrated lime" } });
  const run = () => fixtureRun("FX1");
  const carbonation = { window: "ch", carbonate: "carbonate" };

  test("is not named without a declared lime source", () => {
    for (const mix of [null, makeMix(), makeMix({ contents: { lime_source: "none" } })]) {
      const ch = row(indexRun(run(), protocolOf(windows), { mix }), "portlandite");
      expect(ch.amount).toEqual({ missing: "no-lime-source" });
      expect(codes(ch)).toEqual(["no-lime-source"]);
    }
  });

  test.for([
    { lime_source: "slaked lime" },
    { alite_pct: 11.7 },
    { hydrated_lime_pct: 4 },
    { Portland_cement_pct: 10 },
  ])("is named with %j", (contents) => {
    const ch = row(indexRun(run(), protocolOf(windows), { mix: makeMix({ contents }) }), "portlandite");
    expect(Math.abs((amountOf(ch.amount) as number) - 27.9254)).toBeLessThan(0.002);
  });

  test("carbon dioxide is not counted as portlandite unless the protocol asks (FX1: 27.925 g, with it 36.195 g)", () => {
    const plain = row(indexRun(run(), protocolOf(windows), { mix: lime }), "portlandite");
    expect(Math.abs((amountOf(plain.amount) as number) - 27.9254)).toBeLessThan(0.002);
    const corrected = row(indexRun(run(), protocolOf(windows, { carbonation }), { mix: lime }), "portlandite");
    expect(Math.abs((amountOf(corrected.amount) as number) - 36.1945)).toBeLessThan(0.003);
    expect(codes(corrected)).toEqual(["carbonation-counted"]);
  });
});

describe("bases", () => {
  const known = (value: number): Measured => ({
    value,
    u: 0.5,
    terms: [{ cause: "noise", effect: 0.5, key: "noise:a" }],
  });
  const mortar = makeMix({
    w_b: 0.5,
    u_w_b: 0.02,
    loi_binder_pct: 7.549,
    u_loi_binder_pct: 0.1,
    sand_binder_ignited: 3,
    u_sand_binder_ignited: 0.03,
  });
  const on = (mix: Mix | null, basis: string) => {
    const found = amountBases(known(5.3763), mix).find((one) => one.basis === basis)!.amount;
    if ("missing" in found) throw new Error(found.missing);
    return found;
  };

  test("of a mortar: ignited binder is its share 1/(1 + s) (fixture FX4: 5.3763 is 21.5054 per 100 g of ignited binder)", () => {
    expect(on(mortar, "ignited-binder").value).toBeCloseTo(21.5052, 3);
    expect(on(mortar, "binder").value).toBeCloseTo(21.5052 * 0.92451, 3);
    expect(on(mortar, "paste").value).toBeCloseTo((21.5052 * 0.92451) / 1.5, 3);
  });

  test("an error of s enters by s/(1 + s), not 1 : 1", () => {
    const { value, terms } = on(mortar, "binder");
    // 1 % of s = 3 is 0.75 % of the amount.
    expect(terms.find(({ key }) => key === "mix:M:sand")!.effect / value).toBeCloseTo(0.0075, 9);
    expect(terms.find(({ key }) => key === "mix:M:loi")!.effect / value).toBeCloseTo(-0.001 / 0.92451, 9);
    expect(terms.some(({ key }) => key === "mix:M:w_b")).toBe(false);
    const paste = on(mortar, "paste");
    expect(paste.terms.find(({ key }) => key === "mix:M:w_b")!.effect / paste.value).toBeCloseTo(-0.02 / 1.5, 9);
    expect(paste.u).toBeCloseTo(combineTerms(paste.terms), 12);
  });

  test("a paste has no basis ignited-binder, and what the mix lacks is missing by its code", () => {
    expect(amountBases(known(1), null)).toEqual([
      { basis: "ignited", amount: known(1) },
      { basis: "binder", amount: { missing: "no-binder-loss" } },
      { basis: "paste", amount: { missing: "no-binder-loss" } },
    ]);
    expect(amountBases(known(1), makeMix({ loi_binder_pct: 0 }))[2]).toEqual({
      basis: "paste",
      amount: { missing: "no-water-ratio" },
    });
    const missing = { missing: "ends-before-ignition" };
    expect(amountBases(missing, mortar).map(({ amount }) => amount)).toEqual(Array(4).fill(missing));
  });

  test("the mix that lacks its water-to-binder ratio is named on the rows per paste, and only there", () => {
    const run = fixtureRun("FX2");
    const rowsOf = (mix: Mix) =>
      indexRun(run, settle(protocols["csa-amounts"], { mean: null }), { job: { role: "specimen" }, mix }).phases;
    const flagged = rowsOf(makeMix({ loi_binder_pct: 4 })).filter(({ flags }) =>
      flags.some(({ code }) => code === "no-water-ratio"),
    );
    expect(flagged.length).toBeGreaterThan(0);
    expect(new Set(flagged.map(({ basis }) => basis))).toEqual(new Set(["paste"]));
    expect(flagged[0]!.flags.find(({ code }) => code === "no-water-ratio")!.sentence).toBe(
      "An amount per 100 g of paste needs the water-to-binder ratio of the mix M.",
    );
    const known = rowsOf(makeMix({ loi_binder_pct: 4, w_b: 0.5 })).flatMap(({ flags }) => flags);
    expect(known.some(({ code }) => code === "no-water-ratio")).toBe(false);
  });

  test("an amount without an ignited mass is missing, and on the basis initial it is there", () => {
    const { bytes, file } = analyticFixture("FX1");
    const text = new TextDecoder().decode(bytes).split("\n");
    // The run stops at about 870 °C.
    const cut = new TextEncoder().encode(text.slice(0, 4350).join("\n"));
    const run = readRun(cut, { name: file });
    const protocol = settle({ ...protocolOf([step("carbonate", 600, 850, water("calcite", 1))]), basis: "initial" });
    const result = indexRun(run, protocol);
    expect(row(result, "calcite").amount).toEqual({ missing: "ends-before-ignition" });
    expect(Math.abs((amountOf(row(result, "calcite", "initial").amount) as number) - 10)).toBeLessThan(0.002);
  });
});

describe("roles", () => {
  const run = () => fixtureRun("FX2");
  const mix = makeMix({ w_b: 0.5, loi_binder_pct: 4, sand_binder_ignited: 3 });
  const bases = (role: "specimen" | "control" | "binder" | "aggregate" | "check" | "blank") =>
    indexRun(run(), settle(protocols.csa), { job: { role }, mix }).phases.map(({ basis }) => basis);

  test("a blank and a reference substance have no phases, the binder no paste and no sand, the aggregate no binder", () => {
    expect(bases("specimen")).toEqual(["ignited", "ignited-binder", "binder", "paste"]);
    expect(bases("control")).toEqual(bases("specimen"));
    expect(bases("binder")).toEqual(["ignited", "binder"]);
    expect(bases("aggregate")).toEqual(["ignited"]);
    expect(bases("check")).toEqual([]);
    expect(bases("blank")).toEqual([]);
  });

  test("under the basis binder the binder's own run has no sand and the aggregate's own is per 100 g of its ignited mass", () => {
    const binder = settle({ ...protocols.csa, basis: "binder" });
    const index = (role: "binder" | "aggregate") => indexRun(run(), binder, { job: { role }, mix }).windows[0]!;
    // 21.8455 % of the initial mass over 70.7595 % residue; the binder's LOI of 4 % takes 0.96.
    expect(amountOf(index("binder").index) as number).toBeCloseTo((0.96 * 2184.55) / 70.7595, 2);
    expect(index("aggregate").basis).toBe("ignited");
    expect(amountOf(index("aggregate").index) as number).toBeCloseTo(2184.55 / 70.7595, 2);
  });
});

describe("detection limit", () => {
  test("a number that rounds to nothing has no sign in what is said", () => {
    const terms = [{ cause: "noise", effect: 0.1, key: "noise:a" }];
    const said = (value: number) =>
      belowDetection({ value, u: 0.1, terms }, { what: "Index", window: "w" })[0]!.sentence;
    expect(said(-0.0004)).toBe("Index: 0.000 g per 100 g is not above the detection limit of 0.329.");
    expect(said(-0.0016)).toContain("Index: -0.002 g");
  });

  test("is 3.29 times the uncertainty of a zero index: noise and buoyancy (Currie 1995), not what is a share of the index", () => {
    const term = (cause: string, effect: number) => ({ cause, effect, key: `${cause}:a` });
    expect(detectionLimit([term("noise", 0.03), term("buoyancy", -0.04), term("ignition", 2)])).toBeCloseTo(
      3.29 * 0.05,
      12,
    );
    expect(detectionLimit([])).toBeNull();
  });

  test("a negative index is kept as it is and flagged", () => {
    const temperature = Float64Array.from({ length: 2000 }, (_, i) => 25 + i * 0.4875);
    const mass = temperature.map((T) => 30 + 0.001 * (T > 300 ? 1 : 0) * Math.min((T - 300) / 100, 1));
    const result = indexRun(makeRun(temperature, mass), settle(protocols.csa));
    const index = result.windows.find(({ window }) => window === "bound-water")!;
    expect(amountOf(index.index) as number).toBeLessThan(0);
    expect(codes(index)).toContain("below-detection");
  });
});

describe("the protocol csa-amounts", () => {
  test("parts AFt and AFm where the campaign does, with their mole counts, and takes hydroxyl water off AH3", () => {
    const csa = protocols["csa-amounts"];
    const claims = csa.windows.flatMap(({ amount, resolve }) => [
      ...(resolve?.amounts ?? []),
      ...(amount ? [amount] : []),
    ]);
    expect(claims).toEqual([water("ettringite", 26), water("monosulfate", 6), water("ah3", 3), water("calcite", 1)]);
    expect(csa.corrections).toEqual({
      hydroxyl: { window: "ah3", aft: "aft", afm: "afm", k: 0.5, u_k: 0.3, k_afm: 1, u_k_afm: 0.1 },
    });
    // The protocol csa corrects nothing and claims no phase but calcite.
    expect(protocols.csa.corrections).toBeUndefined();
    expect(protocols.csa.windows.flatMap(({ amount }) => (amount ? [amount.phase] : []))).toEqual(["calcite"]);
  });
});
