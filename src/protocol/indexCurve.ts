import type { Curve, Isothermal } from "../curve/types.ts";
import { UnreadableError } from "../errors.ts";
import { flag } from "../flags.ts";
import type { Loss, Rule, RunLosses, Weighed } from "../losses/types.ts";
import { leastMass } from "../massLimits.ts";
import type { Measured } from "../measured.ts";
import { belowDetection } from "../phases/belowDetection.ts";
import { detectionLimit } from "../phases/detectionLimit.ts";
import { type BudgetContext, measureIndex } from "../phases/measureIndex.ts";
import { overlapFlags } from "../phases/overlapFlags.ts";
import { type Reference, referenceMass } from "../phases/referenceMass.ts";
import { ignitedFrom } from "./ignitedFrom.ts";
import type { IndexOptions } from "./indexRun.ts";
import { limitFlags } from "./limitFlags.ts";
import { newJob } from "./newJob.ts";
import { peakResults } from "./peakResults.ts";
import { phaseResults } from "./phaseResults.ts";
import { runHead } from "./runHead.ts";
import { shiftedIndices } from "./shiftedIndices.ts";
import { steepEdges } from "./steepEdges.ts";
import type { Role, RunDone, SettledProtocol, WindowResult } from "./types.ts";

/**
 * Losses → indices of one run: the reference mass, the budgets, the flags that only the protocol and the run sheet can
 * raise, and everything the tables say about a run. `indexRun` does it from a run; with a curve at hand its losses can
 * be taken again under another protocol and indexed here.
 *
 * @throws UnreadableError `no-initial-mass` for a specimen that weighs nothing.
 *
 * @example
 * ```ts
 * import { indexCurve, losses, protocols, readRun, settle, toCurve } from "tg-hydrates";
 * const rows = ["T/°C\tm/mg"];
 * for (let T = 30; T <= 960; T += 0.5) rows.push(`${T}\t${(20 - 2 / (1 + Math.exp((150 - T) / 5))).toFixed(4)}`);
 * const run = readRun(new TextEncoder().encode(rows.join("\n")));
 * const protocol = settle(protocols.csa);
 * const curve = toCurve(run, protocol);
 * const { windows } = indexCurve(curve, losses(curve, protocol), { protocol });
 * const [aft] = windows;
 * if (!("value" in aft!.index) || Math.abs(aft!.index.value - 100 / 9) > 0.01) throw new Error("2 mg of 18 mg ignited");
 * ```
 */
export function indexCurve(
  curve: Curve,
  runLosses: RunLosses,
  options: IndexOptions & { protocol: SettledProtocol },
): RunDone {
  const { run } = curve;
  const job = newJob(options.job?.file ?? run.source.name, options.job);
  if (job.role !== "blank" && !(curve.initialMass >= leastMass)) {
    const message = `the first mass is ${curve.initialMass} ${run.massUnit}: a specimen weighs more than nothing; tare the balance with the empty crucible, or give the role blank in the run sheet`;
    throw new UnreadableError("no-initial-mass", message, { source: job.file });
  }
  const { protocol, mix } = seenFrom(job.role, options);
  const { ignited, flags: ignitionFlags } = ignitedFrom(runLosses, { curve, job, protocol });
  const reference = referenceMass(protocol.basis, { ignited, initial: runLosses.initial, mix });
  const flags = [...run.flags, ...curve.flags];
  if (job.role !== "blank") flags.push(...ignitionFlags, ...limitFlags(curve, protocol));
  if ("missing" in reference && reference.missing === "no-binder-loss") {
    const sentence = `The basis binder needs the loss on ignition of the anhydrous binder of the mix ${mix?.mix ?? "(none named)"}.`;
    flags.push(flag("no-binder-loss", sentence));
  }
  const absolute = run.massUnit === "mg";
  if (!absolute && !flags.some(({ code }) => code === "no-absolute-mass"))
    flags.push(flag("no-absolute-mass", "The file gives the mass in % only: losses in mg are missing."));
  const context: BudgetContext = {
    curve,
    uncertainty: protocol.uncertainty,
    file: job.file,
    balance: job.balance,
    blank: job.blank,
  };
  // An empty crucible has no hydrates: it is read, checked and subtracted elsewhere.
  const empty = job.role === "blank";
  const measured = empty
    ? []
    : [
        ...runLosses.losses.map((loss) => windowResult(context, { loss, reference, protocol })),
        ...curve.isothermals
          .filter((hold) => hold.position === "inside")
          .map((hold) => isothermalResult(curve, { hold, reference, protocol })),
      ];
  const head = runHead(job, run.source.sha256 ?? null);
  const { phases, windowFlags } = phaseResults(context, {
    ...{ runLosses, ignited, protocol, mix, windows: measured },
    role: job.role,
  });
  const touching = mix === null || job.role === "aggregate" ? [] : overlapFlags(measured, mix, head.age_d);
  const further = [...touching, ...windowFlags];
  if (!empty && !("missing" in ignited) && ignited.value > 1.01 * curve.initialMass) {
    const share = ((100 * ignited.value) / curve.initialMass).toFixed(1);
    flags.push(flag("mass-gained", `The ignited mass is ${share} % of the mass before heating.`));
  }
  const windows = measured.map((window) => ({
    ...window,
    flags: [...window.flags, ...further.filter((one) => one.window === window.window)],
  }));
  const fitted = peakResults(context, { spec: empty ? undefined : protocol.peaks, reference });
  const residue: Measured = empty ? { missing: "blank" } : percent(ignited, curve.initialMass);
  return {
    ...head,
    status: windows.every((window) => "value" in window.index) ? "done" : "incomplete",
    balance: job.balance,
    gas: job.gas,
    crucible: job.crucible,
    reading: run.reading,
    rows_read: run.reading.rows_read,
    rows_used: curve.pieces.reduce((sum, piece) => sum + piece.end - piece.first, 0),
    start_C: curve.pieces[0]!.from,
    end_C: curve.pieces.at(-1)!.to,
    initial_mass_mg: absolute ? curve.initialMass : null,
    ignited_mass_mg: absolute ? plain(ignited) : { missing: "no-absolute-mass" },
    residue_pct: residue,
    loi_pct: "missing" in residue ? residue : { value: 100 - residue.value, u: null, terms: [] },
    heating_rate_K_per_min: curve.heatingRate,
    noise_ug: absolute ? 1000 * curve.noise.sd : null,
    windows,
    phases,
    peaks: fitted.peaks,
    flags: [...flags, ...fitted.flags],
  };
}

/**
 * The anhydrous binder's own run has no sand whatever its mix says, and the aggregate's own has no binder to refer to: it is
 * given per 100 g of its own ignited mass.
 */
function seenFrom(role: Role, { protocol, mix = null }: IndexOptions & { protocol: SettledProtocol }) {
  if (role === "binder") return { protocol, mix: mix && { ...mix, sand_binder_ignited: null } };
  if (role === "aggregate" && protocol.basis === "binder") {
    return { protocol: { ...protocol, basis: "ignited" as const }, mix };
  }
  return { protocol, mix };
}

interface Weighing {
  loss: Loss;
  reference: Reference | { missing: string };
  protocol: SettledProtocol;
}

function windowResult(context: BudgetContext, { loss, reference, protocol }: Weighing): WindowResult {
  const { window, peak } = loss;
  const { initialMass, run } = context.curve;
  const byRule = { step: loss.step, area: loss.area, tangent: loss.tangent };
  const bracket = "missing" in loss.step || "missing" in loss.area ? null : loss.step.value - loss.area.value;
  const own = measureIndex(context, { window, rule: window.rule, loss: byRule[window.rule], peak, reference, bracket });
  // The other rules are there to bracket it: their values are enough, and a budget costs more than all the rest.
  const index = (rule: Rule) => (rule === window.rule ? own : plainIndex(byRule[rule], reference));
  const index_step = index("step");
  const index_area = index("area");
  const index_tangent = index("tangent");
  const index_shifted = shiftedIndices(context.curve, loss, reference);
  return {
    window: window.name,
    from_C: window.from_C,
    to_C: window.to_C,
    rule: window.rule,
    basis: protocol.basis,
    loss_mg: run.massUnit === "mg" ? plain(byRule[window.rule]) : { missing: "no-absolute-mass" },
    loss_pct_initial: percent(byRule[window.rule], initialMass),
    index: own,
    index_step,
    index_area,
    index_tangent,
    index_shifted,
    detection_limit: "missing" in own ? null : detectionLimit(own.terms),
    peak_C: peak?.temperature ?? null,
    peak_dtg_pct_per_C: peak === null ? null : (100 * peak.dtg) / initialMass,
    flags: [
      ...loss.flags,
      ...steepEdges(window, own, index_shifted),
      ...belowDetection(own, { what: `Index of ${window.name}`, window: window.name }),
    ],
  };
}

function plainIndex(loss: Weighed, reference: Weighing["reference"]): Measured {
  if ("missing" in loss) return loss;
  if ("missing" in reference) return reference;
  return { value: (100 * loss.value) / reference.value, u: null, terms: [] };
}

/** The jump of an isothermal inside the heating as a row of its own, named after its temperature to 5 °C. */
function isothermalResult(
  curve: Curve,
  { hold, reference, protocol }: { hold: Isothermal } & Omit<Weighing, "loss">,
): WindowResult {
  const loss: Measured = { value: hold.entering - hold.leaving, u: null, terms: [] };
  const index: Measured =
    "missing" in reference ? reference : { value: (100 * loss.value) / reference.value, u: null, terms: [] };
  return {
    window: `isothermal-${5 * Math.round(hold.temperature / 5)}`,
    from_C: hold.temperature,
    to_C: hold.temperature,
    rule: "step",
    basis: protocol.basis,
    loss_mg: curve.run.massUnit === "mg" ? loss : { missing: "no-absolute-mass" },
    loss_pct_initial: percent(loss, curve.initialMass),
    index,
    index_step: index,
    index_area: { missing: "isothermal" },
    index_tangent: { missing: "isothermal" },
    index_shifted: { from_down: null, from_up: null, to_down: null, to_up: null },
    detection_limit: null,
    peak_C: null,
    peak_dtg_pct_per_C: null,
    flags: [],
  };
}

/** A mass without its weights. */
function plain(mass: Weighed | Measured | Reference): Measured {
  return "missing" in mass ? { missing: mass.missing } : { value: mass.value, u: null, terms: [] };
}

function percent(mass: Weighed | Measured | Reference, initial: number): Measured {
  return "missing" in mass ? { missing: mass.missing } : { value: (100 * mass.value) / initial, u: null, terms: [] };
}
