import { createHash } from "node:crypto";
import Papa from "papaparse";
import { campaignFromJson } from "../../dist/index.js";

/**
 * What is wrong with a file under a final name, whatever campaign it is of; null where it is complete and valid.
 *
 * @param {string} name
 * @param {Buffer} bytes
 * @param {Map<string, Buffer>} whole The files of an undisturbed run: their names, and the headers of their tables.
 */
export function unsound(name, bytes, whole) {
  const text = bytes.toString("utf8");
  if (!whole.has(name) && !/^figures\/[\w.-]+\.svg$/.test(name)) return "is no output";
  try {
    if (name === "campaign.json") campaignFromJson(text, { name });
    else if (name.endsWith(".json")) JSON.parse(text);
    else if (name.endsWith(".ndjson")) {
      if (!text.endsWith("\n")) return "ends within a line";
      for (const line of text.trimEnd().split("\n")) JSON.parse(line);
    } else if (name.endsWith(".csv")) {
      const { data, errors } = Papa.parse(text, { skipEmptyLines: true });
      const header = whole.get(name).toString("utf8").split(/\r?\n/, 1)[0];
      if (errors.length > 0) return errors[0].message;
      if (!/\n$/.test(text)) return "ends within a row";
      if (text.split(/\r?\n/, 1)[0] !== header) return "has another header";
      if (data.some((row) => row.length !== data[0].length)) return "has rows of several lengths";
    } else if (name.endsWith(".svg")) {
      if (!/^<svg[\s>]/.test(text) || !/<\/svg>\s*$/.test(text)) return "is no whole picture";
    } else if (name.endsWith(".html")) {
      if (!/^<!doctype html>/i.test(text) || !/<\/html>\s*$/.test(text)) return "is no whole page";
    } else return "is of no kind that is known";
  } catch (error) {
    return error.message;
  }
  return null;
}

/** Tables that are not those which datapackage.json describes: a set of files that does not belong together. */
export function strangers(files) {
  const { resources } = JSON.parse(files.get("datapackage.json").toString("utf8"));
  return resources.flatMap(({ path, hash }) => {
    if (hash === undefined) return files.has(path) ? [] : [path];
    const own = files.has(path) && createHash("sha256").update(files.get(path)).digest("hex");
    return hash.endsWith(own) ? [] : [path];
  });
}
