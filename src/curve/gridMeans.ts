/**
 * Mean of the piecewise-linear curve through the knots over each grid step: [M(T+h/2) − M(T−h/2)]/h with M its
 * integral. One linear rule for dense and sparse readings; integrals are conserved.
 *
 * @param temperature Strictly growing, °C.
 * @param mass One value per knot.
 * @param grid `first`: index of the first grid point (its temperature is first·step), `out`: receives one mean per point.
 */
export function gridMeans(
  temperature: Float64Array,
  mass: Float64Array,
  grid: { first: number; step: number; out: Float64Array },
): void {
  const { first, step, out } = grid;
  const last = temperature.length - 1;
  let i = 0;
  // Integral of (m − mass[0]) up to knot i: small numbers keep the digits that a difference of integrals would lose.
  const base = mass[0]!;
  let integral = 0;
  let before = 0;
  for (let k = 0; k <= out.length; k++) {
    const edge = (first + k - 0.5) * step;
    while (i < last - 1 && temperature[i + 1]! <= edge) {
      integral += 0.5 * (temperature[i + 1]! - temperature[i]!) * (mass[i]! + mass[i + 1]! - 2 * base);
      i++;
    }
    const d = edge - temperature[i]!;
    const slope = (mass[i + 1]! - mass[i]!) / (temperature[i + 1]! - temperature[i]!);
    const at = integral + d * (mass[i]! - base + 0.5 * slope * d);
    if (k > 0) out[k - 1] = base + (at - before) / step;
    before = at;
  }
}
