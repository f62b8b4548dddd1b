import { expect, test } from "vitest";
import * as pure from "../src/index.ts";
import * as node from "../src/node.ts";

test("the public names of tg-hydrates", () => {
  expect(Object.keys(pure).sort()).toMatchInlineSnapshot(`
    [
      "CompareError",
      "ProtocolError",
      "UnreadableError",
      "addShape",
      "agesCsv",
      "agesTable",
      "binderMaxima",
      "campaignFromJson",
      "campaignJson",
      "checkProtocol",
      "checkSubstance",
      "compare",
      "contrasts",
      "contrastsCsv",
      "conversionDegree",
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
      "protocols",
      "reactionMasses",
      "readRun",
      "readTable",
      "reportPage",
      "runsCsv",
      "settle",
      "shapeOf",
      "simulateRun",
      "sketch",
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
    "FileError",
    "PlanError",
    "decisionFiles",
    "indexFolder",
    "loadCampaign",
    "outputFiles",
    "readProperties",
    "writeOutputs",
  ]);
});
