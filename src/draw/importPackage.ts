import { DrawError } from "./drawError.ts";

/**
 * A package that comes only when a figure is drawn.
 *
 * @param load Its import; stands at the caller, where bundlers and type-checkers see the name.
 * @throws DrawError that says how to get it.
 */
export async function importPackage<T>(name: string, load: () => Promise<T>): Promise<T> {
  try {
    return await load();
  } catch (error) {
    const code = (error as { code?: unknown }).code;
    const why = code === "ERR_MODULE_NOT_FOUND" || code === undefined ? "" : ` (${String(code)})`;
    throw new DrawError(`The package ${name} is not installed${why}. Run: npm install ${name}`, { cause: error });
  }
}
