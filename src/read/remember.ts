/** Most answers kept. */
const most = 500;

/** The answer of a pure function of a text, from `seen` where it was asked before. */
export function remember<T>(seen: Map<string, T>, text: string, answer: (text: string) => T): T {
  const before = seen.get(text);
  if (before !== undefined) return before;
  const value = answer(text);
  // Files of strangers must not fill the memory.
  if (seen.size >= most) seen.clear();
  seen.set(text, value);
  return value;
}
