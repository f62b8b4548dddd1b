import { seededRandom } from "../../dist/numerics/seededRandom.js";
import { readRun } from "../../dist/read/readRun.js";
import { measure } from "./measure.js";
import { spread } from "./spread.js";

/** Ways to write one table; `cells` is what anyone would write to take a line apart. */
const layouts = {
  tab: { delimiter: "\t", comma: false, utf16: false, cells: (line) => line.split("\t") },
  "semicolon, decimal comma": {
    delimiter: ";",
    comma: true,
    utf16: false,
    cells: (line) => line.split(";").map((cell) => cell.replace(",", ".")),
  },
  blanks: { delimiter: "  ", comma: false, utf16: false, cells: (line) => line.split(/ +/) },
  "UTF-16, tab": { delimiter: "\t", comma: false, utf16: true, cells: (line) => line.split("\t") },
};

/** Reading against split + Number on the same text, in turns; lines for the terminal. */
export function reading({ megabytes, rounds, seed }) {
  const lines = [
    `reading ${megabytes} MB of text against split + Number on the same bytes`,
    `${"layout".padEnd(26)}${["ms", "MB/s", "times faster", "25–75 %"].map((s) => s.padStart(14)).join("")}`,
  ];
  for (const [name, layout] of Object.entries(layouts)) {
    const bytes = table(layout, { megabytes, seed });
    const times = measure(
      { read: () => readRun(bytes), split: () => splitAndNumber(bytes, layout) },
      { rounds, runs: 1 },
    );
    const own = spread(times.read);
    const ratio = spread(times.read.map((ms, round) => times.split[round] / ms));
    const cells = [
      own.median.toFixed(0),
      (bytes.length / 1000 / own.median).toFixed(0),
      ratio.median.toFixed(1),
      `${ratio.low.toFixed(1)}–${ratio.high.toFixed(1)}`,
    ];
    lines.push(name.padEnd(26) + cells.map((cell) => cell.padStart(14)).join(""));
  }
  return lines.join("\n");
}

/** Time, temperature, mass and a fourth column of about so many MB. */
function table({ delimiter, comma, utf16 }, { megabytes, seed }) {
  const random = seededRandom(`reading ${seed}`);
  const rows = [`Time/s${delimiter}Temperature/°C${delimiter}Mass/mg${delimiter}Flow/(mL/min)`];
  const count = Math.round((megabytes * 1e6) / (utf16 ? 72 : 36));
  for (let i = 0; i < count; i++) {
    const T = 25 + (975 * i) / count;
    const row = [(i / 10).toFixed(1), T.toFixed(4), (30 - T / 200 + 0.001 * random.normal()).toFixed(5), "50.012"];
    rows.push(comma ? row.map((cell) => cell.replace(".", ",")).join(delimiter) : row.join(delimiter));
  }
  const text = `${rows.join("\n")}\n`;
  return utf16 ? new Uint8Array(Buffer.from(`\uFEFF${text}`, "utf16le")) : new TextEncoder().encode(text);
}

function splitAndNumber(bytes, { utf16, cells }) {
  const lines = new TextDecoder(utf16 ? "utf-16le" : "utf-8").decode(bytes).split("\n");
  const columns = [0, 1, 2, 3].map(() => new Float64Array(lines.length - 2));
  for (let i = 1; i < lines.length - 1; i++) {
    const row = cells(lines[i]);
    for (let c = 0; c < 4; c++) columns[c][i - 1] = Number(row[c]);
  }
  return columns;
}
