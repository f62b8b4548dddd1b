import { median } from "d3-array";
import type { PlanningAim, PlanningRow } from "../campaign/decisions.ts";
import { findRoot } from "../numerics/findRoot.ts";
import { mean } from "../numerics/mean.ts";
import { powerOfDifference } from "../numerics/powerOfDifference.ts";
import { replicatesFor } from "../numerics/replicatesFor.ts";
import { marginFor } from "./marginFor.ts";
import type { ComparedCell, Margins } from "./types.ts";

const POWER = 0.8;
const ALPHA = 0.05;
/** More specimens per cell nobody makes. */
const MOST = 100;
/** Differences that are asked about besides the stated margin, shares of the mean. */
const SHARES = [0.05, 0.1, 0.2];

/**
 * What the repeatability of a campaign allows to show: the smallest true difference that is found with 80 % power with the specimens
 * there are, and how many specimens per cell a difference needs. For one comparison alone, and for each comparison of a family, each
 * then at 5 % over their number (Bonferroni; Holm's adjustment finds at least as much).
 *
 * @param cells One quantity of one cell each.
 * @param options `comparisons` per quantity: the size of its largest family. @default 1. `margins`: asked about too.
 * @returns One row per quantity whose scatter is known; without shares where they mean nothing.
 *
 * @example
 * ```ts
 * import { parseProperties, planReplicates, propertyCells } from "tg-hydrates";
 * const text = `mix,curing,curing_d,age_d,property,value,unit
 * M1,moist,7,28,strength,38,MPa
 * M1,moist,7,28,strength,40,MPa
 * M1,moist,7,28,strength,42,MPa
 * M1,air,0,28,strength,30,MPa
 * M1,air,0,28,strength,31,MPa
 * M1,air,0,28,strength,33,MPa`;
 * const cells = propertyCells(parseProperties(text, { name: "strength.csv" }).rows);
 * const [plan] = planReplicates(cells);
 * if (plan!.n_now !== 3 || !(plan!.detectable! > plan!.sd)) throw new Error("three specimens show more than their scatter");
 * ```
 */
export function planReplicates(
  cells: readonly ComparedCell[],
  options: { comparisons?: Readonly<Record<string, number>>; margins?: Margins } = {},
): PlanningRow[] {
  const quantities = [...new Set(cells.map(({ quantity }) => quantity))];
  // A map, since a property may be called "constructor".
  const sizes = new Map(Object.entries(options.comparisons ?? {}));
  return quantities.flatMap((quantity): PlanningRow[] => {
    const own = cells.filter((cell) => cell.quantity === quantity);
    const several = own.filter(({ specimens }) => specimens.length > 1);
    const scatter = several[0]?.scatter ?? null;
    if (scatter === null) return [];
    const at = mean(several.map(({ value }) => value!));
    const sd = scatter.a + scatter.b * Math.abs(at);
    if (!(sd > 0)) return [];
    const comparisons = Math.max(1, sizes.get(quantity) ?? 1);
    const n_now = median(several.map(({ specimens }) => specimens.length))!;
    const plan = { sd, df: scatter.df, n: n_now };
    const margin = marginFor(quantity, options.margins ?? []);
    // A share of a mean that is lost in the scatter, or of values of either sign, means nothing.
    const clear = at > 3 * sd && several.every(({ value }) => value! > 0);
    const asked = [
      ...(margin?.kind === "value" ? [margin.size] : []),
      ...(margin?.kind === "share" && clear ? [margin.size * at] : []),
      ...(clear ? SHARES.map((share) => share * at) : []),
    ].filter((difference) => difference > 0);
    const unique = [...new Set(asked.map((difference) => Number(difference.toPrecision(9))))].sort((a, b) => a - b);
    return [
      {
        quantity,
        unit: own[0]!.unit,
        at,
        sd,
        df: scatter.df,
        cells: several.length,
        n_now,
        comparisons,
        detectable: detectable(plan, ALPHA),
        detectable_family: detectable(plan, ALPHA / comparisons),
        aims: unique.map((difference) =>
          aimOf(difference, { sd, at: clear ? at : null, cells: several.length, comparisons }),
        ),
      },
    ];
  });
}

function detectable({ sd, df, n }: { sd: number; df: number; n: number }, alpha: number): number | null {
  const se = sd * Math.sqrt(2 / n);
  const missing = (size: number) => powerOfDifference(size, { se: 1, df, alpha }) - POWER;
  let high = 8;
  while (missing(high) < 0) {
    high *= 2;
    if (high > 900) return null;
  }
  return se * findRoot(missing, { low: 0, high, tolerance: 1e-10 });
}

function aimOf(
  difference: number,
  plan: { sd: number; at: number | null; cells: number; comparisons: number },
): PlanningAim {
  const { sd, at, comparisons } = plan;
  const cells = Math.max(2, plan.cells);
  const need = (alpha: number): number | null => {
    const found = replicatesFor({ difference }, { deviation: sd, cells, power: POWER, alpha, largest: MOST });
    return "missing" in found ? null : found.n;
  };
  return {
    difference,
    difference_pct: at === null ? null : (100 * difference) / at,
    n: need(ALPHA),
    n_family: need(ALPHA / comparisons),
  };
}
