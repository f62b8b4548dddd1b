/** Leading bytes of common formats that are not text (their published specifications). */
const signatures: [string, number[]][] = [
  ["a PNG picture", [0x89, 0x50, 0x4e, 0x47]],
  ["a JPEG picture", [0xff, 0xd8, 0xff]],
  ["a GIF picture", [0x47, 0x49, 0x46, 0x38]],
  ["a TIFF picture", [0x49, 0x49, 0x2a, 0x00]],
  ["a TIFF picture", [0x4d, 0x4d, 0x00, 0x2a]],
  ["a PDF document", [0x25, 0x50, 0x44, 0x46, 0x2d]],
  ["a ZIP archive (a spreadsheet workbook is one too)", [0x50, 0x4b, 0x03, 0x04]],
  ["a compressed file (gzip)", [0x1f, 0x8b]],
  ["a compressed file (7z)", [0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c]],
  ["an old office document (a spreadsheet workbook is one too)", [0xd0, 0xcf, 0x11, 0xe0]],
  ["a text in UTF-32", [0xff, 0xfe, 0x00, 0x00]],
  ["a text in UTF-32", [0x00, 0x00, 0xfe, 0xff]],
  ["an HDF5 file", [0x89, 0x48, 0x44, 0x46]],
  ["an SQLite database", [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65, 0x20, 0x66]],
];

/** Share of control characters above which bytes are no text. */
const tolerated = 0.02;

/** What a file is that is not text: a known format, or bytes full of control characters; null where it may be text. */
export function nameBinary(bytes: Uint8Array): string | null {
  for (const [name, signature] of signatures) {
    if (signature.every((byte, i) => bytes[i] === byte)) return name;
  }
  const length = Math.min(bytes.length, 8192);
  let controls = 0;
  for (let i = 0; i < length; i++) {
    const byte = bytes[i]!;
    // Tab, line feed, vertical tab, form feed, carriage return, end-of-file mark and NUL (UTF-16, padding) occur in text.
    if (byte < 32 && byte !== 0 && (byte < 9 || byte > 13) && byte !== 0x1a) controls++;
  }
  return controls > tolerated * length && controls > 2 ? "binary data" : null;
}
