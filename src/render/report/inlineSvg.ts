import { terminalSafe } from "../terminalSafe.ts";
import { Html } from "./html.ts";

/** A start or end tag with its attributes; what stands in quotes may hold anything. */
const TAG = /<\/?[a-zA-Z](?:[^"'<>]|"[^"]*"|'[^']*')*>/g;

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
  // Whatever is left between the tags is text: another bracket would be a comment, a declaration or a tag cut short.
  if (drawing.replaceAll(TAG, "").includes("<")) return null;
  const tags = drawing.match(TAG)!;
  if (tags.some((tag) => !isPlain(tag))) return null;
  const marked = drawing.replaceAll(TAG, (tag) => withPrefix(tag, prefix));
  const hidden = marked.replace(/^<svg/, '<svg aria-hidden="true" focusable="false"');
  return new Html(hidden.split(/\r?\n/).map(terminalSafe).join("\n"));
}

function isPlain(tag: string): boolean {
  const name = /^<\/?([^\s/>]+)/.exec(tag)![1]!;
  if (!SHAPES.has(name)) return false;
  if (/\son[a-z]+\s*=/i.test(tag)) return false;
  const targets = [
    ...tag.matchAll(/(?:href|src)\s*=\s*["']([^"']*)/gi),
    ...tag.matchAll(/url\(\s*(?:&quot;|["'])?([^)"']*)/gi),
  ];
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
