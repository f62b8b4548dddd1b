/** Where the page speaks of a flag; null for a code that is no name. */
export function flagId(code: string): string | null {
  return /^[a-z][a-z0-9-]*$/.test(code) ? `flag-${code}` : null;
}
