/** Hyphens that stand for a minus become one: `-3.5 [-5.2, -1.9]`. */
export function plainNumbers(text: string): string {
  return text.replaceAll(/(?<=^|[\s[(±])-(?=\d)/g, "−");
}
