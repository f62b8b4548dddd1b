/**
 * Reference values for colours, by culori: the matrices of Machado, Oliveira and Fernandes (2009) for people without one
 * kind of cone, CIEDE2000 distances and WCAG 2 contrasts of random colours.
 *
 *     npm install --prefix FOLDER culori@4.0.2
 *     node test/reference/colours.mjs FOLDER
 */
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join, resolve } from "node:path";

const folder = resolve(process.argv[2] ?? ".");
const require = createRequire(join(folder, "package.json"));
// Installed beside the project, not by it.
const name = "culori";
const culori = require(name);
const { version } = JSON.parse(readFileSync(join(folder, "node_modules/culori/package.json"), "utf8"));

/** The matrix behind a filter, from what it makes of the three primaries. */
function matrixOf(filter) {
  const columns = ["#f00", "#0f0", "#00f"].map((primary) => {
    const { r, g, b } = filter(1)(culori.rgb(primary));
    return [r, g, b];
  });
  return [0, 1, 2].map((row) => columns.map((column) => Number(column[row].toFixed(6))));
}

let state = 20240601;
const random = () => {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return state / 2 ** 32;
};
const colour = () =>
  `#${[0, 1, 2]
    .map(() =>
      Math.floor(random() * 256)
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;
const distance = culori.differenceCiede2000();
const pairs = Array.from({ length: 60 }, () => {
  const [a, b] = [colour(), colour()];
  return { a, b, ciede2000: distance(a, b), contrast: culori.wcagContrast(a, b) };
});

const made_by = { command: "node test/reference/colours.mjs FOLDER", node: process.versions.node, culori: version };
const machado2009 = {
  protan: matrixOf(culori.filterDeficiencyProt),
  deutan: matrixOf(culori.filterDeficiencyDeuter),
  tritan: matrixOf(culori.filterDeficiencyTrit),
};
writeFileSync(
  new URL("colours.json", import.meta.url),
  `${JSON.stringify({ made_by, machado2009, pairs }, null, 1)}\n`,
);
