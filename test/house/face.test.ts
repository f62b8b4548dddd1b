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
      "CompareOptions",
      "ComparedCell",
      "ContrastOptions",
      "ContrastRow",
      "Corrections",
      "Curve",
      "CurveOptions",
      "Decisions",
      "DraftRow",
      "ErrorData",
      "Flag",
      "FlagCode",
      "GrowthRow",
      "Ignition",
      "Isothermal",
      "Job",
      "Loss",
      "Margin",
      "MeanShape",
      "Measured",
      "Mix",
      "Model",
      "PhaseResult",
      "Piece",
      "Place",
      "Plan",
      "PlanningRow",
      "Plausibility",
      "PlausibilityRow",
      "Problem",
      "PropertyCellRow",
      "PropertyRow",
      "Protocol",
      "Quantity",
      "Reaction",
      "ReadOptions",
      "Reading",
      "Report",
      "Requirement",
      "Role",
      "Rule",
      "Run",
      "RunDone",
      "RunFailed",
      "RunLosses",
      "RunResult",
      "SettledProtocol",
      "Severity",
      "Shape",
      "ShapeSums",
      "SimulatedRun",
      "Sketch",
      "SubstanceCheck",
      "SufficientRow",
      "Table",
      "Term",
      "TogetherRow",
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
