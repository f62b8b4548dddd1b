/**
 * A model: parameters → function of x. What depends on the parameters alone is worked out once, before the x come:
 * `([a, k]) => (x) => a * Math.exp(-k * x)`.
 */
export type FitModel = (parameters: readonly number[]) => (x: number) => number;

/** What a model is fitted to. */
export interface FitData {
  x: ArrayLike<number>;
  y: ArrayLike<number>;
}

/** How a model is fitted. */
export interface FitOptions {
  /** Where the search begins, one value per parameter. */
  start: readonly number[];
  /** Size by which a change of each parameter is measured where the parameter itself is near zero. @default |start|, or 1 where that is 0 */
  typical?: readonly number[];
  /** Steps of the search at most. @default 500 */
  iterations?: number;
  /** The search ends when it is so near to the least squares, in standard errors. @default 1e-10 */
  tolerance?: number;
}

/**
 * Why a fit did not converge: steps used up; parameters that the data do not tell apart; no step downhill although the
 * minimum is not reached; a model without a finite value or slope.
 */
export type FitFailure = "iteration-limit" | "not-identifiable" | "no-descent" | "model-not-finite";

/** Where a search ended, whether it converged or not. */
export interface FitState {
  parameters: number[];
  sumOfSquares: number;
  /** Number of values less number of parameters. */
  df: number;
  /** Steps of the search. */
  iterations: number;
}

/** A fit that can be used. */
export interface FitDone extends FitState {
  converged: true;
  /** Of the parameters, from the covariance at the solution. */
  standardErrors: number[];
  covariance: number[][];
  /** √(sum of squares / df): the scatter of one value about the model. */
  residualDeviation: number;
  /** Largest over smallest singular value of the Jacobian with columns of length one. */
  condition: number;
}

/** A fit that cannot be used: it has no standard errors, and its parameters are only where the search stood. */
export interface FitFailed extends FitState {
  converged: false;
  reason: FitFailure;
  /** In words, with the figures. */
  message: string;
  /** Indices of the parameters that the data do not determine; empty with other reasons. */
  undetermined: number[];
}

export type Fit = FitDone | FitFailed;

/** A least-squares problem, linearised where the search stands. */
export interface Linearised {
  /** Change of the parameters for a damping λ: minimises |r − Jδ|² + λ|Dδ|², D the lengths of the columns of J. */
  step(damping: number): number[];
  /** What that change would take off the sum of squares if the model were linear. */
  promise(damping: number): number;
  /** (JᵀJ)⁻¹ */
  inverse(): number[][];
  /** Largest over smallest singular value of J with columns of length one. */
  condition: number;
  /** Parameters without any effect, or those whose joint change has the least effect. */
  weakest: number[];
  /**
   * Root mean square of the residuals along the tangent plane, per parameter, over that across it, per degree of
   * freedom: the distance to the minimum in standard errors (D. M. Bates and D. G. Watts, Technometrics 23:179–183, 1981).
   */
  offset: number;
}
