import { createHash } from "node:crypto";

/**
 * Names inside an SVG made its own. Pictures stand in one page, and what draws them counts from 0 each time: a clip of the
 * first would cut the second.
 */
export function ownIds(svg: string): string {
  // By what is drawn: the same picture twice may share its names, and no name changes from day to day.
  const own = `p${createHash("sha256").update(svg).digest("hex").slice(0, 10)}-`;
  return svg
    .replaceAll(/(<[^<>]*\sid=")([^"]+)"/g, `$1${own}$2"`)
    .replaceAll(/url\((["']?)#([^)"']+)\1\)/g, `url($1#${own}$2$1)`)
    .replaceAll(/(\s(?:xlink:)?href="#)([^"]+)"/g, `$1${own}$2"`);
}
