import { stat } from "node:fs/promises";
import { resolve } from "node:path";
import { parseAge } from "../campaign/parseAge.ts";
import type { Campaign } from "../campaign/types.ts";
import { type CompareOptions, compare } from "../compare/compare.ts";
import { parseMargin } from "../compare/parseMargin.ts";
import { parseRequirement } from "../compare/parseRequirement.ts";
import { decisionFiles } from "../files/decisionFiles.ts";
import { loadCampaign } from "../files/loadCampaign.ts";
import { loadProperties } from "../files/loadProperties.ts";
import { makeFolder } from "../files/makeFolder.ts";
import { writeOutputs } from "../files/writeOutputs.ts";
import { campaignJson } from "../render/campaignJson.ts";
import { decisionsText } from "../render/decisionsText.ts";
import { type FolderOptions, folderCampaign } from "./folderCampaign.ts";
import type { Io } from "./io.ts";
import { printJson } from "./printJson.ts";
import { runsToRepair } from "./runsToRepair.ts";
import { say } from "./say.ts";
import { UsageError } from "./usageError.ts";

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
}

/** Holds the curing regimes of a folder, or of its campaign.json, against one another: the summary on stdout, tables with `--out`. */
export async function compareCommand(source: string, options: CompareCommandOptions, io: Io): Promise<number> {
  const { out, json = false } = options;
  // What is wrong with the command line is better known before the work than after it.
  const asked = askedOf(options);
  const isFile = await stat(resolve(io.cwd, source)).then(
    (stats) => stats.isFile(),
    () => false,
  );
  const ready = async (): Promise<void> => {
    if (out !== undefined) await makeFolder(resolve(io.cwd, out), { name: out });
  };
  const campaign = isFile ? loadCampaign(source, { cwd: io.cwd }) : await folderRuns(source, options, { io, ready });
  if (campaign === null) return 130;
  const table = await loadProperties(campaign, options.properties, { folder: isFile ? null : source, cwd: io.cwd });
  if (out !== undefined && table && resolve(io.cwd, table.name) === resolve(io.cwd, out, "properties.csv")) {
    throw new UsageError(
      `--out ${out}: The tables would overwrite ${table.name}, your measured properties. Name another folder.`,
    );
  }
  const decisions = compare(campaign, { ...asked, ...(table ? { properties: table.rows } : {}) });
  const compared: Campaign = { ...campaign, decisions };
  if (json) printJson(io, campaignJson(compared));
  else io.stdout.write(decisionsText(decisions));
  say(io, ...(table?.remarks ?? []));
  const broken = runsToRepair(campaign);
  say(io, ...broken.lines);
  if (out !== undefined) {
    await ready();
    const files = decisionFiles(compared);
    await writeOutputs(resolve(io.cwd, out), files, { name: out });
    say(io, `Wrote ${files.map(({ name }) => name).join(", ")} to ${out}`);
  }
  return broken.count > 0 ? 1 : 0;
}

async function folderRuns(
  folder: string,
  options: CompareCommandOptions,
  { io, ready }: { io: Io; ready: () => Promise<void> },
): Promise<Campaign | null> {
  const { sheet, mixes, protocol, out, jobs, columns } = options;
  const given = { sheet, mixes, protocol, out, jobs, columns };
  const known = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined));
  const indexed = await folderCampaign(folder, { ...known, onPlan: ready }, io);
  return indexed?.campaign ?? null;
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
