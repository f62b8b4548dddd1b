import { agesInfo } from "./agesCsv.ts";
import { contrastsInfo } from "./contrastsCsv.ts";
import { growthInfo } from "./growthCsv.ts";
import { lossesInfo } from "./lossesCsv.ts";
import { pairsInfo } from "./pairsCsv.ts";
import { phasesInfo } from "./phasesCsv.ts";
import { planningInfo } from "./planningCsv.ts";
import { propertiesInfo } from "./propertiesCsv.ts";
import { runsInfo } from "./runsCsv.ts";
import { sufficientInfo } from "./sufficientCsv.ts";
import type { TableInfo } from "./tableInfo.ts";
import { togetherInfo } from "./togetherCsv.ts";

/** Every CSV file of an output folder, in the order of the Data Package. */
export const tables: readonly TableInfo[] = [
  runsInfo,
  lossesInfo,
  phasesInfo,
  agesInfo,
  contrastsInfo,
  growthInfo,
  propertiesInfo,
  togetherInfo,
  pairsInfo,
  sufficientInfo,
  planningInfo,
];
