/** Elements that have no end tag (HTML Living Standard, 13.1.2). */
const VOID = new Set("area base br col embed hr img input link meta source track wbr".split(" "));

/** Elements before which a browser closes an open paragraph by itself (HTML Living Standard, 13.2.6.4.7), as far as we use them. */
const CLOSES_P = new Set(
  "address div dl details fieldset figure footer form h1 h2 h3 h4 header main nav ol p pre section table ul".split(" "),
);

export interface Tag {
  name: string;
  attributes: Record<string, string>;
  /** Text inside, markup left out. */
  text: string;
}

/**
 * The elements of a page in their order. Every start tag must have its end tag at the right place, and no paragraph may hold what
 * a browser would put behind it.
 *
 * @throws Error for a page that a browser would have to mend.
 */
export function tagsOf(page: string): Tag[] {
  const body = page.replace(/^<!doctype html>\n/, "");
  if (body === page) throw new Error("The page has no doctype");
  const open: Tag[] = [];
  const all: Tag[] = [];
  let end = 0;
  const text = (piece: string): void => {
    if (/[<>]/.test(open.at(-1)?.name === "style" ? "" : piece)) throw new Error(`A bracket in text: ${piece}`);
    if (/&(?!(?:amp|lt|gt|quot|#39);)/.test(piece)) throw new Error(`An ampersand in text: ${piece}`);
    for (const tag of open) tag.text += piece;
  };
  for (const match of body.matchAll(/<(\/?)([a-zA-Z][a-zA-Z0-9]*)((?:\s+[a-zA-Z-]+(?:="[^"<>]*")?)*)\s*(\/?)>/g)) {
    const [whole, close, name = "", written = "", empty] = match;
    text(body.slice(end, match.index));
    end = match.index + whole.length;
    if (close === "/") {
      const last = open.pop();
      if (last?.name !== name) throw new Error(`</${name}> closes <${last?.name}>`);
      continue;
    }
    if (CLOSES_P.has(name) && open.some((tag) => tag.name === "p")) throw new Error(`<${name}> inside <p>`);
    const attributes: Record<string, string> = {};
    for (const [, key, , value = ""] of written.matchAll(/\s+([a-zA-Z-]+)(="([^"]*)")?/g)) {
      if (Object.hasOwn(attributes, key!)) throw new Error(`${key} twice in ${whole}`);
      attributes[key!] = value;
    }
    const tag: Tag = { name, attributes, text: "" };
    all.push(tag);
    if (!VOID.has(name) && empty === "") open.push(tag);
  }
  text(body.slice(end));
  if (open.length > 0) throw new Error(`<${open.at(-1)!.name}> stays open`);
  return all;
}
