// Files that must be refused, each with its exact message.
import { inventRun, utf8, withComma } from "./writing.mjs";

const wanted = "Export temperature and mass as columns of numbers, one reading per line.";
const naming =
  'Name them with --columns, or in the column "columns" of the run sheet: temperature=2:K,mass=4:mg (quantity=column[:unit], column by number or name).';
const noTable = `No table found: no two lines split, by tab, semicolon, comma, bar or blanks, into the same number (two or more) of numbers. ${wanted}`;
const lines = (...parts) => `${parts.flat().join("\n")}\n`;

export function refuseCases() {
  const cases = [];
  const add = (name, content, code, message, { line, options } = {}) => {
    const where = line === undefined ? `${name}.txt` : `${name}.txt, line ${line}`;
    cases.push({
      name,
      bytes: typeof content === "string" ? utf8(content) : Buffer.from(content),
      expected: { code, message: `${where}: ${message}`, ...(options && { options }) },
    });
  };
  nothing(add);
  otherFormats(add);
  noTables(add);
  unclearColumns(add);
  brokenTables(add);
  return cases;
}

function nothing(add) {
  add("empty", "", "empty-file", "The file is empty. Export the run again.");
  add("blanks-only", " \n\t\r\n   \n", "empty-file", "The file holds nothing but blanks. Export the run again.");
  add("nul-only", Buffer.alloc(4096), "empty-file", "The file holds nothing but blanks. Export the run again.");
  add("byte-order-mark-only", "\ufeff", "empty-file", "The file holds nothing but blanks. Export the run again.");
}

/** Files of other kinds, by the first bytes that their specifications give them, filled up with bytes of no meaning. */
function otherFormats(add) {
  const filled = (head) =>
    Buffer.concat([Buffer.from(head), Buffer.from(Array.from({ length: 600 }, (_, i) => (i * 89) % 251))]);
  const binary = (what) => `This is ${what}, not text. Export the run as a text table.`;
  const other = (what) => `This is ${what}, not a text table. ${wanted}`;
  add("picture-png", filled([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]), "binary-file", binary("a PNG picture"));
  add("picture-jpeg", filled([0xff, 0xd8, 0xff, 0xe0]), "binary-file", binary("a JPEG picture"));
  add("picture-gif", filled(utf8("GIF89a")), "binary-file", binary("a GIF picture"));
  add("picture-tiff", filled([0x49, 0x49, 0x2a, 0x00]), "binary-file", binary("a TIFF picture"));
  add("document-pdf", filled(utf8("%PDF-1.7\n")), "binary-file", binary("a PDF document"));
  add(
    "workbook-zip",
    filled([0x50, 0x4b, 0x03, 0x04]),
    "binary-file",
    binary("a ZIP archive (a spreadsheet workbook is one too)"),
  );
  add(
    "workbook-old",
    filled([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]),
    "binary-file",
    binary("an old office document (a spreadsheet workbook is one too)"),
  );
  add("compressed-gzip", filled([0x1f, 0x8b, 0x08]), "binary-file", binary("a compressed file (gzip)"));
  add("database", filled(utf8("SQLite format 3\0")), "binary-file", binary("an SQLite database"));
  add(
    "utf-32",
    Buffer.concat([Buffer.of(0xff, 0xfe, 0, 0), ...[..."T m"].map((c) => Buffer.of(c.charCodeAt(0), 0, 0, 0))]),
    "binary-file",
    binary("a text in UTF-32"),
  );
  add("bytes-of-no-kind", filled([0x01, 0x02, 0x03, 0x05]), "binary-file", binary("binary data"));
  add(
    "page-html",
    "<!DOCTYPE html>\n<html><body><table><tr><td>25.0</td><td>10.1</td></tr></table></body></html>\n",
    "not-a-table",
    other("an HTML page"),
  );
  add(
    "document-xml",
    '<?xml version="1.0"?>\n<run>\n<row T="25.0" m="10.1"/>\n<row T="26.0" m="10.0"/>\n</run>\n',
    "not-a-table",
    other("an XML document"),
  );
  add(
    "document-json",
    '{"temperature": [25.0, 26.0],\n "mass": [10.1, 10.0]}\n',
    "not-a-table",
    other("a JSON document"),
  );
  add(
    "document-rtf",
    "{\\rtf1\\ansi Temperature and mass}\n",
    "not-a-table",
    other("a word processor's document (RTF)"),
  );
  add(
    "drawing-postscript",
    "%!PS-Adobe-3.0\nnewpath moveto lineto stroke\nshowpage\n",
    "not-a-table",
    other("a PostScript drawing"),
  );
}

function noTables(add) {
  const oneColumn = `There is one column of numbers only. ${wanted}`;
  add("one-column", lines("25.0", "26.0", "27.0"), "one-column", oneColumn);
  add("one-column-with-heading", lines("Mass/mg", "10,10", "10,05", "10,01"), "one-column", oneColumn);
  add(
    "prose",
    lines(
      "The specimen was dried at 40 °C for a week.",
      "Then it was weighed and put into the furnace.",
      "Nothing else is known.",
    ),
    "no-table",
    noTable,
  );
  add("headings-only", lines("Time/s\tTemperature/°C\tMass/mg"), "no-table", noTable);
  add("one-row", lines("Time/s\tTemperature/°C\tMass/mg", "0.0\t25.00\t20.5000"), "no-table", noTable);
  add("rows-of-words", lines("a;b;c", "first;second;third", "fourth;fifth;sixth"), "no-table", noTable);
  add("preamble-only", lines("Specimen: P7", "Sample mass: 20.5 mg", "Heating rate: 10 K/min"), "no-table", noTable);
}

function unclearColumns(add) {
  const run = inventRun({ rows: 12 });
  const rows = (delimiter, cells) => run.map((row, i) => cells(row, i).join(delimiter));
  const three = rows(";", ({ t, T, m }) => [t.toFixed(1), T.toFixed(2), m.toFixed(4)]);
  const seen = (list) => `Columns seen: ${list}. ${naming}`;
  add(
    "two-temperatures",
    lines(
      "Temperature A/°C;Temperature B/°C;Mass/mg",
      rows(";", ({ T, m }) => [T.toFixed(1), (T + 7).toFixed(1), m.toFixed(3)]),
    ),
    "ambiguous-columns",
    `2 columns can be the temperature: 1 "Temperature A" [°C], 2 "Temperature B" [°C]. ${seen('1 "Temperature A" [°C], 2 "Temperature B" [°C], 3 "Mass" [mg]')}`,
  );
  add(
    "two-masses",
    lines(
      "T/°C;Mass left/mg;Mass right/mg",
      rows(";", ({ T, m }) => [T.toFixed(1), m.toFixed(3), (m + 1).toFixed(3)]),
    ),
    "ambiguous-columns",
    `2 columns can be the mass: 2 "Mass left" [mg], 3 "Mass right" [mg]. ${seen('1 "T" [°C], 2 "Mass left" [mg], 3 "Mass right" [mg]')}`,
  );
  add(
    "no-temperature",
    lines(
      "Time/s;Mass/mg",
      rows(";", ({ t, m }) => [t.toFixed(1), m.toFixed(3)]),
    ),
    "no-temperature",
    `No column can be told to be the temperature. ${seen('1 "Time" [s], 2 "Mass" [mg]')}`,
  );
  add(
    "no-mass",
    lines(
      "Time/s;Temperature/°C",
      rows(";", ({ t, T }) => [t.toFixed(1), T.toFixed(1)]),
    ),
    "no-mass",
    `No column can be told to be the mass. ${seen('1 "Time" [s], 2 "Temperature" [°C]')}`,
  );
  add(
    "only-a-rate-of-mass",
    lines(
      "Temperature/°C;DTG/(%/min)",
      rows(";", ({ T }, i) => [T.toFixed(1), (0.01 * i).toFixed(3)]),
    ),
    "no-mass",
    `No column can be told to be the mass. ${seen('1 "Temperature" [°C], 2 "DTG" [%/min]')}`,
  );
  add(
    "only-heat-flow",
    lines(
      "Temperature/°C;Heat flow/mW",
      rows(";", ({ T }, i) => [T.toFixed(1), (0.01 * i).toFixed(3)]),
    ),
    "no-mass",
    `No column can be told to be the mass. ${seen('1 "Temperature" [°C], 2 "Heat flow" [mW]')}`,
  );
  add(
    "unknown-unit-of-mass",
    lines("Time [s];Temperature [°C];Mass [lb]", three),
    "unknown-unit",
    `The unit of column 3 "Mass" [lb] is not known. ${seen('1 "Time" [s], 2 "Temperature" [°C], 3 "Mass" [lb]')}`,
  );
  add(
    "unknown-unit-of-temperature",
    lines("Time [s];Temperature [R];Mass [mg]", three),
    "unknown-unit",
    `The unit of column 2 "Temperature" [R] is not known. ${seen('1 "Time" [s], 2 "Temperature" [R], 3 "Mass" [mg]')}`,
  );
  add(
    "name-against-unit",
    lines("Time/s;Temperature/mg;Mass/mg", three),
    "no-temperature",
    `No column can be told to be the temperature. ${seen('1 "Time" [s], 2 "Temperature" [mg] (its name and its unit contradict each other), 3 "Mass" [mg]')}`,
  );
  add(
    "change-without-initial-mass",
    lines(
      "Time/s;Temperature/°C;Mass change/mg",
      rows(";", ({ t, T, m }) => [t.toFixed(1), T.toFixed(1), (m - 20.5).toFixed(3)]),
    ),
    "no-initial-mass",
    `Column 3 "Mass change" [mg] is a change of mass, and the file does not state the initial mass. Give it as initial_mass_mg in the run sheet. ${seen('1 "Time" [s], 2 "Temperature" [°C], 3 "Mass change" [mg]')}`,
  );
  const [first, last] = [run[0], run.at(-1)].map(({ m }) => Number(m.toFixed(3)));
  add(
    "two-climbing-columns-without-heading",
    lines(rows(" ", ({ T, m }) => [T.toFixed(1), (T + 4).toFixed(1), m.toFixed(3)])),
    "ambiguous-columns",
    `2 columns can be the temperature: 1, 2. Columns seen: 1 (it climbs; unit °C, since it starts at 25), 2 (it climbs; unit °C, since it starts at 29), 3 (it falls from ${first} to ${last}; unit mg, since it starts at ${first}). ${naming}`,
  );
  add(
    "numbers-of-no-meaning",
    lines("4 8 15", "16 23 42", "7 3 9", "12 1 6"),
    "no-temperature",
    `No column can be told to be the temperature. ${seen("1, 2, 3")}`,
  );
  add(
    "no-such-column",
    lines("Time/s;Temperature/°C;Mass/mg", three),
    "unknown-column",
    `There is no column "7". ${seen('1 "Time" [s], 2 "Temperature" [°C], 3 "Mass" [mg]')}`,
    { options: { columns: "mass=7" } },
  );
  add(
    "two-columns-of-one-name",
    lines("Signal;Signal;Mass/mg", three),
    "unknown-column",
    `There are 2 columns "signal". ${seen('1 "Signal", 2 "Signal", 3 "Mass" [mg]')}`,
    { options: { columns: "temperature=signal:K" } },
  );
  add(
    "unit-of-another-quantity",
    lines("Time/s;Temperature/°C;Mass/mg", three),
    "unknown-unit",
    'The unit "°C" of column 3 is none of mass. Use °C, K, °F, s, min, h, mg, µg, g, % or g/g.',
    { options: { columns: "mass=3:°C" } },
  );
  add(
    "temperature-never-written",
    lines(
      "Time/s;Temperature/°C;Mass/mg",
      run.map(({ t, m }) => `${t.toFixed(1)};n/a;${m.toFixed(4)}`),
    ),
    "no-readings",
    "Fewer than two rows have both a temperature and a mass. Export the run again.",
    { options: { columns: "temperature=2" } },
  );
}

function brokenTables(add) {
  const run = inventRun({ rows: 40 });
  const cells = ({ t, T, m }) => [t.toFixed(1), T.toFixed(2), m.toFixed(4)];
  const comma =
    "The comma is both the delimiter and the decimal mark, so the numbers can't be told apart. Export with semicolons or tabs between the columns, or with decimal points.";
  const commas = run.map((row) => cells(row).map(withComma).join(","));
  add("comma-twice", lines("Time/s,Temperature/°C,Mass/mg", commas), "comma-delimiter", comma, { line: 2 });
  add("comma-twice-without-heading", lines(commas), "comma-delimiter", comma, { line: 1 });
  const points = run.map((row) => cells(row).join(";"));
  add(
    "decimal-mark-changes",
    lines("Time/s;Temperature/°C;Mass/mg", points.slice(0, 24), points.slice(24).map(withComma)),
    "broken-table",
    "16 of 40 lines of the table can't be read (unreadable cell). Export the run again; all its rows must be written alike.",
    { line: 26 },
  );
  add(
    "decimal-mark-changes-early",
    lines("Time/s;Temperature/°C;Mass/mg", points.slice(0, 16).map(withComma), points.slice(16)),
    "broken-table",
    "16 of 40 lines of the table can't be read (unreadable cell). Export the run again; all its rows must be written alike.",
    { line: 2 },
  );
  add(
    "cells-lost-in-many-rows",
    lines(
      "Time/s;Temperature/°C;Mass/mg",
      points.map((row, i) => (i % 3 === 1 ? row.slice(0, row.lastIndexOf(";")) : row)),
    ),
    "broken-table",
    "13 of 40 lines of the table can't be read (wrong number of cells). Export the run again; all its rows must be written alike.",
    { line: 3 },
  );
  add(
    "garbage-in-many-rows",
    lines(
      "Time/s;Temperature/°C;Mass/mg",
      points.map((row, i) => (i % 4 === 2 ? row.replace(/\d\./, "x.") : row)),
    ),
    "broken-table",
    "10 of 40 lines of the table can't be read (unreadable cell). Export the run again; all its rows must be written alike.",
    { line: 4 },
  );
}
