import { readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { root } from "./root.ts";
import { workedChain } from "./workedChain.ts";

const start = "<!-- worked chain: start -->\n";
const end = "<!-- worked chain: end -->\n";

test("DEVELOPERS.md follows one index of each rule from the rows to g per 100 g (UPDATE_CHAIN=1 rewrites it)", () => {
  const file = `${root}DEVELOPERS.md`;
  const text = readFileSync(file, "utf8");
  const name = "fixtures/example/M1-sealed-7d-1.txt";
  const chain = workedChain(readFileSync(root + name), name);
  const [before, rest] = text.split(start);
  const [written, after] = rest!.split(end);
  if (process.env.UPDATE_CHAIN) writeFileSync(file, `${before}${start}${chain}${end}${after}`);
  else expect(written).toBe(chain);
});

test("the chain's own arithmetic ends at the pipeline's numbers", () => {
  const name = "fixtures/example/M1-sealed-7d-1.txt";
  const chain = workedChain(readFileSync(root + name), name);
  // Area and tangent are computed twice: by the sums written out here and by the pipeline. They agree to what is printed.
  const area = /([\d.]+) − ([\d.]+) = ([\d.]+) mg, that is/.exec(chain)!.slice(1).map(Number) as [
    number,
    number,
    number,
  ];
  expect(area[0] - area[1]).toBeCloseTo(area[2], 4);
  const tangent = /stand at\n([\d.]+) and ([\d.]+) mg; the distance is ([\d.]+) mg/.exec(chain)!.slice(1).map(Number);
  expect(tangent[0]! - tangent[1]!).toBeCloseTo(tangent[2]!, 4);
});
