import { terminalSafe } from "../terminalSafe.ts";
import { Html } from "./html.ts";

/** A start or end tag, its attributes all quoted; what stands in quotes may hold anything but the start of another tag. */
const TAG = /<(\/?)([a-zA-Z]+)((?:\s+[\w:.-]+=(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>/g;

const ATTRIBUTE = /\s+([\w:.-]+)=(?:"([^"]*)"|'([^']*)')/g;

/** Elements of which a drawing consists. */
const SHAPES = new Set(
  "svg g path rect line circle ellipse polyline polygon text tspan title desc defs clipPath linearGradient radialGradient stop marker pattern mask symbol use".split(
    " ",
  ),
);

/**
 * A drawing for the body of a page: its ids get a prefix, so that drawings do not mix theirs, and it is hidden from screen
 * readers, which are told its text alternative.
 *
 * @returns null for what is no SVG, or holds more than shapes and text (scripts, handlers, style sheets, links to elsewhere).
 */
export function inlineSvg(svg: string, prefix: string): Html | null {
  const start = svg.search(/<svg[\s>]/);
  const end = svg.lastIndexOf("</svg>");
  if (start < 0 || end < start) return null;
  const drawing = svg.slice(start, end + "</svg>".length);
  // Whatever is left between the tags is text: another bracket would be a comment, a declaration or no plain tag.
  if (drawing.replaceAll(TAG, "").includes("<") || !isPlain(drawing)) return null;
  const marked = drawing.replaceAll(TAG, (tag) => withPrefix(tag, prefix));
  const hidden = marked.replace(/^<svg/, '<svg aria-hidden="true" focusable="false"');
  return new Html(hidden.split(/\r?\n/).map(terminalSafe).join("\n"));
}

/** One element with shapes and text inside, every tag closed, nothing that runs or loads. */
function isPlain(drawing: string): boolean {
  const open: string[] = [];
  for (const { 0: tag, 1: end, 2: name = "", 3: written = "", 4: closed, index } of drawing.matchAll(TAG)) {
    if (!SHAPES.has(name) || (open.length === 0 && index > 0)) return false;
    if (end === "/" ? open.pop() !== name : closed === "" && open.push(name) === 0) return false;
    if (open.length === 0 && index + tag.length < drawing.length) return false;
    for (const [, attribute = "", double, single] of written.matchAll(ATTRIBUTE)) {
      if (!isHarmless(attribute, double ?? single ?? "")) return false;
    }
  }
  return open.length === 0;
}

function isHarmless(attribute: string, value: string): boolean {
  if (/^on/i.test(attribute)) return false;
  if (/(?:^|:)(?:href|src)$/i.test(attribute)) return value.startsWith("#");
  const targets = [...value.matchAll(/url\(\s*(?:&quot;|["'])?([^)"']*)/gi)];
  return targets.every(([, target]) => target!.startsWith("#"));
}

function withPrefix(tag: string, prefix: string): string {
  return tag
    .replaceAll(
      /\s(?:aria-(?:hidden|label|roledescription|labelledby|describedby)|role|focusable|tabindex)=(?:"[^"]*"|'[^']*')/g,
      "",
    )
    .replaceAll(/(\sid=["'])/g, `$1${prefix}`)
    .replaceAll(/(href=["']#|url\(\s*(?:&quot;|["'])?#)/g, `$1${prefix}`);
}
