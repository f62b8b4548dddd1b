import { existsSync, readFileSync } from "node:fs";
import { FileError } from "./fileError.ts";

/**
 * The JSON Schema of a document, as the build wrote it.
 *
 * @throws FileError where this copy of the program was not built.
 */
export function schemaText(document: "protocol" | "campaign"): string {
  const name = `${document}.schema.json`;
  // Beside the bundle, one up from its chunks, or in the build beside the sources.
  const places = [`./schema/${name}`, `../schema/${name}`, `../../dist/schema/${name}`];
  const file = places.map((place) => new URL(place, import.meta.url)).find((url) => existsSync(url));
  if (file === undefined)
    throw new FileError(
      "not-found",
      `${name}: There is no such file, since this clone is not built. Run npm run build.`,
    );
  return readFileSync(file, "utf8");
}
