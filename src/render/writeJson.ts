import { type ByteSink, makeRoom } from "./byteSink.ts";
import type { KeyOrder } from "./keyOrder.ts";
import { writeNumber } from "./writeNumber.ts";

/** The keys of an order with the bytes that stand before their values. */
interface Layout {
  keys: { key: string; label: Uint8Array; inner: KeyOrder }[];
  known: ReadonlySet<string>;
}

/** Orders are constants, and every value of a campaign is written by one. */
const layouts = new WeakMap<object, Layout>();
const [COMMA, QUOTE, COLON, BACKSLASH] = [0x2c, 0x22, 0x3a, 0x5c];
const [OPEN_LIST, CLOSE_LIST, OPEN_OBJECT, CLOSE_OBJECT] = [0x5b, 0x5d, 0x7b, 0x7d];

/**
 * Writes plain data as JSON on one line, UTF-8, numbers at 9 significant digits. Keys stand in the given order, others after them
 * by code unit; a list passes the order on to its items. `undefined` is left out.
 *
 * @throws RangeError for NaN and infinities.
 */
export function writeJson(sink: ByteSink, value: unknown, order: KeyOrder = true): void {
  if (typeof value === "number") writeNumber(sink, value);
  else if (typeof value === "string") writeText(sink, value);
  else if (value === null || typeof value !== "object") writeEncoded(sink, JSON.stringify(value) ?? "null");
  else if (Array.isArray(value)) writeList(sink, value, order);
  else writeObject(sink, value as Record<string, unknown>, order);
}

function writeList(sink: ByteSink, items: readonly unknown[], order: KeyOrder): void {
  writeByte(sink, OPEN_LIST);
  for (let i = 0; i < items.length; i++) {
    if (i > 0) writeByte(sink, COMMA);
    writeJson(sink, items[i], order);
  }
  writeByte(sink, CLOSE_LIST);
}

function writeObject(sink: ByteSink, object: Record<string, unknown>, order: KeyOrder): void {
  const { keys, known } = order === true ? unordered : layoutOf(order);
  writeByte(sink, OPEN_OBJECT);
  let first = true;
  let seen = 0;
  for (let i = 0; i < keys.length; i++) {
    const { key, label, inner } = keys[i]!;
    // No key of an order is one that every object inherits.
    const item = object[key];
    if (item === undefined) continue;
    seen++;
    if (!first) writeByte(sink, COMMA);
    first = false;
    writeBytes(sink, label);
    writeJson(sink, item, inner);
  }
  const own = Object.keys(object);
  const others = own.length === seen ? [] : own.filter((key) => object[key] !== undefined && !known.has(key)).sort();
  for (const key of others) {
    if (!first) writeByte(sink, COMMA);
    first = false;
    writeText(sink, key);
    writeByte(sink, COLON);
    writeJson(sink, object[key]);
  }
  writeByte(sink, CLOSE_OBJECT);
}

const unordered: Layout = { keys: [], known: new Set() };

function layoutOf(order: Exclude<KeyOrder, true>): Layout {
  const made = layouts.get(order);
  if (made) return made;
  const keys = Object.entries(order).map(([key, inner]) => ({
    key,
    // Keys of an order are ASCII.
    label: Uint8Array.from(`"${key}":`, (character) => character.charCodeAt(0)),
    inner,
  }));
  const layout = { keys, known: new Set(Object.keys(order)) };
  layouts.set(order, layout);
  return layout;
}

function writeText(sink: ByteSink, text: string): void {
  makeRoom(sink, text.length + 2);
  const { bytes } = sink;
  let at = sink.end;
  bytes[at++] = QUOTE;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    // What must be escaped, and what is more than one byte, is rare: those who know write the whole text anew.
    if (code < 0x20 || code > 0x7e || code === QUOTE || code === BACKSLASH) {
      writeEncoded(sink, JSON.stringify(text));
      return;
    }
    bytes[at++] = code;
  }
  bytes[at++] = QUOTE;
  sink.end = at;
}

/** UTF-8 (RFC 3629); JSON.stringify leaves no half of a surrogate pair. */
function writeEncoded(sink: ByteSink, text: string): void {
  makeRoom(sink, 3 * text.length);
  const { bytes } = sink;
  let at = sink.end;
  for (const character of text) {
    const point = character.codePointAt(0)!;
    if (point < 0x80) bytes[at++] = point;
    else {
      if (point < 0x800) bytes[at++] = 0xc0 | (point >> 6);
      else {
        if (point < 0x10000) bytes[at++] = 0xe0 | (point >> 12);
        else {
          bytes[at++] = 0xf0 | (point >> 18);
          bytes[at++] = 0x80 | ((point >> 12) & 63);
        }
        bytes[at++] = 0x80 | ((point >> 6) & 63);
      }
      bytes[at++] = 0x80 | (point & 63);
    }
  }
  sink.end = at;
}

function writeBytes(sink: ByteSink, bytes: Uint8Array): void {
  makeRoom(sink, bytes.length);
  const { bytes: target, end } = sink;
  for (let i = 0; i < bytes.length; i++) target[end + i] = bytes[i]!;
  sink.end += bytes.length;
}

function writeByte(sink: ByteSink, byte: number): void {
  makeRoom(sink, 1);
  sink.bytes[sink.end++] = byte;
}
