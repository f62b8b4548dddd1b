import { type BinderPart, binderContents } from "./binderContents.ts";
import type { Mix } from "./types.ts";

/** What brings portlandite with it. */
const sources: readonly BinderPart[] = ["lime", "portlandite", "alite", "portlandCement"];

/**
 * The lime source that a mix declares: the text of its column `lime_source`, or lime, portlandite, alite or Portland cement among
 * its percentages. Without one, what leaves at 400–500 °C from a calcium sulfoaluminate paste is not portlandite.
 *
 * @returns null where none is declared (also by `none`, `no`, `-` or 0).
 */
export function limeSource(mix: Mix | null): string | null {
  if (mix === null) return null;
  const declared = Object.entries(mix.contents).find(([column]) => column.toLowerCase() === "lime_source")?.[1];
  if (typeof declared === "string" && !/^(?:none|no|-|–)?$/i.test(declared.trim())) return declared.trim();
  const { phases } = binderContents(mix);
  return sources.find((part) => phases[part] !== undefined) ?? null;
}
