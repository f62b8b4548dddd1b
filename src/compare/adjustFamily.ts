import { dunnett } from "../numerics/dunnett.ts";
import { dunnettTail } from "../numerics/dunnettTail.ts";
import { holm } from "../numerics/holm.ts";

/** One comparison of a family. */
export interface FamilyMember {
  t: number;
  /** Two-sided, of this comparison alone. */
  p: number;
  /** Share of its error that comes from the reference's specimens. */
  lambda: number;
  /** Comparisons with one and the same reference cell share its error; others only the estimate of scatter. */
  block: string;
  /** Degrees of freedom of the scatter; null where it is not pooled. */
  scatter_df: number | null;
}

/** Significance of a family. */
export const FAMILY_ALPHA = 0.05;

/** λ is taken to this: it moves an adjusted p by less than 0.0005, and comparisons of one λ are worked out together. */
const LAMBDA_STEP = 0.01;

/**
 * p values of a family, adjusted so that the risk of even one false difference in it is held.
 *
 * `holm` holds whatever the comparisons have in common. `dunnett` counts what comparisons with one reference have in common and is
 * sharper for it; it needs one pooled scatter for all. Errors that cells share through a balance make the comparisons more alike
 * than is counted here, and their degrees of freedom more than those of the scatter: both are on the safe side.
 *
 * @returns Adjusted p in the same order, and the method that was used: Holm's where Dunnett's cannot be.
 */
export function adjustFamily(
  members: readonly FamilyMember[],
  options: {
    adjustment: "holm" | "dunnett";
    /** Whether it is enough to know on which side of 5 % a p lies. @default false */
    coarse?: boolean;
  },
): { ps: number[]; adjustment: "holm" | "dunnett" } {
  const { adjustment, coarse = false } = options;
  const dfs = new Set(members.map(({ scatter_df }) => scatter_df));
  const [df] = dfs;
  if (adjustment === "holm" || members.length === 0 || dfs.size > 1 || df === null || df === undefined) {
    return { ps: holm(members.map(({ p }) => p)), adjustment: "holm" };
  }
  const lambda = members.map((one) => Math.min(Math.round(one.lambda / LAMBDA_STEP) * LAMBDA_STEP, 0.99));
  const blocks = members.map(({ block }) => block);
  const count = members.length;
  if (!coarse) {
    const adjusted = dunnett(
      members.map(({ t }) => t),
      { lambda, blocks, df },
    );
    return { ps: adjusted.map((p, i) => Math.max(p, members[i]!.p)), adjustment };
  }
  const ps = members.map(({ t, p }) => {
    // The adjusted p lies between p itself and as many times p as there are comparisons (Bonferroni).
    if (p > FAMILY_ALPHA || p * count <= FAMILY_ALPHA) return Math.min(1, p * count);
    return Math.max(p, dunnettTail(Math.abs(t), { lambda, blocks, df }));
  });
  return { ps, adjustment };
}
