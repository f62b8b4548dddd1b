import { filterTable } from "../../src/curve/filterTable.ts";
import { evaluate, functional } from "../../src/curve/functional.ts";
import { addMassAt, massAt } from "../../src/curve/massAt.ts";
import { toCurve } from "../../src/curve/toCurve.ts";
import { losses } from "../../src/losses/losses.ts";
import type { Window } from "../../src/losses/types.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import { readRun } from "../../src/read/readRun.ts";

/**
 * One index of each rule followed from the rows of a file to g per 100 g, as text for DEVELOPERS.md. The numbers of
 * the last lines are the pipeline's own; all before them is arithmetic that a reader can repeat.
 */
export function workedChain(bytes: Uint8Array, name: string): string {
  const windows: Window[] = [
    { name: "aft-afm", from_C: 50, to_C: 220, rule: "step" },
    {
      name: "ah3",
      from_C: 220,
      to_C: 350,
      rule: "area",
      tangent: { before_C: [200, 225], after_C: [345, 380] },
    },
  ];
  const protocol = settle({ ...protocols.csa, windows });
  const run = readRun(bytes, { name });
  const curve = toCurve(run, protocol);
  const found = losses(curve, protocol);
  const m = (T: number) => evaluate(curve, massAt(curve, T, "leaving")!);
  const f = (x: number, digits = 5) => x.toFixed(digits);
  const k = curve.temperature.indexOf(220);
  const { interior } = filterTable(21, { degree: 3, derivative: 0, step: 0.5 });
  const i = run.temperature.findIndex((T) => T > 220 - 0.25) - 1;
  const rows = [0, 1, 2].map(
    (j) => `| ${run.lines[i + j]} | ${f(run.temperature[i + j]!, 3)} | ${f(run.mass[i + j]!, 4)} |`,
  );
  const kernel = Array.from({ length: 21 }, (_, j) => {
    const at = k - 10 + j;
    return `| ${f(curve.temperature[at]!, 1)} | ${f(curve.raw[at]!)} | ${f(interior[j]!)} |`;
  });
  const slope = (T: number) => {
    let [xy, xx] = [0, 0];
    for (let j = -10; j <= 10; j++) {
      const point = functional();
      addMassAt(point, curve, { piece: curve.pieces[0]!, T: T + j / 2, factor: 1 });
      xy += (j / 2) * evaluate(curve, point);
      xx += (j / 2) ** 2;
    }
    return xy / xx;
  };
  const [aft, ah3] = found.losses;
  if ("missing" in found.ignited || "missing" in aft!.step || "missing" in ah3!.step) throw new Error("not measured");
  if ("missing" in ah3!.area || "missing" in ah3!.tangent) throw new Error("not measured");
  const ignited = found.ignited.value;
  const [s1, s2] = [-slope(220), -slope(350)];
  const line = ([low, high]: [number, number], T: number) => {
    const n = Math.round((high - low) * 2) + 1;
    const middle = (low + high) / 2;
    let [sum, xy, xx] = [0, 0, 0];
    for (let j = 0; j < n; j++) {
      const x = low + j / 2;
      sum += m(x) / n;
      xy += (x - middle) * m(x);
      xx += (x - middle) ** 2;
    }
    return sum + (xy / xx) * (T - middle);
  };
  const peak = ah3!.peak!.temperature;
  const [before, after] = [line(windows[1]!.tangent!.before_C, peak), line(windows[1]!.tangent!.after_C, peak)];
  const index = (loss: number) => f((100 * loss) / ignited, 3);
  return `The run is \`${name}\`; masses in mg. All numbers of this section are written by
\`test/house/workedChain.ts\` and compared by a test.

**Rows → grid.** The rows about 219.75 °C, the lower edge of the grid step of 220 °C:

| line | T/°C | m/mg |
| --- | --- | --- |
${rows.join("\n")}

The straight lines through the rows are averaged over 219.75–220.25 °C: grid value at 220 °C
**${f(curve.raw[k]!)}**.

**Grid → smoothed TG.** Twenty-one grid values times the weights of the cubic filter of 10 °C (the weights of
Savitzky and Golay 1964 for 21 points):

| T/°C | grid value | weight |
| --- | --- | --- |
${kernel.join("\n")}

Their sum is m(220 °C) = **${f(m(220))}**. In the same way m(50 °C) = ${f(m(50))} and m(350 °C) = ${f(m(350))}.

**Ignited mass.** Mean of the smoothed TG from 945 to ${f(Math.min(955, curve.pieces[0]!.to), 0)} °C: **${f(ignited)}**.

**\`step\`, window aft-afm.** m(50) − m(220) = ${f(m(50))} − ${f(m(220))} = ${f(aft!.step.value)} mg;
100 · ${f(aft!.step.value)} / ${f(ignited)} = **${index(aft!.step.value)} g per 100 g**.

**\`area\`, window ah3.** m(220) − m(350) = ${f(ah3!.step.value)} mg. Straight lines through the 21 values within 5 °C of
each edge fall by s₁ = ${f(s1, 6)} and s₂ = ${f(s2, 6)} mg/°C. The baseline takes ½ · (${f(s1, 6)} + ${f(s2, 6)}) · 130 =
${f(0.5 * (s1 + s2) * 130)} mg; ${f(ah3!.step.value)} − ${f(0.5 * (s1 + s2) * 130)} = ${f(ah3!.area.value)} mg, that is
**${index(ah3!.area.value)} g per 100 g**. By \`step\` it would be ${index(ah3!.step.value)}: the two bracket the truth.

**\`tangent\`, window ah3**, lines fitted over 200–225 and 345–380 °C: at the DTG peak, ${f(peak, 2)} °C, they stand at
${f(before)} and ${f(after)} mg; the distance is ${f(ah3!.tangent.value)} mg, that is **${index(ah3!.tangent.value)} g per 100 g**.
`;
}
