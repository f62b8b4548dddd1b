import { expect, test } from "vitest";
import { textOf } from "./root.ts";

/** Types that an entry point exports; they leave no trace at run time. Its values are frozen in test/index.test.ts. */
function typesOf(file: string): string[] {
  return [...textOf(file).matchAll(/^export type \{([^}]+)\}/gm)]
    .flatMap(([, names]) => names!.split(","))
    .map((name) => name.trim())
    .filter((name) => name !== "")
    .sort();
}

test("the public types stay what they are", () => {
  expect(typesOf("src/index.ts")).toMatchInlineSnapshot(`
    [
      "AgeRow",
      "Amount",
      "AmountBasis",
      "AmountRow",
      "Basis",
      "BinderMaxima",
      "Campaign",
      "CellKey",
      "ColumnOverride",
      "Corrections",
      "Curve",
      "CurveOptions",
      "DraftRow",
      "ErrorData",
      "Flag",
      "FlagCode",
      "Ignition",
      "Isothermal",
      "Job",
      "Loss",
      "Measured",
      "Mix",
      "Model",
      "PhaseResult",
      "Piece",
      "Place",
      "Plan",
      "Plausibility",
      "PlausibilityRow",
      "Problem",
      "Protocol",
      "Quantity",
      "Reaction",
      "ReadOptions",
      "Reading",
      "Role",
      "Rule",
      "Run",
      "RunDone",
      "RunFailed",
      "RunLosses",
      "RunResult",
      "SettledProtocol",
      "Severity",
      "SimulatedRun",
      "Sketch",
      "SubstanceCheck",
      "Table",
      "Term",
      "Uncertainty",
      "Window",
      "WindowResult",
    ]
  `);
});

test("the types of the face for Node stay what they are", () => {
  expect(typesOf("src/node.ts")).toMatchInlineSnapshot(`
    [
      "IndexFolderOptions",
      "IndexedFolder",
      "OutputFile",
    ]
  `);
});
