/** Names that some file systems keep for themselves. */
const reserved = /^(?:con|prn|aux|nul|com\d|lpt\d)$/;

/**
 * Name of a figure's file: lower-case letters, digits and hyphens, no longer than 80. Where letters of a label are lost this way,
 * the name ends in a checksum (FNV-1a) of the whole, so that different labels keep different names.
 */
export function figureName(...parts: readonly (string | null)[]): string {
  const words = parts.filter((part) => part !== null).join("-");
  const plain = words
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, "-")
    .replaceAll(/^-|-$/g, "");
  const lossless = /^[\w ./:-]+$/.test(words) && plain.length <= 80 && !reserved.test(plain);
  return lossless ? plain : `${plain.slice(0, 70).replace(/-$/, "")}-${checksum(JSON.stringify(parts))}`;
}

function checksum(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return hash.toString(36);
}
