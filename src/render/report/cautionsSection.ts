import { html } from "./html.ts";
import type { Section } from "./section.ts";

/** What the numbers are not for, and what can hurt someone on the way to them. */
export function cautionsSection(): Section {
  return {
    id: "cautions",
    heading: "Cautions",
    content: html`<ul>
<li><b>No acceptance test.</b> Indices compare specimens of one campaign under one protocol. They do not show that a cement, a concrete or a structure meets a standard.</li>
<li><b>Curing and strength.</b> How long concrete is cured, and whether it is strong enough to be loaded or stripped, is decided by the local code and the engineer of record, not by this page. Specimens in a laboratory are not the structure.</li>
<li><b>Windows are no phases.</b> Hydrates overlap; what is named after a window may lose mass for other reasons. Check by X-ray diffraction what matters.</li>
<li><b>In the laboratory.</b> Solvents that stop hydration (isopropanol, ether) burn: keep their vapours from furnaces. Furnace gases may hold carbon monoxide and sulfur oxides: ventilate. Ignited residue is caustic lime, and hot: shield eyes and skin. The safety data sheets and the rules of your laboratory go first.</li>
</ul>
`,
  };
}
