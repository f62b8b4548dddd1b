import { join } from "node:path";
import { expect, test } from "vitest";
import type { Window } from "../../src/losses/types.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { analyticFixture } from "../analyticFixtures.ts";
import { tempFolder } from "../files/tempFolder.ts";
import { cli } from "./cli.ts";
import { csv } from "./csv.ts";

const window = (name: string, from_C: number, to_C: number, amount: Window["amount"]): Window => ({
  ...{ name, from_C, to_C, rule: "step" },
  ...(amount ? { amount } : {}),
});
/** What phases.csv says, from the command. */
async function phases(files: Record<string, string | Uint8Array>, protocol: object) {
  const cwd = tempFolder({ ...files, "p.json": JSON.stringify({ ...protocols.csa, ...protocol }) });
  const { code, err } = await cli(["index", "data", "--protocol", "p.json", "--out", "out"], { cwd });
  expect(err).toContain("phases.csv");
  expect(code).toBe(0);
  return csv(join(cwd, "out/phases.csv"));
}
const within = (value: string | undefined, expected: number, tolerance: number) =>
  expect(Math.abs(Number(value) - expected), `${value}`).toBeLessThanOrEqual(tolerance);

// Figures are arithmetic from the abridged standard atomic weights (Prohaska et al. 2022), worked out apart from this code.
test("portlandite of a paste and of a mortar on every basis, net of the binder's own run", async () => {
  const [paste, mortar] = [analyticFixture("FX1"), analyticFixture("FX4")];
  const rows = await phases(
    {
      "data/paste.txt": paste.bytes,
      "data/binder.txt": paste.bytes,
      "data/mortar.txt": mortar.bytes,
      "data/sheet.csv": "file,mix,role\npaste.txt,P,specimen\nbinder.txt,P,binder\nmortar.txt,Q,specimen\n",
      "data/mixes.csv":
        "mix,w_b,loi_binder_pct,sand_binder_ignited,lime_source\nP,0.5,0,,hydrated lime\nQ,,0,3,hydrated lime\n",
    },
    {
      windows: [
        window("ch", 400, 500, { phase: "portlandite", mol_lost: 1 }),
        window("carbonate", 600, 850, { phase: "calcite", mol_lost: 1 }),
      ],
      corrections: { carbonation: { window: "ch", carbonate: "carbonate" } },
    },
  );
  const cell = (file: string, phase: string, basis: string) =>
    rows.find((row) => row.file === file && row.phase === phase && row.basis === basis);
  // FX1: 36.1945 g with its carbonate, 11.1702 g of calcite.
  within(cell("paste.txt", "portlandite", "ignited")?.amount, 36.1945, 0.003);
  within(cell("paste.txt", "calcite", "ignited")?.amount, 11.1702, 0.002);
  within(cell("paste.txt", "portlandite", "paste")?.amount, 36.1945 / 1.5, 0.003);
  expect(cell("paste.txt", "portlandite", "ignited")?.flags).toBe("carbonation-counted");
  expect(cell("paste.txt", "portlandite", "ignited")?.mol_lost).toBe("1");
  // Its binder is the same powder: nothing was formed.
  within(cell("paste.txt", "portlandite", "ignited-net")?.amount, 0, 1e-6);
  expect(cell("paste.txt", "calcite", "ignited-net")?.flags).toBe("below-detection");
  // FX4: 5.3763 g per 100 g of ignited mortar are 21.5054 g per 100 g of ignited binder; without w_b there is no paste.
  within(cell("mortar.txt", "portlandite", "ignited")?.amount, 5.3763, 0.001);
  within(cell("mortar.txt", "portlandite", "ignited-binder")?.amount, 21.5054, 0.004);
  within(cell("mortar.txt", "portlandite", "binder")?.amount, 21.5054, 0.004);
  expect(cell("mortar.txt", "portlandite", "paste")).toMatchObject({ amount: "", amount_u: "" });
  expect(cell("mortar.txt", "portlandite", "paste")?.flags).toContain("no-water-ratio");
  expect(cell("mortar.txt", "portlandite", "ignited-net")).toBeUndefined();
});

test("AH3 under the hydroxyl water of AFt and AFm (FX2b, all of it: k = 1): 21.199 g per 100 g of ignited mass", async () => {
  const { bytes } = analyticFixture("FX2b");
  const rows = await phases(
    { "data/a.txt": bytes, "data/sheet.csv": "file\na.txt\n" },
    {
      windows: [
        window("aft", 50, 150, { phase: "ettringite", mol_lost: 26 }),
        window("afm", 150, 230, { phase: "monosulfate", mol_lost: 6 }),
        window("ah3", 230, 350, { phase: "ah3", mol_lost: 3 }),
      ],
      corrections: { hydroxyl: { window: "ah3", aft: "aft", afm: "afm", k: 1, u_k: 0 } },
    },
  );
  const ignited = rows.filter(({ basis }) => basis === "ignited");
  expect(ignited.map(({ phase, window, mol_lost }) => [phase, window, mol_lost])).toEqual([
    ["ettringite", "aft", "26"],
    ["monosulfate", "afm", "6"],
    ["ah3", "ah3", "3"],
  ]);
  within(ignited[0]?.amount, 56.53, 0.003);
  within(ignited[1]?.amount, 14.132, 0.003);
  within(ignited[2]?.amount, 21.199, 0.003);
  expect(ignited[2]?.flags).toBe("hydroxyl-corrected");
});
