import { expect, test } from "vitest";
import * as pure from "../src/index.ts";
import * as node from "../src/node.ts";
import * as notebook from "../src/notebook.ts";

test("the public names of tg-hydrates", () => {
  expect(Object.keys(pure).sort()).toMatchInlineSnapshot(`
    [
      "CompareError",
      "ProtocolError",
      "UnreadableError",
      "addShape",
      "agesCsv",
      "agesFigure",
      "agesTable",
      "binderMaxima",
      "budgetFigure",
      "campaignFigures",
      "campaignFromJson",
      "campaignJson",
      "checkProtocol",
      "checkSubstance",
      "compare",
      "contrasts",
      "contrastsCsv",
      "contrastsFigure",
      "conversionDegree",
      "curveFigure",
      "dataPackage",
      "decisionsText",
      "draftSheet",
      "exampleCampaign",
      "exportLayouts",
      "flagKinds",
      "formatExport",
      "formatNumber",
      "growth",
      "hydrationDegree",
      "indexBytes",
      "indexCells",
      "indexCurve",
      "indexRun",
      "losses",
      "lossesCsv",
      "meanShape",
      "molarMass",
      "newJob",
      "parseAge",
      "parseColumns",
      "parseMargin",
      "parseMixes",
      "parseProperties",
      "parseRequirement",
      "parseSheet",
      "phasesCsv",
      "placeReaction",
      "planReplicates",
      "planRuns",
      "plausibility",
      "propertyCells",
      "propertyFigure",
      "protocols",
      "reactionMasses",
      "readRun",
      "readTable",
      "reportPage",
      "runFigure",
      "runsCsv",
      "sensitivityFigure",
      "settle",
      "shapeOf",
      "simulateRun",
      "sketch",
      "stackFigure",
      "subtractBlank",
      "sufficientCuring",
      "summarise",
      "terminalSafe",
      "theoreticalLosses",
      "theoreticalSteps",
      "toCurve",
      "together",
      "version",
      "waterStep",
      "yeelimiteHydrates",
    ]
  `);
});

test("tg-hydrates/node has the same and the work with folders", () => {
  for (const [name, value] of Object.entries(pure)) expect(node).toHaveProperty(name, value);
  expect(
    Object.keys(node)
      .filter((name) => !(name in pure))
      .sort(),
  ).toEqual([
    "DrawError",
    "FileError",
    "PlanError",
    "decisionFiles",
    "drawPng",
    "drawSvg",
    "indexFolder",
    "loadCampaign",
    "outputFiles",
    "readProperties",
    "writeOutputs",
  ]);
});

test("tg-hydrates/notebook has all of that, and show", () => {
  for (const [name, value] of Object.entries(node)) expect(notebook).toHaveProperty(name, value);
  expect(Object.keys(notebook).filter((name) => !(name in node))).toEqual(["show"]);
});
