/** The first few of many names, for a sentence. */
export function someNames(names: readonly string[], options: { most?: number } = {}): string {
  const { most = 5 } = options;
  const shown = names.slice(0, most).join(", ");
  return names.length > most ? `${shown} and ${names.length - most} more` : shown;
}
