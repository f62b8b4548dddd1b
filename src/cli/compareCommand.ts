import { stat } from "node:fs/promises";
import { resolve } from "node:path";
import { parseAge } from "../campaign/parseAge.ts";
import { problemText } from "../campaign/problemText.ts";
import type { Campaign, Plan } from "../campaign/types.ts";
import { checkProperties } from "../compare/checkProperties.ts";
import { type CompareOptions, compare } from "../compare/compare.ts";
import { findRegime } from "../compare/findRegime.ts";
import { parseMargin } from "../compare/parseMargin.ts";
import { parseRequirement } from "../compare/parseRequirement.ts";
import { decisionFiles } from "../files/decisionFiles.ts";
import type { IndexedFolder } from "../files/indexFolder.ts";
import { loadCampaign } from "../files/loadCampaign.ts";
import { loadSketches } from "../files/loadSketches.ts";
import { compareOutputs } from "../files/outputNames.ts";
import { PlanError } from "../files/planFolder.ts";
import { readProperties } from "../files/readProperties.ts";
import type { CellKey } from "../protocol/types.ts";
import { campaignJson } from "../render/campaignJson.ts";
import { decisionsText } from "../render/decisionsText.ts";
import { type FolderOptions, folderCampaign } from "./folderCampaign.ts";
import type { Io } from "./io.ts";
import { prepareOut } from "./prepareOut.ts";
import { printJson } from "./printJson.ts";
import { runsToRepair } from "./runsToRepair.ts";
import { say } from "./say.ts";
import { UsageError } from "./usageError.ts";
import { writePage } from "./writePage.ts";

/** Options of the command `compare` as commander hands them over. */
export interface CompareCommandOptions extends FolderOptions {
  reference: string;
  referenceAge?: string;
  testAge?: string;
  properties?: string;
  margin?: string[];
  require?: string[];
  adjust: "holm" | "dunnett";
  welch?: boolean;
  family: "window" | "campaign";
  json?: boolean;
  figures?: string | false;
  png?: boolean;
}

/** Holds the curing regimes of a folder, or of its campaign.json, against one another: the summary on stdout, tables with `--out`. */
export async function compareCommand(source: string, options: CompareCommandOptions, io: Io): Promise<number> {
  const { out, json = false, sheet, mixes, protocol, jobs, columns, figures, png } = options;
  const { cwd } = io;
  // What is wrong with the command line or the properties is better known before the work than after it.
  const asked = askedOf(options);
  if (png || figures) await (await import("./pageFiles.ts")).checkFigures(options);
  const isFile = await stat(resolve(cwd, source)).then(
    (stats) => stats.isFile(),
    () => false,
  );
  const table = await readProperties(options.properties, { folder: isFile ? null : source, cwd });
  if (out !== undefined && table && resolve(cwd, table.name) === resolve(cwd, out, "properties.csv")) {
    throw new UsageError(
      `--out ${out}: The tables would overwrite ${table.name}, your measured properties. Name another folder.`,
    );
  }
  const properties = table?.rows ?? [];
  let remarks: string[] = [];
  const check = async (cells: readonly CellKey[]): Promise<void> => {
    const checked = checkProperties(properties, cells, table?.name ?? "");
    if (checked.problems.length > 0) throw new PlanError(checked.problems);
    remarks = checked.remarks.map(problemText);
    findRegime(asked.reference, [...cells, ...properties.map((row) => ({ ...row, age_d: days(row.age_min) }))]);
    await prepareOut(compareOutputs, { ...options, source: isFile ? null : source }, io);
  };
  let campaign: Campaign;
  let indexed: IndexedFolder | null = null;
  if (isFile) {
    campaign = loadCampaign(source, { cwd });
    await check(campaign.runs.filter(({ role }) => role === "specimen"));
  } else {
    const given = Object.entries({ sheet, mixes, protocol, out, jobs, columns });
    const known: FolderOptions = Object.fromEntries(given.filter(([, value]) => value !== undefined));
    const onPlan = ({ jobs: rows }: Plan) =>
      check(rows.flatMap((job) => (job.role === "specimen" ? [{ ...job, age_d: days(job.age_min) }] : [])));
    indexed = await folderCampaign(source, { ...known, onPlan }, io);
    if (indexed === null) return 130;
    campaign = indexed.campaign;
  }
  const decisions = compare(campaign, { ...asked, properties });
  const compared: Campaign = { ...campaign, decisions };
  if (json) printJson(io, campaignJson(compared));
  else io.stdout.write(decisionsText(decisions));
  say(io, ...remarks);
  const broken = runsToRepair(campaign);
  say(io, ...broken.lines);
  if (out !== undefined) {
    const folder = resolve(cwd, out);
    const written = await writePage(compared, out, {
      choice: { figures: figures ?? "campaign", png: png ?? false },
      page: {
        sketches: () => indexed?.sketches ?? loadSketches(source, { cwd }),
        source,
        remarks,
        ...(indexed ? { plan: indexed.plan } : {}),
      },
      files: (further) => decisionFiles(compared, { folder, further }),
      io,
    });
    if (written === null) return 130;
  }
  return broken.count > 0 ? 1 : 0;
}

function days(minutes: number | null): number | null {
  return minutes === null ? null : minutes / 1440;
}

function askedOf(options: CompareCommandOptions): Omit<CompareOptions, "properties"> {
  const {
    reference,
    referenceAge,
    testAge,
    margin = [],
    require: required = [],
    adjust,
    welch = false,
    family,
  } = options;
  if (welch && adjust === "dunnett") {
    throw new UsageError(
      "--welch: Dunnett's test needs one scatter for all cells. Leave out --welch or --adjust dunnett.",
    );
  }
  if (family === "campaign" && adjust === "dunnett") {
    throw new UsageError(
      "--family campaign: Dunnett's test needs one scatter, and each quantity has its own. Leave out --family campaign or --adjust dunnett.",
    );
  }
  return {
    reference,
    margins: margin.flatMap(parseMargin),
    requirements: required.map(parseRequirement),
    adjustment: adjust,
    scatter: welch ? "welch" : "pooled",
    family,
    ...(referenceAge === undefined ? {} : { reference_age_d: ageOption(referenceAge, "--reference-age") }),
    ...(testAge === undefined ? {} : { test_age_d: ageOption(testAge, "--test-age") }),
  };
}

/** `28d`, `4w`; a number alone is days. */
function ageOption(written: string, option: string): number {
  try {
    return parseAge(/^[\d.]+$/.test(written.trim()) ? `${written.trim()}d` : written) / 1440;
  } catch (error) {
    if (!(error instanceof SyntaxError || error instanceof RangeError)) throw error;
    throw new UsageError(`${option}: ${error.message}`);
  }
}
