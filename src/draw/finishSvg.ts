import type { FigureSpec } from "../render/figures/types.ts";
import type { DrawSvgOptions } from "./drawSvg.ts";

/** Attributes that hold lengths; two decimals of a px are finer than any print. */
const lengths =
  /(?<= (?:d|transform|x|y|x1|y1|x2|y2|dx|dy|width|height|points|font-size|stroke-width|stroke-dasharray|opacity|fill-opacity|stroke-opacity)=")[^"]*(?=")/g;

/** Grounds of groups that have neither fill nor stroke. */
const unseen = /^<path class="(?:fore|back)ground"(?![^>]* (?:fill|stroke)=)[^>]*\/>$/;

/** Roles that name parts of a chart to nobody: the picture as a whole has its text; and what says nothing. */
const needless =
  /(?<=<\w[^>]*) (?:class|role|aria-roledescription|aria-hidden|pointer-events|opacity)="(?:1|[^"]*[a-z][^"]*)"/g;

/**
 * What vega draws, made fit to stand alone and in a page: lengths rounded, ids that are unique in a page and the same every time,
 * the frame that the specification asks for, role, title and description.
 */
export function finishSvg(raw: string, spec: FigureSpec, options: DrawSvgOptions): string {
  const inner = raw.slice(raw.indexOf(">", raw.indexOf("<svg")) + 1, raw.lastIndexOf("</svg>"));
  const tidy = inner.replaceAll(/<[a-zA-Z][^<>]*>/g, (tag) => (unseen.test(tag) ? "" : tidyTag(tag)));
  const [font] = / font-family="[^"]*"/.exec(tidy) ?? [""];
  const body = uniqueIds(font === "" ? tidy : tidy.replaceAll(font, ""));
  const [x, y, width, height] = frameOf(raw, spec);
  const meta = spec.usermeta as { title?: unknown } | undefined;
  const title = options.title ?? (typeof meta?.title === "string" ? meta.title : "");
  const alt = options.alt ?? (typeof spec.description === "string" ? spec.description : "");
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img"${font} width="${width}" height="${height}" viewBox="${x} ${y} ${width} ${height}">`,
    title === "" ? "" : `<title>${escaped(title)}</title>`,
    alt === "" ? "" : `<desc>${escaped(alt)}</desc>`,
    // The frame's own ground: vega's covers only what it measured.
    `<rect x="${x}" y="${y}" width="${width}" height="${height}" fill="#ffffff"/>`,
    body,
    "</svg>\n",
  ].join("");
}

function tidyTag(tag: string): string {
  return tag.replaceAll(needless, "").replaceAll(lengths, (text) => text.replaceAll(/-?\d+\.\d+(?:e-?\d+)?/g, round));
}

/** Edge of the picture: that of the specification about the corner of its first view, else what vega measured. */
function frameOf(raw: string, spec: FigureSpec): [number, number, number, number] {
  const [, ...box] = /viewBox="(\S+) (\S+) (\S+) (\S+)"/.exec(raw) ?? [];
  const [left, top, width, height] = box.map(Number) as [number, number, number, number];
  const frame = (spec.usermeta as { frame?: unknown } | undefined)?.frame;
  if (!Array.isArray(frame) || frame.length !== 4 || !frame.every(Number.isFinite)) {
    return [left, top, width, height].map((one) => Number(round(String(one)))) as [number, number, number, number];
  }
  const [, dx = "0", dy = "0"] = /<g[^>]* transform="translate\(([^,)]+),([^,)]+)\)"/.exec(raw) ?? [];
  const [fx, fy, fw, fh] = frame as [number, number, number, number];
  return [Number(round(String(Number(dx) + fx))), Number(round(String(Number(dy) + fy))), fw, fh];
}

function round(text: string): string {
  return String(Math.round(Number(text) * 100) / 100 + 0);
}

/** Vega numbers its ids through the life of the process; two figures of a page must not share one. */
function uniqueIds(body: string): string {
  const ids = [...new Set([...body.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id!))];
  if (ids.length === 0) return body;
  let plain = body;
  for (const [i, id] of ids.entries()) plain = renamed(plain, id, `_${i}`);
  const stamp = checksum(plain);
  return ids.reduce((text, _, i) => renamed(text, `_${i}`, `f${stamp}-${i}`), plain);
}

function renamed(body: string, from: string, to: string): string {
  return body.replaceAll(` id="${from}"`, ` id="${to}"`).replaceAll(`url(#${from})`, `url(#${to})`);
}

function checksum(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return hash.toString(36);
}

/** Text inside an element; characters that XML has no place for become a replacement character. */
function escaped(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, "\ufffd");
}
