const commentMark = /^[\s#%;!*/'"|]+/;
const edges = /^[\s"';,|]+|[\s"';,|]+$/g;
/** Longest key or value that is kept. */
const longest = 300;

/**
 * Lines `key: value`, `key = value`, `key<tab>value`, `key;value` or `key,value` as metadata; of equal keys the first counts.
 * Other lines are passed over.
 *
 * @example
 * ```ts
 * readPreamble(["# Sample mass: 10.2 mg"]); // { "Sample mass": "10.2 mg" }
 * ```
 */
export function readPreamble(lines: string[]): Record<string, string> {
  const entries = new Map<string, string>();
  for (const line of lines) {
    const parts = keyAndValue(line.replace(commentMark, "").slice(0, 2 * longest));
    if (parts === null) continue;
    const key = parts[0]
      .replace(edges, "")
      .replace(/\s*[:=]$/, "")
      .replace(/^\[(.*)\]$/, "$1");
    const value = parts[1]
      .replace(edges, "")
      .replace(/^[:=]\s*/, "")
      .replace(/[\t;]+/g, " ");
    if (key !== "" && value !== "" && /\p{L}/u.test(key) && key.length <= 80 && !entries.has(key)) {
      entries.set(key, value.slice(0, longest));
    }
  }
  // Own properties whatever the key is called.
  return Object.fromEntries(entries);
}

/** A tab parts most surely, then a colon, an equals sign, a semicolon, a comma, a wide gap. */
function keyAndValue(line: string): [string, string] | null {
  for (const mark of [/\t/, /[:：](?!\\)/, /=/, /;/, /,/, /\s{2,}/]) {
    const match = mark.exec(line);
    if (match !== null && match.index > 0)
      return [line.slice(0, match.index), line.slice(match.index + match[0].length)];
  }
  return null;
}
