import type { ReferenceSubstanceName } from "../chemistry/referenceSubstances.ts";
import type { Flag } from "../flags.ts";
import type { Measured } from "../measured.ts";

/** `holds`: within the tolerance. `not measured`: the run does not reach it. */
export type CheckVerdict = "holds" | "does not hold" | "not measured";

/** A number held against theory, all in % of the mass at the start. */
export interface CheckedNumber {
  theory_pct: number;
  measured_pct: Measured;
  /** Measured less theory; null where it is not measured. */
  deviation_pct: number | null;
  verdict: CheckVerdict;
  /** Whether the 95 % interval of the deviation lies on one side of the tolerance; null where it is not measured. */
  clear: boolean | null;
}

/** One step, or several that run into one another. */
export interface CheckedStep extends CheckedNumber {
  name: string;
  /** Edges, °C; null where the step is not measured. */
  from_C: number | null;
  to_C: number | null;
  /** DTG maximum, °C. */
  peak_C: number | null;
  /** Published position, °C: for comparison, not judged. */
  published_C: number | null;
}

/** A run of a reference substance held against its theoretical steps. */
export interface SubstanceCheck {
  file: string;
  substance: ReferenceSubstanceName;
  label: string;
  formula: string;
  source: string;
  tolerance_pct: number;
  steps: CheckedStep[];
  /** What is left after the last step that was measured. */
  residue: CheckedNumber;
  /** Mass closure: what the measured steps and the mass at the end of the run add up to; 100 in theory. */
  closure: CheckedNumber;
  /** Whether at least one step was measured and everything that was measured holds. */
  holds: boolean;
  cautions: string[];
  flags: Flag[];
}
