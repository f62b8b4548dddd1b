import type { Measured } from "../measured.ts";
import { addTerms } from "./addTerms.ts";
import { combineTerms } from "./combineTerms.ts";
import type { Mix, PlainAmountBasis } from "./types.ts";

/** An amount on one basis. */
export interface AmountOnBasis {
  basis: PlainAmountBasis;
  /** g per 100 g. */
  amount: Measured;
}

/**
 * An amount per 100 g of ignited mass → per 100 g of ignited binder (a mortar: times 1 + s), of anhydrous binder (times 1 − LOI)
 * and of fresh paste (over 1 + w/b). What the mix table is uncertain about enters as signed terms with the mix's key: an
 * error of s by s/(1 + s), not 1 : 1.
 *
 * @param ignited g per 100 g of the specimen's own ignited mass.
 * @returns `ignited-binder` for mortars only; a basis for which the mix lacks something is missing with the code.
 */
export function amountBases(ignited: Measured, mix: Mix | null): AmountOnBasis[] {
  const sand = mix?.sand_binder_ignited ?? 0;
  const key = (what: string) => `mix:${mix?.mix}:${what}`;
  const ofBinder = scaled(ignited, 1 + sand, {
    cause: "sand",
    derivative: 1,
    u: mix?.u_sand_binder_ignited,
    key: key("sand"),
  });
  const loi = mix?.loi_binder_pct ?? null;
  const binder: Measured =
    loi === null
      ? orElse(ofBinder, "no-binder-loss")
      : scaled(ofBinder, 1 - loi / 100, {
          cause: "loss on ignition of the binder",
          derivative: -0.01,
          u: mix?.u_loi_binder_pct,
          key: key("loi"),
        });
  const water = mix?.w_b ?? null;
  const paste: Measured =
    water === null
      ? orElse(binder, "no-water-ratio")
      : scaled(binder, 1 / (1 + water), {
          cause: "water-to-binder ratio",
          derivative: -1 / (1 + water) ** 2,
          u: mix?.u_w_b,
          key: key("w_b"),
        });
  return [
    { basis: "ignited", amount: ignited },
    ...(sand > 0 ? [{ basis: "ignited-binder" as const, amount: ofBinder }] : []),
    { basis: "binder", amount: binder },
    { basis: "paste", amount: paste },
  ];
}

/** A number times a factor that depends on one uncertain quantity. */
function scaled(
  amount: Measured,
  factor: number,
  by: { cause: string; derivative: number; u: number | null | undefined; key: string },
): Measured {
  if ("missing" in amount) return amount;
  const { cause, derivative, u, key } = by;
  const own = u ? [{ cause, effect: amount.value * derivative * u, key }] : [];
  const terms = addTerms([
    { terms: amount.terms, factor },
    { terms: own, factor: 1 },
  ]);
  return { value: factor * amount.value, u: amount.u === null ? null : combineTerms(terms), terms };
}

function orElse(amount: Measured, missing: string): Measured {
  return "missing" in amount ? amount : { missing };
}
