import type { Curve } from "../curve/types.ts";
import { type Flag, flag } from "../flags.ts";
import type { RunLosses, Weighed } from "../losses/types.ts";
import type { Reference } from "../phases/referenceMass.ts";
import type { Job, SettledProtocol } from "./types.ts";

/** A furnace and a balance that both saw the ignition agree to about this share. */
const AGREE = 0.03;

/** A residue that the run contradicts: more than the specimen weighed, or other than what the run itself shows. */
function residueFlags(residue: number, { ignited, curve }: { ignited: Weighed; curve: Curve }): Flag[] {
  const shown = "missing" in ignited ? null : ignited.value;
  if (residue > curve.initialMass) {
    const sentence = `The residue of the run sheet is ${residue} mg, the specimen weighed ${curve.initialMass.toFixed(3)} mg before heating.`;
    return [flag("residue-differs", sentence)];
  }
  if (shown === null || Math.abs(residue / shown - 1) <= AGREE) return [];
  const sentence = `The residue of the run sheet is ${residue} mg, the run itself shows ${shown.toFixed(3)} mg at the ignition temperature.`;
  return [flag("residue-differs", sentence)];
}

/** The ignited mass of the run; a furnace residue of the run sheet stands in where the run has none. */
export function ignitedFrom(
  runLosses: RunLosses,
  { curve, job, protocol }: { curve: Curve; job: Job; protocol: SettledProtocol },
): { ignited: Reference | { missing: string }; flags: Flag[] } {
  const { ignited, late, flags } = runLosses;
  const { residue_mg: residue, file } = job;
  if (residue !== null && curve.run.massUnit === "mg") {
    // A furnace weighs what the balance's run did not reach: it is the ignited mass, and the run's own flags fall away.
    const relative = protocol.uncertainty.residue_u_mg / residue;
    const terms = [{ cause: "furnace residue", relative, key: `residue:${file}` }];
    return { ignited: { value: residue, weights: null, terms }, flags: residueFlags(residue, { ignited, curve }) };
  }
  if (residue !== null) {
    const sentence = "The run sheet gives residue_mg, but the file has no absolute mass to compare it with.";
    return {
      ignited: "missing" in ignited ? ignited : withLate(ignited),
      flags: [...flags, flag("no-absolute-mass", sentence)],
    };
  }
  return { ignited: "missing" in ignited ? ignited : withLate(ignited), flags };

  // As much again as the end of the heating still lost may be left to lose: a rectangle of that width.
  function withLate({ value, weights }: Exclude<Weighed, { missing: string }>): Reference {
    const relative = Math.max(late, 0) / Math.sqrt(12) / value;
    return { value, weights, terms: [{ cause: "ignition", relative, key: `ignition:${file}` }] };
  }
}
