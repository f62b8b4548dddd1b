import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** The folder of the repository, with a `/` at its end. */
export const root: string = fileURLToPath(new URL("../../", import.meta.url));

/** Text of a file, named from the root of the repository. */
export function textOf(file: string): string {
  return readFileSync(root + file, "utf8");
}

/** A JSON file, named from the root of the repository. */
export function jsonOf<T>(file: string): T {
  return JSON.parse(textOf(file)) as T;
}
