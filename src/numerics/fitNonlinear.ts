import { differentiate } from "./differentiate.ts";
import { finite } from "./finite.ts";
import { gaussNewton } from "./gaussNewton.ts";
import type { Fit, FitData, FitFailed, FitFailure, FitModel, FitOptions, Linearised } from "./types.ts";

/** Beyond this condition central differences do not tell the parameters apart. */
const HIGHEST_CONDITION = 1e9;
/** A search that gets no nearer has converged if it is so near to the least squares, in standard errors. */
const NEAR = 1e-6;
/** Relative steps below it are rounding: the search ends. */
const ROUNDED_STEP = 1e-12;
/** Residuals of so many units in the last place of the largest y are rounding too: the model meets the data. */
const ROUNDED_RESIDUAL = 64;
/** Below this offset a sum of squares may not show in its digits whether a step was good; the offset itself does. */
const POLISH = 1e-3;
/** One: begin half-way between the steepest descent and the linearised step, which from a poor start leads astray. */
const FIRST_DAMPING = 1;
const LARGEST_DAMPING = 1e14;

/**
 * Least-squares fit of a model that is not linear in its parameters, by the method of Levenberg and Marquardt
 * (D. W. Marquardt, J Soc Ind Appl Math 11:431–441, 1963): linearised steps, damped in units of each parameter's own
 * effect; the damping follows the gain (H. B. Nielsen, report IMM-REP-1999-05, Technical University of Denmark, 1999).
 *
 * A fit is `converged` where the offset of Bates and Watts (Technometrics 23:179–183, 1981) is below the tolerance, or at
 * most 1e-6 where the search gets no nearer, or where the steps are rounding, and all parameters can be told apart; otherwise
 * it has a reason in place of standard errors. Least squares may have several minima: which one is found depends on the
 * start, and no fit knows of a lower one.
 *
 * It is our own because ml-levenberg-marquardt 5.1.0 with its defaults ends Misra1a and Thurber of NIST StRD far from the
 * certified values without a word and gives no standard errors.
 *
 * @param model Parameters → function of x. Where it is not finite the search does not go.
 * @param data x and y of equal length, more values than parameters. Not changed.
 * @returns Parameters, their standard errors and covariance, and the residual standard deviation, in units of the data.
 * @throws {RangeError} Lengths that do not match, or too few values.
 * @throws {TypeError} A number that is not finite.
 *
 * @example
 * ```ts
 * const data = { x: [0, 1, 2, 3, 4, 5], y: [10.1, 6.0, 3.7, 2.2, 1.4, 0.8] };
 * const fit = fitNonlinear(([a = 0, k = 0]) => (x) => a * Math.exp(-k * x), data, { start: [5, 1] });
 * if (!fit.converged || Math.abs(fit.parameters[1]! - 0.5) > 0.02) throw new Error("it halves every 1.4");
 * ```
 */
export function fitNonlinear(model: FitModel, data: FitData, options: FitOptions): Fit {
  const { start, iterations: limit = 500, tolerance = 1e-10 } = options;
  const { x, y, typical } = checked(data, options);
  const df = y.length - start.length;
  const exact = y.length * (ROUNDED_RESIDUAL * Number.EPSILON * largest(y)) ** 2;
  const stand = (parameters: number[]): Stand => {
    const f = model(parameters);
    const residuals = y.map((value, i) => value - f(x[i]!));
    return { parameters, residuals, squares: residuals.reduce((sum, r) => sum + r * r, 0) };
  };
  const linearise = ({ parameters, residuals }: Stand): Linearised | null => {
    const columns = differentiate((at) => x.map(model(at)), parameters, { typical });
    return columns && gaussNewton(columns, residuals);
  };

  let here = stand([...start]);
  let iterations = 0;
  const state = () => ({ parameters: here.parameters, sumOfSquares: here.squares, df, iterations });
  const failed = (reason: FitFailure, message: string): FitFailed => ({
    ...state(),
    converged: false,
    reason,
    message,
    undetermined: [],
  });
  const done = (linear: Linearised): Fit => {
    const { condition, weakest, inverse } = linear;
    if (condition > HIGHEST_CONDITION) {
      const names = `parameter${weakest.length > 1 ? "s" : ""} ${weakest.map((j) => j + 1).join(", ")}`;
      const message = `The data do not determine ${names} (condition ${condition.toPrecision(2)}).`;
      return { ...failed("not-identifiable", message), undetermined: weakest };
    }
    const variance = here.squares / df;
    const covariance = inverse().map((row) => row.map((value) => value * variance));
    const standardErrors = covariance.map((row, j) => Math.sqrt(row[j]!));
    return {
      ...state(),
      converged: true,
      standardErrors,
      covariance,
      residualDeviation: Math.sqrt(variance),
      condition,
    };
  };

  let linear = Number.isFinite(here.squares) ? linearise(here) : null;
  let damping = FIRST_DAMPING;
  let growth = 2;
  while (linear !== null) {
    const { offset } = linear;
    const identifiable = linear.condition <= HIGHEST_CONDITION;
    const whole = linear.step(0);
    const size = (j: number) => Math.max(Math.abs(here.parameters[j]!), typical[j]!);
    const arrived =
      offset <= tolerance ||
      here.squares <= exact ||
      whole.every((change, j) => Math.abs(change) <= ROUNDED_STEP * size(j));
    if (identifiable && arrived) return done(linear);
    if (iterations === limit) {
      if (offset <= Math.max(NEAR, tolerance)) return done(linear);
      const message = `After ${limit} steps the minimum is still ${offset.toPrecision(2)} standard errors away.`;
      return failed("iteration-limit", message);
    }

    // Near the minimum whole steps are taken as long as they bring the offset down.
    if (identifiable && offset < POLISH) {
      const next = stand(moved(here.parameters, whole));
      const after = linearise(next);
      if (after !== null && after.offset < 0.95 * offset) {
        here = next;
        linear = after;
        iterations++;
        continue;
      }
      if (offset <= Math.max(NEAR, tolerance)) return done(linear);
    }

    let next = stand(moved(here.parameters, linear.step(damping)));
    while (!(next.squares < here.squares)) {
      if (damping > LARGEST_DAMPING) {
        if (offset <= NEAR || !identifiable) return done(linear);
        const message = `No step lowers the sum of squares, ${offset.toPrecision(2)} standard errors from the minimum.`;
        return failed("no-descent", message);
      }
      damping *= growth;
      growth *= 2;
      next = stand(moved(here.parameters, linear.step(damping)));
    }
    const gain = Math.min((here.squares - next.squares) / linear.promise(damping), 1.5);
    damping *= Math.max(1 / 10, 1 - (2 * gain - 1) ** 3);
    growth = 2;
    here = next;
    linear = linearise(here);
    iterations++;
  }
  const where = iterations === 0 ? "at the start: start elsewhere" : "where the search went: start elsewhere";
  return failed("model-not-finite", `The model has no finite value or slope ${where}.`);
}

/** A place of the search. */
interface Stand {
  parameters: number[];
  residuals: Float64Array;
  squares: number;
}

function moved(parameters: number[], change: number[]): number[] {
  return parameters.map((value, j) => value + change[j]!);
}

function largest(values: Float64Array): number {
  return values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}

function checked(data: FitData, { start, typical }: FitOptions) {
  const x = Float64Array.from(finite(Array.from(data.x), { atLeast: 1, what: "the x of a fit" }));
  const y = Float64Array.from(finite(Array.from(data.y), { atLeast: 1, what: "the y of a fit" }));
  finite(start, { atLeast: 1, what: "the start of a fit" });
  if (x.length !== y.length) throw new RangeError(`Give a fit as many y as x, not ${y.length} and ${x.length}`);
  if (y.length <= start.length) {
    const count = `${start.length} parameter${start.length > 1 ? "s" : ""}`;
    throw new RangeError(`Give a fit of ${count} at least ${start.length + 1} values, not ${y.length}`);
  }
  const sizes = typical ?? start.map((value) => Math.abs(value) || 1);
  if (sizes.length !== start.length || !sizes.every((size) => size > 0 && Number.isFinite(size))) {
    throw new RangeError(`Give a fit one positive typical size per parameter, not ${sizes.join(", ")}`);
  }
  return { x, y, typical: sizes };
}
