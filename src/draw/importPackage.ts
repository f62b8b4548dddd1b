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
    const { code, message } = error as { code?: unknown; message?: unknown };
    // Node says ERR_MODULE_NOT_FOUND, Deno and bundlers say it in words of their own.
    const absent =
      code === "ERR_MODULE_NOT_FOUND" || /(?:cannot|could not) (?:find|resolve)|does not exist/i.test(String(message));
    const why = absent ? "" : ` It is there but does not load: ${String(message)}.`;
    throw new DrawError(`Install ${name} to draw figures: npm install ${name}.${why}`, { cause: error });
  }
}
