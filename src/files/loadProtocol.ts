import { resolve } from "node:path";
import { nearestName } from "../nearestName.ts";
import { checkProtocol } from "../protocol/checkProtocol.ts";
import { protocols } from "../protocol/protocols.ts";
import type { Protocol } from "../protocol/types.ts";
import { FileError } from "./fileError.ts";
import { jsonFault } from "./jsonFault.ts";
import { readText } from "./readText.ts";

/**
 * A protocol by the name of a built-in one, or from a JSON file.
 *
 * @param named `csa`, or a path; a file called `csa` is `./csa`.
 * @param options `cwd` that a relative path starts from. @default the process's
 * @throws FileError for a file that cannot be read or is no JSON (line and column); ProtocolError for one that cannot work.
 */
export function loadProtocol(named: string, options: { cwd?: string } = {}): Protocol {
  const known = Object.entries(protocols).find(([name]) => name === named);
  if (known) return known[1];
  const text = readProtocol(named, resolve(options.cwd ?? "", named)).replace(/^\uFEFF/, "");
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch (error) {
    const fault = jsonFault(text);
    if (fault === null) throw error;
    const { line, column, what } = fault;
    throw new FileError("not-json", `${named}, line ${line}, column ${column}: This is no JSON. ${what}`);
  }
  return checkProtocol(document, { name: named });
}

function readProtocol(named: string, path: string): string {
  try {
    return readText(path, { name: named, wanted: "protocol" });
  } catch (error) {
    if (!(error instanceof FileError && error.code === "not-found")) throw error;
    const names = Object.keys(protocols);
    const nearest = nearestName(named, names);
    const help = nearest === null ? `Built-in ones: ${names.join(", ")}` : `Did you mean ${nearest}?`;
    throw new FileError("not-found", `${named}: There is no such protocol, built in or as a file. ${help}`, {
      cause: error,
    });
  }
}
