/** A node of a schema, as far as its form goes; an optional one wraps another, a pipe carries the fields of its first. */
interface SchemaNode {
  entries?: Readonly<Record<string, SchemaNode>>;
  item?: SchemaNode;
  items?: readonly SchemaNode[];
  wrapped?: SchemaNode;
}

/** A protocol is nested six deep. */
const DEEPEST = 20;
/** A protocol with fifty windows, each with every field, has two thousand values. */
const MOST_VALUES = 10_000;

/**
 * What would make the check of a document's fields slow, or miss something: a document that is no protocol by its sheer size, and
 * lists where an object belongs, which pass for objects whose fields may all be absent.
 *
 * @returns One sentence per problem; the fields may be looked at only where there is none.
 */
export function documentProblems(document: object, schema: object): string[] {
  // With a list of its own instead of the stack: a stranger's document may be nested a million deep.
  const open: { value: object; depth: number; at: string; node: SchemaNode | undefined }[] = [
    { value: document, depth: 1, at: "", node: schema as SchemaNode },
  ];
  const problems: string[] = [];
  let values = 0;
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { value, depth, at, node } = next;
    if (depth > DEEPEST) return [`is no protocol: its values are nested deeper than ${DEEPEST}`];
    const { entries, item, items } = node?.wrapped ?? node ?? {};
    const list = Array.isArray(value);
    if (list && entries) problems.push(`${at} must be an object in braces {}, not a list`);
    const keys = Object.keys(value);
    values += keys.length;
    if (values > MOST_VALUES) return [`is no protocol: it has more than ${MOST_VALUES} values`];
    // The last one first, so that they are looked at in their order.
    for (const key of keys.reverse()) {
      const inner: unknown = value[key as keyof typeof value];
      if (typeof inner !== "object" || inner === null) continue;
      const known = entries && Object.hasOwn(entries, key) ? entries[key] : undefined;
      const place = list ? `${at}[${key}]` : at === "" ? key : `${at}.${key}`;
      open.push({ value: inner, depth: depth + 1, at: place, node: list ? (items?.[Number(key)] ?? item) : known });
    }
  }
  return problems;
}
