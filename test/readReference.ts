import { readFileSync } from "node:fs";

/** Reference numbers of test/reference/NAME.json; the script that made them stands beside them. */
export function readReference<T>(name: string): T {
  return JSON.parse(readFileSync(new URL(`./reference/${name}.json`, import.meta.url), "utf8")) as T;
}
