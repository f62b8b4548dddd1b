// The public face with folders and files: Node and Deno.

export { DrawError } from "./draw/drawError.ts";
export type { DrawPngOptions } from "./draw/drawPng.ts";
export { drawPng } from "./draw/drawPng.ts";
export type { DrawSvgOptions } from "./draw/drawSvg.ts";
export { drawSvg } from "./draw/drawSvg.ts";
export { decisionFiles } from "./files/decisionFiles.ts";
export { FileError } from "./files/fileError.ts";
export type { IndexedFolder, IndexFolderOptions } from "./files/indexFolder.ts";
export { indexFolder } from "./files/indexFolder.ts";
export { loadCampaign } from "./files/loadCampaign.ts";
export { outputFiles } from "./files/outputFiles.ts";
export { PlanError } from "./files/planFolder.ts";
export { readProperties } from "./files/readProperties.ts";
export type { OutputFile } from "./files/writeOutputs.ts";
export { writeOutputs } from "./files/writeOutputs.ts";
export * from "./index.ts";
