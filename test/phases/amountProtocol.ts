import type { Amount } from "../../src/losses/types.ts";
import type { Measured } from "../../src/measured.ts";
import type { Corrections, PhaseResult } from "../../src/phases/types.ts";
import { protocols } from "../../src/protocol/protocols.ts";
import { settle } from "../../src/protocol/settle.ts";
import type { Protocol, RunDone, SettledProtocol } from "../../src/protocol/types.ts";

export const step = (name: string, from_C: number, to_C: number, amount?: Amount): Protocol["windows"][number] => ({
  ...{ name, from_C, to_C, rule: "step" },
  ...(amount ? { amount } : {}),
});
export const water = (phase: string, mol_lost: number): Amount => ({ phase, mol_lost });
/** AFt, AFm and AH3 in windows of their own, as the fixture FX2b has them. */
export const parted = [
  step("aft", 50, 150, water("ettringite", 26)),
  step("afm", 150, 230, water("monosulfate", 6)),
  step("ah3", 230, 350, water("ah3", 3)),
  step("carbonate", 600, 850, water("calcite", 1)),
];
export const protocolOf = (windows: Protocol["windows"], corrections?: Corrections): SettledProtocol =>
  settle({ ...protocols.csa, windows, ...(corrections ? { corrections } : {}) });
export const row = ({ phases }: RunDone, phase: string, basis = "ignited"): PhaseResult =>
  phases.find((one) => one.phase === phase && one.basis === basis)!;
export const amountOf = (measured: Measured): number | string =>
  "missing" in measured ? measured.missing : measured.value;
export const codes = ({ flags }: { flags: readonly { code: string }[] }) => flags.map(({ code }) => code);
