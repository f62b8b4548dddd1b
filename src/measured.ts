/** One cause of uncertainty of one number (JCGM 100:2008, 4.1). */
export interface Term {
  /** What it is, in words that can stand in a table: `noise`, `temperature`, `buoyancy`. */
  cause: string;
  /** Signed standard uncertainty that the cause brings, in the unit of the value. */
  effect: number;
  /** Equal keys are the same error (`balance:B1`, `blank:b1.txt`, `run:a.txt`); different keys are independent. */
  key: string;
}

/** A number that may be missing: never NaN, never a stand-in zero. */
export type Measured =
  | {
      value: number /** Standard uncertainty, unit of the value; null while nobody has evaluated it. */;
      u: number | null;
      terms: Term[];
    }
  | { /** Code of the flag that says why. */ missing: string };

/** The value, or null where it is missing. */
export function valueOrNull(measured: Measured): number | null {
  return "missing" in measured ? null : measured.value;
}
