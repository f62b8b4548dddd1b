import { resolve } from "node:path";
import { type ReferenceSubstanceName, referenceSubstances } from "../chemistry/referenceSubstances.ts";
import { toCurve } from "../curve/toCurve.ts";
import { readBytes } from "../files/readBytes.ts";
import { nearestName } from "../nearestName.ts";
import { checkSubstance } from "../phases/checkSubstance.ts";
import type { SubstanceCheck } from "../phases/checkTypes.ts";
import { protocols } from "../protocol/protocols.ts";
import { readRun } from "../read/readRun.ts";
import type { KeyOrder } from "../render/keyOrder.ts";
import { toJson } from "../render/toJson.ts";
import { checkText } from "./checkText.ts";
import { columnsOption } from "./columnsOption.ts";
import type { Io } from "./io.ts";
import { printJson } from "./printJson.ts";
import { UsageError } from "./usageError.ts";

/** Holds a run of a reference substance against its theoretical steps; exit code 1 where it does not hold. */
export async function checkCommand(
  file: string,
  options: { substance: string; tolerance?: string; columns?: string; json?: boolean },
  io: Io,
): Promise<number> {
  const substance = substanceOption(options.substance);
  const tolerance = toleranceOption(options.tolerance);
  const columns = columnsOption(options.columns);
  const run = readRun(readBytes(resolve(io.cwd, file), { name: file }), { name: file, columns });
  const check = checkSubstance(toCurve(run, protocols.csa), substance, tolerance === null ? {} : { tolerance });
  if (options.json) printJson(io, toJson(check, keys));
  else io.stdout.write(checkText(check));
  return check.holds ? 0 : 1;
}

/** `calcium-oxalate-monohydrate`; blanks and capitals do not matter. */
function substanceOption(written: string): ReferenceSubstanceName {
  const names = Object.keys(referenceSubstances) as ReferenceSubstanceName[];
  const name = written
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/g, "-");
  const found = names.find((known) => known === name);
  if (found) return found;
  const nearest = nearestName(name, names);
  const help = nearest === null ? `There are: ${names.join(", ")}` : `Did you mean ${nearest}?`;
  throw new UsageError(`--substance ${written}: There is no reference substance of this name. ${help}`);
}

function toleranceOption(written: string | undefined): number | null {
  if (written === undefined) return null;
  const value = Number(written.replace(",", "."));
  if (!(value > 0 && value <= 100)) {
    throw new UsageError(`--tolerance: Give a number above 0 and at most 100 (% of the mass), not ${written}`);
  }
  return value;
}

const measured: KeyOrder = { value: true, u: true, terms: { cause: true, effect: true, key: true }, missing: true };
const number = { theory_pct: true, measured_pct: measured, deviation_pct: true, verdict: true, clear: true } as const;
const keys: Record<keyof SubstanceCheck, KeyOrder> = {
  file: true,
  substance: true,
  label: true,
  formula: true,
  source: true,
  tolerance_pct: true,
  steps: { name: true, from_C: true, to_C: true, peak_C: true, published_C: true, ...number },
  residue: number,
  closure: number,
  holds: true,
  cautions: true,
  flags: { code: true, severity: true, sentence: true, advice: true },
};
