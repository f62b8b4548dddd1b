/** Numbers stay beside their unit: `28 d`, `85 %`, `600 °C` do not part at the end of a line. For our words, not for names of files. */
export function noBreak(text: string): string {
  return text.replaceAll(/(\d) (?=(?:%|°C|d|h|min|g|mg|µg|mm|MPa|psi|K\/min|mol)(?![\p{L}\p{N}]))/gu, "$1\u00a0");
}
