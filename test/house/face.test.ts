import { expect, test } from "vitest";
import * as pure from "../../src/index.ts";
import * as node from "../../src/node.ts";
import { textOf } from "./root.ts";

/** Names of the types that an entry point exports; they leave no trace at run time. */
function typesOf(file: string): string[] {
  return [...textOf(file).matchAll(/^export type \{([^}]+)\}/gm)]
    .flatMap(([, names]) => names!.split(","))
    .map((name) => name.trim())
    .filter((name) => name !== "")
    .sort();
}

test("the public names stay what they are", () => {
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

test("the public types stay what they are", () => {
  expect(typesOf("src/index.ts")).toMatchInlineSnapshot(`
    [
      "AgeRow",
      "Basis",
      "Campaign",
      "CellKey",
      "ColumnOverride",
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
      "Piece",
      "Place",
      "Plan",
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
      "Table",
      "Term",
      "Uncertainty",
      "Window",
      "WindowResult",
    ]
  `);
});

test("the face for Node adds what needs Node", () => {
  expect(
    Object.keys(node)
      .filter((name) => !(name in pure))
      .sort(),
  ).toMatchInlineSnapshot(`
    [
      "FileError",
      "PlanError",
      "indexFolder",
      "outputFiles",
      "writeOutputs",
    ]
  `);
  expect(typesOf("src/node.ts")).toMatchInlineSnapshot(`
    [
      "IndexFolderOptions",
      "IndexedFolder",
      "OutputFile",
    ]
  `);
});
