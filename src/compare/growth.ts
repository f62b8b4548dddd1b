import { ageWords } from "../campaign/ageWords.ts";
import { compareKeys } from "../campaign/compareKeys.ts";
import type { GrowthRow } from "../campaign/decisions.ts";
import { jonckheere } from "../numerics/jonckheere.ts";
import { linearRegression } from "../numerics/linearRegression.ts";
import { mannKendall } from "../numerics/mannKendall.ts";
import { theilSen } from "../numerics/theilSen.ts";
import { cellKey, minutesOf } from "./cellKey.ts";
import { commonSpecimens } from "./commonSpecimens.ts";
import { regimeText } from "./regimeText.ts";
import type { ComparedCell } from "./types.ts";
import { regimeWords } from "./words.ts";

/** Significance of a test of order. */
const ALPHA = 0.05;

/**
 * How every quantity grows with age in each regime, and with the days of moist curing at each age.
 *
 * Slope per tenfold age (per day of curing) by least squares through the specimens, and by Theil–Sen, which single specimens far off
 * hardly move. Whether it rises or falls is judged by the test of Jonckheere and Terpstra on the specimens, two-sided, exact for small
 * numbers; Mann–Kendall on the means stands beside it. Where no data of such a design could reach 5 %, the verdict says so.
 * Curing of zero days is the zero of every curing. A curing without days that lasts until the test counts as long as its age, where the
 * same curing has other durations. Ages of zero have no logarithm and are left out.
 *
 * @param cells One quantity of one cell each.
 * @returns Rows in the order in which the cells name their quantities, then by mix, regime; age first.
 *
 * @example
 * ```ts
 * import { growth, parseProperties, propertyCells } from "tg-hydrates";
 * const text = `mix,curing,curing_d,age_d,property,value,unit
 * M1,moist,7,1,strength,20,MPa
 * M1,moist,7,1,strength,21,MPa
 * M1,moist,7,1,strength,22,MPa
 * M1,moist,7,7,strength,30,MPa
 * M1,moist,7,7,strength,31,MPa
 * M1,moist,7,7,strength,32,MPa
 * M1,moist,7,28,strength,40,MPa
 * M1,moist,7,28,strength,41,MPa
 * M1,moist,7,28,strength,42,MPa`;
 * const cells = propertyCells(parseProperties(text, { name: "strength.csv" }).rows);
 * if (growth(cells)[0]!.verdict !== "rises") throw new Error("every specimen is stronger than all younger ones");
 * ```
 */
export function growth(cells: readonly ComparedCell[]): GrowthRow[] {
  const quantities = [...new Set(cells.map(({ quantity }) => quantity))];
  const known = cells.filter(({ specimens, age_d }) => specimens.length > 0 && age_d !== null);
  return quantities.flatMap((quantity) => {
    const own = known.filter((cell) => cell.quantity === quantity).sort((a, b) => compareKeys(cellKey(a), cellKey(b)));
    const mixes = [...new Set(own.map(({ mix }) => mix))];
    return mixes.flatMap((mix) => {
      const ofMix = own.filter((cell) => cell.mix === mix);
      return [...withAge(ofMix), ...withCuring(ofMix)];
    });
  });
}

function withAge(cells: readonly ComparedCell[]): GrowthRow[] {
  const regimes = [...new Set(cells.map((cell) => regimeText(cell)))];
  return regimes.flatMap((regime) => {
    const own = cells.filter((cell) => regimeText(cell) === regime && cell.age_d! > 0);
    const [first] = own;
    if (first === undefined || own.length < 2) return [];
    const { curing, curing_d } = first;
    const series = own.map((cell) => ({ cell, days: cell.age_d!, at: Math.log10(cell.age_d!) }));
    return [oneRow(series, { against: "age", curing, curing_d, age_d: null })];
  });
}

function withCuring(cells: readonly ComparedCell[]): GrowthRow[] {
  const ages = [...new Set(cells.map(({ age_d }) => minutesOf(age_d)!))].sort((a, b) => a - b);
  const curings = [
    ...new Set(cells.flatMap(({ curing, curing_d }) => (curing === null || curing_d === 0 ? [] : curing))),
  ];
  return ages.flatMap((age) =>
    curings.flatMap((curing) => {
      const series = durationsAt(cells, curing, age);
      if (series.length < 2) return [];
      const placed = series.map(({ cell, days }) => ({ cell, days, at: days }));
      return [oneRow(placed, { against: "curing", curing, curing_d: null, age_d: age / 1440 })];
    }),
  );
}

/** The cells of one curing at one age by their days of moist curing, rising; one cell per duration. */
export function durationsAt(
  cells: readonly ComparedCell[],
  curing: string,
  age_min: number,
): { cell: ComparedCell; days: number }[] {
  const atAge = cells.filter(({ age_d }) => minutesOf(age_d) === age_min);
  const own = atAge.filter((cell) => cell.curing === curing);
  if (!own.some(({ curing_d }) => curing_d !== null)) return [];
  const series = own.map((cell) => ({ cell, days: cell.curing_d ?? age_min / 1440 }));
  if (!series.some(({ days }) => days === 0)) {
    const none = atAge.filter((cell) => cell.curing !== curing && cell.curing_d === 0);
    // Two ways of not curing at all cannot both be the zero.
    if (none.length === 1) series.push({ cell: none[0]!, days: 0 });
  }
  const byDays = new Map(series.map((one) => [one.days, one]));
  return [...byDays.values()].sort((a, b) => a.days - b.days);
}

interface Placed {
  cell: ComparedCell;
  days: number;
  /** Place on the axis of the slope. */
  at: number;
}

function oneRow(
  series: readonly Placed[],
  head: Pick<GrowthRow, "against" | "curing" | "curing_d" | "age_d">,
): GrowthRow {
  const { mix, quantity, unit } = series[0]!.cell;
  const x = series.flatMap(({ cell, at }) => cell.specimens.map(() => at));
  const y = series.flatMap(({ cell }) => cell.specimens.map(({ value }) => value));
  const line = linearRegression(x, y);
  const sen = theilSen(x, y);
  const interval = "missing" in sen || "missing" in sen.interval ? null : sen.interval;
  // One piece measured at every age is one witness, not several.
  const repeated = series.some(({ cell }, i) =>
    series.slice(0, i).some((before) => commonSpecimens(cell, before.cell).length > 0),
  );
  const order = jonckheere(
    series.map(({ cell }) => cell.specimens.map(({ value }) => value)),
    { alternative: "two-sided" },
  );
  const trend = mannKendall(series.map(({ cell }) => cell.value!));
  const tested = repeated || "missing" in order ? null : order;
  const means = repeated || "missing" in trend ? null : trend;
  const row: Omit<GrowthRow, "sentence"> = {
    quantity,
    unit,
    mix,
    ...head,
    n_cells: series.length,
    n_specimens: y.length,
    from_d: series[0]!.days,
    to_d: series.at(-1)!.days,
    slope: "missing" in line ? null : line.slope.value,
    slope_lo95: "missing" in line || repeated ? null : line.slope.low,
    slope_hi95: "missing" in line || repeated ? null : line.slope.high,
    slope_df: "missing" in line || repeated ? null : line.df,
    sen_slope: "missing" in sen ? null : sen.slope,
    sen_lo95: repeated ? null : (interval?.low ?? null),
    sen_hi95: repeated ? null : (interval?.high ?? null),
    order_p: tested?.p ?? null,
    order_smallest_p: tested?.smallestP ?? null,
    order_exact: tested?.exact ?? null,
    trend_p: means?.p ?? null,
    trend_smallest_p: means?.smallestP ?? null,
    verdict: repeated ? "same-specimens" : verdictOf(order),
  };
  return { ...row, sentence: sentenceOf(row) };
}

function verdictOf(order: ReturnType<typeof jonckheere>): GrowthRow["verdict"] {
  if ("missing" in order) return order.missing === "too-few-values" ? "too-few-cells" : "not shown";
  if (order.smallestP > ALPHA) return "cannot be shown";
  if (order.p > ALPHA) return "not shown";
  return order.j > order.expected ? "rises" : "falls";
}

function sentenceOf(row: Omit<GrowthRow, "sentence">): string {
  const { quantity, mix, against, curing, age_d, verdict, order_p, order_smallest_p, trend_smallest_p, n_cells } = row;
  const what =
    against === "age"
      ? `${quantity} of ${mix ?? "-"}, ${regimeWords(row)}, with age`
      : `${quantity} of ${mix ?? "-"} at ${ageWords(age_d)} with the days of ${curing ?? "-"}`;
  const p = (value: number) => (value < 0.0001 ? "< 0.0001" : `= ${Number(value.toPrecision(2))}`);
  const few =
    trend_smallest_p !== null && trend_smallest_p > ALPHA
      ? ` The ${n_cells} means alone could not show it, whatever their values (Mann–Kendall: p at least ${Number(trend_smallest_p.toPrecision(2))}).`
      : "";
  switch (verdict) {
    case "rises":
    case "falls":
      return `${what}: ${verdict} (test of order on specimens, p ${p(order_p!)}).${few}`;
    case "cannot be shown":
      return `${what}: a steady rise or fall cannot be shown with so few specimens, whatever their values (p at least ${Number(order_smallest_p!.toPrecision(2))}).`;
    case "same-specimens":
      return `${what}: the same specimens were measured again and again; a test of order needs different ones, so there is a slope without a verdict.`;
    case "too-few-cells":
      return `${what}: too few cells for a verdict.`;
    default:
      return `${what}: no steady rise or fall was shown${order_p === null ? " (all values are equal)" : ` (test of order on specimens, p ${p(order_p)})`}.${few}`;
  }
}
