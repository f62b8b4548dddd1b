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
      "campaignFromJson",
      "campaignJson",
      "checkProtocol",
      "draftSheet",
      "exampleCampaign",
      "flagKinds",
      "formatExport",
      "formatNumber",
      "indexBytes",
      "indexCurve",
      "indexRun",
      "losses",
      "lossesCsv",
      "newJob",
      "parseAge",
      "parseColumns",
      "parseMixes",
      "parseSheet",
      "placeReaction",
      "planRuns",
      "protocols",
      "readRun",
      "readTable",
      "runsCsv",
      "settle",
      "simulateRun",
      "sketch",
      "summarise",
      "terminalSafe",
      "toCurve",
      "version",
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
