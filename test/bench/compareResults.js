import { spread } from "./spread.js";

/**
 * Two results of the benchmark beside each other. A machine is not equally busy twice, so the ratio is also given after
 * division by the yardstick that ran in the same minutes.
 *
 * @param {{ name: string, result: object }} before
 * @param {{ name: string, result: object }} after
 * @returns {string} A table with a heading.
 */
export function compareResults(before, after) {
  for (const field of ["schema", "rows", "seed", "runs"]) {
    const [a, b] = [before.result[field], after.result[field]];
    if (a !== b) throw new Error(`${before.name} and ${after.name} measured different things: ${field} ${a} and ${b}`);
  }
  const median = ({ result }, stage) => spread(result.stages[stage]).median;
  const share = median(after, "yardstick") / median(before, "yardstick");
  const stages = Object.keys(before.result.stages).filter((stage) => stage in after.result.stages);
  const lines = stages.map((stage) => {
    const [a, b] = [spread(before.result.stages[stage]), spread(after.result.stages[stage])];
    const ratio = b.median / a.median;
    const apart = a.high < b.low || b.high < a.low ? "quartiles apart" : "";
    const cells = [a.median.toFixed(3), b.median.toFixed(3), ratio.toFixed(2), (ratio / share).toFixed(2)];
    return stage.padEnd(12) + cells.map((cell) => cell.padStart(11)).join("") + (apart && `   ${apart}`);
  });
  const heading = ["before ms", "after ms", "ratio", "/yardstick"].map((text) => text.padStart(11)).join("");
  return [`${"".padEnd(12)}${heading}`, ...lines].join("\n");
}
