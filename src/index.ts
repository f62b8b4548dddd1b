// The public face in the order of the pipeline: bytes → Run → Curve → losses → indices → campaign → tables.
// Pure: runs in Node, Deno and the browser. Folders, workers and files are in "tg-hydrates/node".

// campaign: run sheet, mix table, cells
export { campaignFromJson } from "./campaign/campaignFromJson.ts";
export type {
  ContrastRow,
  Decisions,
  GrowthRow,
  Margin,
  PlanningRow,
  PropertyCellRow,
  Requirement,
  SufficientRow,
  TogetherRow,
} from "./campaign/decisions.ts";
export { draftSheet } from "./campaign/draftSheet.ts";
export { parseAge } from "./campaign/parseAge.ts";
export { parseMixes } from "./campaign/parseMixes.ts";
export { parseSheet } from "./campaign/parseSheet.ts";
export { planRuns } from "./campaign/planRuns.ts";
export { summarise } from "./campaign/summarise.ts";
export type { AgeRow, AmountRow, Campaign, DraftRow, Plan, PlausibilityRow, Problem } from "./campaign/types.ts";
// chemistry: what theory says, from the atomic weights
export { molarMass } from "./chemistry/molarMass.ts";
export { reactionMasses } from "./chemistry/reactionMasses.ts";
export { theoreticalLosses } from "./chemistry/theoreticalLosses.ts";
export { theoreticalSteps } from "./chemistry/theoreticalSteps.ts";
export { waterStep } from "./chemistry/waterStep.ts";
export { yeelimiteHydrates } from "./chemistry/yeelimiteHydrates.ts";
// compare: campaign and properties → decisions
export type { CompareOptions } from "./compare/compare.ts";
export { compare } from "./compare/compare.ts";
export { CompareError } from "./compare/compareError.ts";
export type { ContrastOptions } from "./compare/contrasts.ts";
export { contrasts } from "./compare/contrasts.ts";
export { growth } from "./compare/growth.ts";
export { indexCells } from "./compare/indexCells.ts";
export { parseMargin } from "./compare/parseMargin.ts";
export { parseProperties } from "./compare/parseProperties.ts";
export { parseRequirement } from "./compare/parseRequirement.ts";
export { planReplicates } from "./compare/planReplicates.ts";
export { propertyCells } from "./compare/propertyCells.ts";
export { sufficientCuring } from "./compare/sufficientCuring.ts";
export { together } from "./compare/together.ts";
export type { ComparedCell, PropertyRow } from "./compare/types.ts";
export type { MeanShape, Shape, ShapeSums } from "./curve/meanShape.ts";
// curve: what a protocol that is settled by the campaign needs
export { addShape, meanShape, shapeOf } from "./curve/meanShape.ts";
export type { Sketch } from "./curve/sketch.ts";
// curve: Run → Curve
export { sketch } from "./curve/sketch.ts";
export { subtractBlank } from "./curve/subtractBlank.ts";
export { toCurve } from "./curve/toCurve.ts";
export type { Curve, CurveOptions, Isothermal, Piece } from "./curve/types.ts";
export type { ErrorData, Place } from "./errors.ts";
export { UnreadableError } from "./errors.ts";
export type { Flag, FlagCode, Severity } from "./flags.ts";
export { flagKinds } from "./flags.ts";
// losses: Curve → losses
export { losses } from "./losses/losses.ts";
export type { Amount, Ignition, Loss, Rule, RunLosses, Window } from "./losses/types.ts";
export type { Measured, Term } from "./measured.ts";
// phases: amounts and whether they can be true
export { binderMaxima } from "./phases/binderMaxima.ts";
export { checkSubstance } from "./phases/checkSubstance.ts";
export type { SubstanceCheck } from "./phases/checkTypes.ts";
export { conversionDegree } from "./phases/conversionDegree.ts";
export { hydrationDegree } from "./phases/hydrationDegree.ts";
export { plausibility } from "./phases/plausibility.ts";
export type { BinderMaxima, Plausibility } from "./phases/plausibilityTypes.ts";
export type { AmountBasis, Basis, Corrections, Mix, PhaseResult, Uncertainty } from "./phases/types.ts";
// protocol: everything that turns a run into indices
export { checkProtocol, ProtocolError } from "./protocol/checkProtocol.ts";
export { indexBytes } from "./protocol/indexBytes.ts";
export { indexCurve } from "./protocol/indexCurve.ts";
export { indexRun } from "./protocol/indexRun.ts";
export { newJob } from "./protocol/newJob.ts";
export { protocols } from "./protocol/protocols.ts";
export { settle } from "./protocol/settle.ts";
export type {
  CellKey,
  Job,
  Protocol,
  Role,
  RunDone,
  RunFailed,
  RunResult,
  SettledProtocol,
  WindowResult,
} from "./protocol/types.ts";
// read: bytes → Run
export { parseColumns } from "./read/parseColumns.ts";
export { readRun } from "./read/readRun.ts";
export { readTable } from "./read/readTable.ts";
export type { ColumnOverride, Quantity, Reading, ReadOptions, Run, Table } from "./read/types.ts";
// render: campaign → text
export { agesCsv } from "./render/agesCsv.ts";
export { agesTable } from "./render/agesTable.ts";
export { campaignJson } from "./render/campaignJson.ts";
export { contrastsCsv } from "./render/contrastsCsv.ts";
export type { PackagedFile } from "./render/dataPackage.ts";
export { dataPackage } from "./render/dataPackage.ts";
export { decisionsText } from "./render/decisionsText.ts";
// figures: campaign → specifications, drawn by drawSvg of "tg-hydrates/node" or whatever knows Vega-Lite
export type { AgesFigureOptions } from "./render/figures/agesFigure.ts";
export { agesFigure } from "./render/figures/agesFigure.ts";
export type { BudgetFigureOptions } from "./render/figures/budgetFigure.ts";
export { budgetFigure } from "./render/figures/budgetFigure.ts";
export type { CampaignFiguresOptions } from "./render/figures/campaignFigures.ts";
export { campaignFigures } from "./render/figures/campaignFigures.ts";
export type { ContrastsFigureOptions } from "./render/figures/contrastsFigure.ts";
export { contrastsFigure } from "./render/figures/contrastsFigure.ts";
export type { CurveFigureOptions } from "./render/figures/curveFigure.ts";
export { curveFigure } from "./render/figures/curveFigure.ts";
export type { PropertyFigureOptions } from "./render/figures/propertyFigure.ts";
export { propertyFigure } from "./render/figures/propertyFigure.ts";
export { runFigure } from "./render/figures/runFigure.ts";
export type { SensitivityFigureOptions } from "./render/figures/sensitivityFigure.ts";
export { sensitivityFigure } from "./render/figures/sensitivityFigure.ts";
export type { StackFigureOptions } from "./render/figures/stackFigure.ts";
export { stackFigure } from "./render/figures/stackFigure.ts";
export type { FigureOptions, FigureWidth } from "./render/figures/theme.ts";
export type { DrawnFigure, Figure, FigureKind, FigureSpec, Json } from "./render/figures/types.ts";
export { formatNumber } from "./render/formatNumber.ts";
export { lossesCsv } from "./render/lossesCsv.ts";
export { phasesCsv } from "./render/phasesCsv.ts";
export { reportPage } from "./render/report/reportPage.ts";
export type { Report } from "./render/report/reportTypes.ts";
export { runsCsv } from "./render/runsCsv.ts";
export { terminalSafe } from "./render/terminalSafe.ts";
// simulate: the forward model
export { exampleCampaign } from "./simulate/exampleCampaign.ts";
export { exportLayouts } from "./simulate/exportLayouts.ts";
export { formatExport } from "./simulate/formatExport.ts";
export { placeReaction } from "./simulate/placeReaction.ts";
export { simulateRun } from "./simulate/simulateRun.ts";
export type { Model, Reaction, SimulatedRun } from "./simulate/types.ts";
export { version } from "./version.ts";
