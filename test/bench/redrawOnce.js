// node redrawOnce.js RUNS ROWS SEED: one process of redraw.js; prints ms of the first pass, of the losses and of all indices again.
import { indexCurve, losses, newJob, protocols, readRun, settle, toCurve } from "../../dist/index.js";
import { campaignTexts } from "./campaignTexts.js";

const [runs, rows, seed] = process.argv.slice(2).map(Number);
const texts = campaignTexts({ runs: Math.min(runs, 20), rows, seed });
const protocol = settle(protocols.csa);
const others = settle({
  ...protocols.csa,
  windows: protocols.csa.windows.map((window) => ({ ...window, to_C: window.to_C + 5 })),
});
let curves;
const indices = (asked) =>
  curves.map((curve) => indexCurve(curve, losses(curve, asked), { job: newJob("a.txt"), protocol: asked }));

const took = [
  () => {
    curves = Array.from({ length: runs }, (_, i) => toCurve(readRun(texts[i % texts.length]), protocol));
    indices(protocol);
  },
  () => curves.map((curve) => losses(curve, others)),
  () => indices(others),
].map((pass) => {
  const start = performance.now();
  pass();
  return performance.now() - start;
});
console.log(JSON.stringify(took));
