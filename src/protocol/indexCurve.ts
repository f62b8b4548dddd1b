import { evaluate } from "../curve/functional.ts";
import { massAt } from "../curve/massAt.ts";
import type { Curve } from "../curve/types.ts";
import { type Flag, flag } from "../flags.ts";
import type { Loss, RunLosses } from "../losses/types.ts";
import type { Measured } from "../measured.ts";
import { indexOf } from "../phases/indexOf.ts";
import { referenceMass } from "../phases/referenceMass.ts";
import type { IndexOptions } from "./indexRun.ts";
import { newJob } from "./newJob.ts";
import { runHead } from "./runHead.ts";
import type { RunDone, SettledProtocol, WindowResult } from "./types.ts";

/**
 * Losses → indices of one run: the reference mass, the flags that only the protocol and the run sheet can raise, and
 * everything the tables say about a run. `indexRun` does it from a run; with a curve at hand its losses can be taken
 * again under another protocol and indexed here.
 */
export function indexCurve(
  curve: Curve,
  runLosses: RunLosses,
  options: IndexOptions & { protocol: SettledProtocol },
): RunDone {
  const { run } = curve;
  const { protocol, mix = null } = options;
  const job = newJob(options.job?.file ?? run.source.name, options.job);
  const { ignited, flags: ignitionFlags } = ignitedFrom(runLosses, curve, job.residue_mg);
  const reference = referenceMass(protocol.basis, { ignited, initial: runLosses.initial, mix });
  const flags = [...run.flags, ...curve.flags, ...ignitionFlags, ...limitFlags(curve, protocol)];
  if ("missing" in reference && reference.missing === "no-binder-loss") {
    const sentence = `The basis binder needs the loss on ignition of the anhydrous binder of the mix ${mix?.mix ?? "(none named)"}.`;
    flags.push(flag("no-binder-loss", sentence));
  }
  const absolute = run.massUnit === "mg";
  const inMg = (mass: Measured): Measured => (absolute ? mass : { missing: "no-absolute-mass" });
  if (!absolute) flags.push(flag("no-absolute-mass", "The file gives the mass in % only: losses in mg are missing."));
  const result = (loss: Loss): WindowResult => {
    const byRule = { step: loss.step, area: loss.area, tangent: loss.tangent }[loss.rule];
    return {
      window: loss.window,
      from_C: loss.from_C,
      to_C: loss.to_C,
      rule: loss.rule,
      basis: protocol.basis,
      loss_mg: inMg(byRule),
      loss_pct_initial: indexOf(byRule, { value: runLosses.initial, u: null, terms: [] }),
      index: indexOf(byRule, reference),
      index_step: indexOf(loss.step, reference),
      index_area: indexOf(loss.area, reference),
      peak_C: loss.peak_C,
      peak_dtg_pct_per_C: loss.peak_dtg === null ? null : (100 * loss.peak_dtg) / runLosses.initial,
      flags: loss.flags,
    };
  };
  const windows = [...runLosses.losses.map(result), ...isothermalLosses(curve).map(result)];
  const whole = windows.every((window) => "value" in window.index);
  const residue = indexOf(ignited, { value: runLosses.initial, u: null, terms: [] });
  return {
    ...runHead(job, run.source.sha256 ?? null),
    status: whole ? "done" : "incomplete",
    balance: job.balance,
    gas: job.gas,
    crucible: job.crucible,
    reading: run.reading,
    rows_read: run.reading.rows_read,
    rows_used: curve.pieces.reduce((sum, piece) => sum + piece.end - piece.first, 0),
    start_C: curve.pieces[0]!.from,
    end_C: curve.pieces.at(-1)!.to,
    initial_mass_mg: absolute ? runLosses.initial : null,
    ignited_mass_mg: inMg(ignited),
    residue_pct: residue,
    loi_pct: "missing" in residue ? residue : { value: 100 - residue.value, u: null, terms: [] },
    heating_rate_K_per_min: curve.heatingRate,
    noise_ug: absolute ? 1000 * curve.noise : null,
    windows,
    flags,
  };
}

/** The ignited mass of the run; a furnace residue of the run sheet stands in where the run has none. */
function ignitedFrom(runLosses: RunLosses, curve: Curve, residue: number | null): { ignited: Measured; flags: Flag[] } {
  if (residue === null) return runLosses;
  // A furnace weighs what the balance's run did not reach: it is the ignited mass, and the run's own flags fall away.
  if (curve.run.massUnit === "mg") return { ignited: { value: residue, u: null, terms: [] }, flags: [] };
  const sentence = "The run sheet gives residue_mg, but the file has no absolute mass to compare it with.";
  return { ignited: runLosses.ignited, flags: [...runLosses.flags, flag("no-absolute-mass", sentence)] };
}

function limitFlags(curve: Curve, { limits, windows }: SettledProtocol): Flag[] {
  const flags: Flag[] = [];
  const rate = curve.heatingRate;
  const [slow, fast] = limits.heating_rate_K_per_min;
  // A rate is known to about a percent: 20.1 K/min is 20 K/min.
  if (rate !== null && (rate < 0.98 * slow || rate > 1.02 * fast)) {
    const sentence = `The heating rate is ${rate.toFixed(1)} K/min; the windows hold for ${slow}–${fast} K/min.`;
    flags.push(flag("heating-rate-outside", sentence));
  }
  const start = curve.run.temperature[0]!;
  if (start > limits.start_max_C) {
    flags.push(flag("starts-warm", `The run starts at ${start.toFixed(0)} °C, above ${limits.start_max_C} °C.`));
  }
  const first = Math.min(...windows.map((window) => window.from_C));
  const mass = massAt(curve, first, "leaving");
  const lost = mass === null ? 0 : 100 * (1 - evaluate(curve, mass) / curve.initialMass);
  if (lost > limits.start_loss_max_pct) {
    const sentence = `${lost.toFixed(2)} % of the initial mass is gone before the first window (${first} °C).`;
    flags.push(flag("starts-undried", sentence));
  }
  return flags;
}

/** The jump of every isothermal inside the heating as a loss of its own, named after its temperature to 5 °C. */
function isothermalLosses(curve: Curve): Loss[] {
  return curve.isothermals
    .filter((hold) => hold.position === "inside")
    .map((hold) => ({
      window: `isothermal-${5 * Math.round(hold.temperature / 5)}`,
      from_C: hold.temperature,
      to_C: hold.temperature,
      rule: "step",
      step: { value: hold.entering - hold.leaving, u: null, terms: [] },
      area: { missing: "isothermal" },
      tangent: { missing: "isothermal" },
      peak_C: null,
      peak_dtg: null,
      flags: [],
    }));
}
