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
      "AgesFigureOptions",
      "Amount",
      "AmountBasis",
      "AmountRow",
      "Basis",
      "BinderMaxima",
      "BudgetFigureOptions",
      "Campaign",
      "CampaignFiguresOptions",
      "CellKey",
      "ColumnOverride",
      "CompareOptions",
      "ComparedCell",
      "ContrastOptions",
      "ContrastRow",
      "ContrastsFigureOptions",
      "Corrections",
      "Curve",
      "CurveFigureOptions",
      "CurveOptions",
      "Decisions",
      "DraftRow",
      "DrawnFigure",
      "ErrorData",
      "Figure",
      "FigureKind",
      "FigureOptions",
      "FigureSpec",
      "FigureWidth",
      "Flag",
      "FlagCode",
      "GrowthRow",
      "Ignition",
      "Isothermal",
      "Job",
      "Json",
      "Loss",
      "Margin",
      "MeanShape",
      "Measured",
      "Mix",
      "Model",
      "PackagedFile",
      "PhaseResult",
      "Piece",
      "Place",
      "Plan",
      "PlanningRow",
      "Plausibility",
      "PlausibilityRow",
      "Problem",
      "PropertyCellRow",
      "PropertyFigureOptions",
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
      "SensitivityFigureOptions",
      "SettledProtocol",
      "Severity",
      "Shape",
      "ShapeSums",
      "SimulatedRun",
      "Sketch",
      "StackFigureOptions",
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
      "DrawPngOptions",
      "DrawSvgOptions",
      "IndexFolderOptions",
      "IndexedFolder",
      "OutputFile",
    ]
  `);
});

test("the types of the face for notebooks stay what they are", () => {
  expect(typesOf("src/notebook.ts")).toEqual(["ShowOptions"]);
});
