import type { EquivalenceVerdict, Margin } from "../campaign/decisions.ts";
import { equivalence } from "../numerics/equivalence.ts";
import { fieller } from "../numerics/fieller.ts";
import { logRatio } from "../numerics/logRatio.ts";
import { smallestMargin } from "../numerics/smallestMargin.ts";
import { studentCdf } from "../numerics/studentCdf.ts";
import { studentQuantile } from "../numerics/studentQuantile.ts";
import { studentTest } from "../numerics/studentTest.ts";
import type { Pair } from "./pairOf.ts";

/** What two cells say by themselves, before their family is looked at. */
export interface Comparison {
  difference: number;
  lo95: number;
  hi95: number;
  lo90: number;
  hi90: number;
  df: number;
  t: number;
  /** Two-sided, of this comparison alone. */
  p: number;
  ratio_pct: number | null;
  ratio_lo95: number | null;
  ratio_hi95: number | null;
  ratio_by: "log" | "Fieller" | null;
  /** Unit of the quantity. */
  margin: number | null;
  equivalence_verdict: Exclude<EquivalenceVerdict, "one-specimen" | "no-value" | "no-reference">;
}

/** Each of the two one-sided tests. */
const ALPHA = 0.05;

/** Beyond this relative uncertainty the logarithm's first order no longer holds (JCGM 100:2008, 5.1.2, note). */
const LARGEST_RELATIVE = 0.2;

/**
 * Difference, ratio and equivalence of two cells. Intervals are those of this comparison alone; its p belongs to a family.
 *
 * The ratio is taken on the scale of logarithms where values are positive, scatter is in proportion to them and small beside them,
 * otherwise by Fieller's theorem. A margin that is a share δ of the reference is tested in ratio form, value − (1 ± δ) · reference,
 * since the reference is uncertain too. Of a reference that does not differ from zero there is neither ratio nor share.
 */
export function compareCells(pair: Pair, options: { margin?: Margin | null } = {}): Comparison {
  const { value, reference } = pair;
  const difference = value - reference;
  const { se, df } = pair.of(1);
  const test = studentTest(difference, { se, df });
  const narrow = studentTest(difference, { se, df, level: 1 - 2 * ALPHA });
  if ("missing" in test || "missing" in narrow) throw new RangeError("A pair of cells has a standard error");
  const margin = options.margin ?? null;
  const usable = margin !== null && (margin.kind === "value" || isClear(pair, df));
  return {
    difference,
    lo95: test.low,
    hi95: test.high,
    lo90: narrow.low,
    hi90: narrow.high,
    df,
    t: test.t,
    p: test.p,
    ...ratioOf(pair, df),
    margin: usable ? marginHere(margin, reference) : null,
    equivalence_verdict: margin === null ? "no margin given" : usable ? equivalenceOf(pair, margin) : "not shown",
  };
}

/** A margin in the unit of the quantity. */
function marginHere({ kind, size }: Margin, reference: number): number {
  return kind === "value" ? size : size * Math.abs(reference);
}

/** The smallest margin that the pair could have shown with 80 % power, were there no difference; unit of the quantity. */
export function smallestShown(pair: Pair): number {
  const { se, df } = pair.of(1);
  return smallestMargin(se, { df: Math.max(1, df) });
}

function ratioOf(pair: Pair, df: number): Pick<Comparison, "ratio_pct" | "ratio_lo95" | "ratio_hi95" | "ratio_by"> {
  const { value, reference, u, u_reference, covariance, proportional } = pair;
  const none = { ratio_pct: null, ratio_lo95: null, ratio_hi95: null, ratio_by: null };
  // A ratio to what may be zero is no number.
  if (!isClear(pair, df)) return none;
  const small = u <= LARGEST_RELATIVE * value && u_reference <= LARGEST_RELATIVE * reference;
  const ratio_by = proportional && small ? "log" : "Fieller";
  const interval = ratio_by === "log" ? logRatio : fieller;
  const ratio = interval({ value, u }, { value: reference, u: u_reference }, { df, covariance });
  const ratio_pct = (100 * value) / reference;
  if ("missing" in ratio) return { ...none, ratio_pct };
  // Of a value that clearly has the other sign nobody wants the share.
  if (ratio.high < 0) return none;
  return { ratio_pct, ratio_lo95: 100 * ratio.low, ratio_hi95: 100 * ratio.high, ratio_by };
}

/** Whether the reference differs from zero, so that a share of it means something. */
function isClear({ reference, u_reference }: Pair, df: number): boolean {
  return Math.abs(reference) > studentQuantile(0.975, df) * u_reference;
}

const verdicts = { within: "within margin", outside: "outside margin", "not shown": "not shown" } as const;

function equivalenceOf(pair: Pair, { kind, size }: Margin): Comparison["equivalence_verdict"] {
  if (kind === "share") return verdicts[shareVerdict(pair, size)];
  const test = equivalence(pair.value - pair.reference, { ...pair.of(1), margin: size, alpha: ALPHA });
  return "missing" in test ? "not shown" : verdicts[test.verdict];
}

/** The same two one-sided tests with an error of its own at each end, (1 − δ) and (1 + δ) times an uncertain reference. */
function shareVerdict(pair: Pair, share: number): keyof typeof verdicts {
  const beyond = (factor: number): { t: number; df: number } => {
    const { se, df } = pair.of(factor);
    return { t: (pair.value - factor * pair.reference) / se, df };
  };
  // Of a negative reference the larger share is the lower end.
  const side = pair.reference < 0 ? -share : share;
  const low = beyond(1 - side);
  const high = beyond(1 + side);
  const above = ({ t, df }: { t: number; df: number }) => studentCdf(-t, df) <= ALPHA;
  const below = ({ t, df }: { t: number; df: number }) => studentCdf(t, df) <= ALPHA;
  if (above(low) && below(high)) return "within";
  return below(low) || above(high) ? "outside" : "not shown";
}
