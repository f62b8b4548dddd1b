import { expect, test } from "vitest";
import * as pure from "../src/index.ts";
import * as node from "../src/node.ts";

test("the public names of tg-hydrates", () => {
  expect(Object.keys(pure).sort()).toMatchInlineSnapshot(`
    [
      "ProtocolError",
      "UnreadableError",
      "agesCsv",
      "agesTable",
      "binderMaxima",
      "campaignFromJson",
      "campaignJson",
      "checkProtocol",
      "checkSubstance",
      "conversionDegree",
      "draftSheet",
      "exampleCampaign",
      "flagKinds",
      "formatExport",
      "formatNumber",
      "hydrationDegree",
      "indexBytes",
      "indexCurve",
      "indexRun",
      "losses",
      "lossesCsv",
      "molarMass",
      "newJob",
      "parseAge",
      "parseColumns",
      "parseMixes",
      "parseSheet",
      "phasesCsv",
      "placeReaction",
      "planRuns",
      "plausibility",
      "protocols",
      "reactionMasses",
      "readRun",
      "readTable",
      "runsCsv",
      "settle",
      "simulateRun",
      "sketch",
      "summarise",
      "terminalSafe",
      "theoreticalLosses",
      "theoreticalSteps",
      "toCurve",
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
  ).toEqual(["FileError", "PlanError", "indexFolder", "outputFiles", "writeOutputs"]);
});
