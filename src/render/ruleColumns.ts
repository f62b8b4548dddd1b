import type { Rule } from "../losses/types.ts";
import type { Basis } from "../phases/types.ts";
import { column } from "./column.ts";
import type { Column } from "./tableInfo.ts";

/** Columns that say how an index was counted and what it refers to. */
export const ruleColumns: Readonly<Record<"rule" | "basis", Column>> = {
  rule: column.oneOf<Rule>(
    "Rule",
    "What is counted: step, the whole loss between the edges; area, the loss above a straight DTG baseline; tangent, the distance of tangents",
    { step: true, area: true, tangent: true },
    { required: true },
  ),
  basis: column.oneOf<Basis>(
    "Basis",
    "Reference mass of the index: ignited mass, initial mass, or ignited mass brought to binder",
    { ignited: true, initial: true, binder: true },
    { required: true },
  ),
};
