// Layouts that must open. Every case writes an invented run and states what a reader must understand of it.
import { expectation, half, inventRun, utf8, utf16be, utf16le, windows1252, withComma } from "./writing.mjs";

/** Columns of the plain table: time in s with one decimal, temperature with two, mass with four. */
const plainColumns = [
  ["Time", "s", "time"],
  ["Temperature", "°C", "temperature"],
  ["Mass", "mg", "mass"],
];
const plainTolerance = [half(2), half(4), 2 * half(1)];
const cellsOf = ({ t, T, m }) => [t.toFixed(1), T.toFixed(2), m.toFixed(4)];
const table = (run, delimiter, cells = cellsOf) => run.map((row) => cells(row).join(delimiter));
const lines = (...parts) => `${parts.flat().join("\n")}\n`;

export function acceptCases() {
  const cases = [];
  const add = (name, bytes, run, expected) => {
    const full = { tolerance: plainTolerance, columns: plainColumns, ...expected };
    cases.push({ name, bytes: typeof bytes === "string" ? utf8(bytes) : bytes, expected: expectation(run, full) });
  };
  const run = inventRun();
  encodings(add, run);
  surroundings(add, run);
  headings(add, run);
  delimiters(add, run);
  cells(add, run);
  segments(add);
  quantities(add, run);
  clocks(add, run);
  languages(add, run);
  guesses(add, run);
  oddities(add);
  return cases;
}

function encodings(add, run) {
  const head = "Time/s\tTemperature/°C\tMass/mg";
  const text = lines(head, table(run, "\t"));
  add("utf-8-tab", text, run, {});
  add("utf-8-byte-order-mark", `\ufeff${text}`, run, {});
  add("utf-16le-byte-order-mark", utf16le(`\ufeff${text}`), run, { encoding: "utf-16le" });
  add("utf-16be-byte-order-mark", utf16be(`\ufeff${text.replaceAll("\n", "\r\n")}`), run, { encoding: "utf-16be" });
  add("utf-16le-without-mark", utf16le(text), run, { encoding: "utf-16le" });
  add("utf-16be-without-mark", utf16be(text), run, { encoding: "utf-16be" });
  const remark = lines("Remark: dried – 40 ‰ moisture", head, table(run, "\t"));
  add("windows-1252", windows1252(remark), run, {
    encoding: "windows-1252",
    metadata: { Remark: "dried – 40 ‰ moisture" },
  });
  // One stray byte makes the text no UTF-8: then the degree sign is two windows-1252 characters.
  const stray = Buffer.concat([utf8("Note: caf"), Buffer.of(0xe9), utf8(`\n${text}`)]);
  add("utf-8-with-a-stray-byte", stray, run, {
    encoding: "windows-1252",
    metadata: { Note: "café" },
    columns: [plainColumns[0], ["Temperature", "Â°C", "temperature"], plainColumns[2]],
  });
  add("line-ends-dos", text.replaceAll("\n", "\r\n"), run, { lines: [2, 41] });
  add("line-ends-mac", text.replaceAll("\n", "\r"), run, { lines: [2, 41] });
  let count = 0;
  const mixed = text.replaceAll("\n", () => ["\n", "\r\n", "\r"][count++ % 3]);
  add("line-ends-mixed", mixed, run, { lines: [2, 41] });
  add("no-last-line-end", text.slice(0, -1), run, { lines: [2, 41] });
  add("padded-with-nul", Buffer.concat([utf8(text), Buffer.alloc(700)]), run, {});
  add("end-of-file-mark", `${text}\u001a`, run, {});
  const cut = inventRun().slice(0, 30);
  add("cut-in-the-last-row", lines(head, table(cut, "\t")) + table(run, "\t")[30].slice(0, 9), cut, {
    rows_dropped: [{ reason: "incomplete last line", count: 1, lines: [32] }],
    flags: ["rows-dropped"],
  });
  add("cut-in-the-last-number", lines(head, table(cut, "\t")) + table(run, "\t")[30].slice(0, -2), cut, {
    rows_dropped: [{ reason: "incomplete last line", count: 1, lines: [32] }],
    flags: ["rows-dropped"],
  });
}

function surroundings(add, run) {
  const rows = table(run, "\t");
  const head = "Time/s\tTemperature/°C\tMass/mg";
  add(
    "preamble-with-colons",
    lines(
      "Specimen: P3, cured 7 d",
      "Weighed in: 20.5 mg",
      "Sample mass: 20.48 mg",
      "Heating rate: 10 K/min",
      "Atmosphere: nitrogen",
      "",
      head,
      rows,
    ),
    run,
    {
      stated: { initial_mass_mg: 20.48, heating_rate_K_per_min: 10, gas: "nitrogen" },
      metadata: {
        Specimen: "P3, cured 7 d",
        "Sample mass": "20.48 mg",
        "Heating rate": "10 K/min",
        Atmosphere: "nitrogen",
      },
      lines: [8, 47],
    },
  );
  add(
    "preamble-with-tabs",
    lines("Specimen\tP3", "Initial mass\t20.5\tmg", "Ramp\t10.0 °C/min", "Purge gas\targon", head, rows),
    run,
    {
      stated: { initial_mass_mg: 20.5, heating_rate_K_per_min: 10, gas: "argon" },
      metadata: { Specimen: "P3", "Initial mass": "20.5 mg", Ramp: "10.0 °C/min", "Purge gas": "argon" },
    },
  );
  add(
    "preamble-with-commas",
    lines(
      "Specimen,P3",
      "Sample mass (mg),20.5",
      "Heating rate (K/min),10",
      "Gas,synthetic air",
      "Time (s),Temperature (°C),Mass (mg)",
      table(run, ","),
    ),
    run,
    {
      delimiter: ",",
      stated: { initial_mass_mg: 20.5, heating_rate_K_per_min: 10, gas: "synthetic air" },
      metadata: { "Sample mass (mg)": "20.5", "Heating rate (K/min)": "10" },
    },
  );
  const long = Array.from({ length: 300 }, (_, i) => `Parameter ${i + 1}: ${(i * 7.25).toFixed(2)}`);
  add("preamble-of-300-lines", lines(long, head, rows), run, {
    metadata: { "Parameter 1": "0.00", "Parameter 300": "2167.75" },
    lines: [302, 341],
  });
  add("preamble-with-numbers-only", lines("3", "12 14 18", "7.5", head, rows), run, { lines: [5, 44] });
  add("comment-marks", lines("# exported table", "# Sample weight = 20.50 mg", `# ${head}`, rows), run, {
    stated: { initial_mass_mg: 20.5, heating_rate_K_per_min: null, gas: null },
    metadata: { "Sample weight": "20.50 mg" },
  });
  add("comment-percent-blanks", lines("% a table", "% t/s T/°C m/mg", table(run, " ")), run, {
    delimiter: " ",
    columns: [
      ["t", "s", "time"],
      ["T", "°C", "temperature"],
      ["m", "mg", "mass"],
    ],
  });
  add("ruler-and-blank-lines", lines("Results", "", head, "-----\t-----\t-----", "", rows), run, {});
  add("footer", lines(head, rows, "", "End of the readings", "Operator: N.N."), run, {
    rows_dropped: [{ reason: "text after the table", count: 2, lines: [43, 44] }],
    metadata: { Operator: "N.N." },
  });
  add(
    "blank-line-after-every-row",
    lines(
      head,
      rows.flatMap((row) => [row, ""]),
    ),
    run,
    { lines: [2, 80] },
  );
  add("remark-inside-the-table", lines(head, rows.slice(0, 20), "gas switched here", rows.slice(20)), run, {
    rows_dropped: [{ reason: "text inside the table", count: 1, lines: [22] }],
    lines: [2, 42],
  });
  const summary = ["Step\tFrom\tTo", "1\t60\t180", "2\t200\t320", "3\t620\t760"];
  add("small-table-above", lines("Steps", summary, "", "Readings", head, rows), run, {
    rows_dropped: [{ reason: "row of another table", count: 3, lines: [3, 4, 5] }],
    flags: ["rows-dropped"],
    lines: [9, 48],
  });
  add("small-table-below", lines(head, rows, "", summary), run, {
    rows_dropped: [
      { reason: "text after the table", count: 1, lines: [43] },
      { reason: "row of another table", count: 3, lines: [44, 45, 46] },
    ],
    flags: ["rows-dropped"],
  });
}

function headings(add, run) {
  const rows = table(run, "\t");
  const named = (name, heading, columns, more = {}) => add(name, lines(heading, rows), run, { columns, ...more });
  named("unit-in-brackets", "Time [s]\tTemperature [°C]\tMass [mg]", plainColumns);
  named("unit-after-comma", "Time, s\tTemperature, °C\tMass, mg", plainColumns);
  named("unit-after-in", "Time in s\tTemperature in °C\tMass in mg", plainColumns);
  named("unit-after-underscore", "Time_s\tTemperature_degC\tMass_mg", [
    ["Time", "s", "time"],
    ["Temperature", "degC", "temperature"],
    ["Mass", "mg", "mass"],
  ]);
  named("unit-row", ["Time\tTemperature\tMass", "s\t°C\tmg"], plainColumns, { lines: [3, 42] });
  named("unit-row-in-brackets", ["Time\tTemperature\tMass", "(s)\t(°C)\t(mg)"], plainColumns);
  named("unit-row-and-remarks", ["Time\tTemperature\tMass", "s\t°C\tmg", "from start\t\tfirst aliquot"], plainColumns);
  named("units-alone", "s\t°C\tmg", [
    ["", "s", "time", "unit"],
    ["", "°C", "temperature", "unit"],
    ["", "mg", "mass", "unit"],
  ]);
  add(
    "names-in-two-rows",
    lines(
      "Time\tFurnace\tSpecimen\tSpecimen",
      "\ttemp. (°C)\ttemp. (°C)\tmass (mg)",
      table(run, "\t", ({ t, T, m }) => [(t / 60).toFixed(3), (T + 4).toFixed(2), T.toFixed(2), m.toFixed(4)]),
    ),
    run,
    {
      tolerance: [half(2), half(4), 120 * half(3)],
      columns: [
        ["Time", "", "time"],
        ["Furnace temp.", "°C", "furnace-temperature"],
        ["Specimen temp.", "°C", "temperature"],
        ["Specimen mass", "mg", "mass"],
      ],
      flags: ["columns-guessed"],
    },
  );
  add(
    "heading-set-above-its-columns",
    lines(
      "     Elapsed    Specimen    Specimen",
      "    time (s)   temp (°C)   mass (mg)",
      run.map(({ t, T, m }) => t.toFixed(1).padStart(12) + T.toFixed(2).padStart(12) + m.toFixed(4).padStart(12)),
    ),
    run,
    {
      delimiter: " ",
      columns: [
        ["time", "s", "time"],
        ["temp", "°C", "temperature"],
        ["mass", "mg", "mass"],
      ],
    },
  );
  add("no-heading", lines(table(run, ";")), run, {
    delimiter: ";",
    columns: [
      ["", "", "time", "behaviour"],
      ["", "", "temperature", "behaviour"],
      ["", "", "mass", "behaviour"],
    ],
    flags: ["columns-guessed"],
    lines: [1, 40],
  });
}

function delimiters(add, run) {
  const head = ["Time/s", "Temperature/°C", "Mass/mg"];
  const commas = (row) => cellsOf(row).map(withComma);
  add("semicolon-point", lines(head.join(";"), table(run, ";")), run, { delimiter: ";" });
  add("semicolon-comma", lines(head.join(";"), table(run, ";", commas)), run, { delimiter: ";", decimal_mark: "," });
  add("tab-comma", lines(head.join("\t"), table(run, "\t", commas)), run, { decimal_mark: "," });
  add("comma-point", lines(head.join(","), table(run, ",")), run, { delimiter: "," });
  add("comma-blank-point", lines(head.join(", "), table(run, ", ")), run, { delimiter: "," });
  add("blank-comma", lines(head.join(" "), table(run, " ", commas)), run, { delimiter: " ", decimal_mark: "," });
  add(
    "blanks-aligned",
    lines(
      "  Time/s   Temperature/°C   Mass/mg",
      run.map((row) =>
        cellsOf(row)
          .map((cell) => cell.padStart(11))
          .join(""),
      ),
    ),
    run,
    { delimiter: " " },
  );
  add(
    "pipes",
    lines(
      `| ${head.join(" | ")} |`,
      "|---:|---:|---:|",
      run.map((row) => `| ${cellsOf(row).join(" | ")} |`),
    ),
    run,
    { delimiter: "|" },
  );
  add("pipes-bare", lines(head.join("|"), table(run, "|", commas)), run, { delimiter: "|", decimal_mark: "," });
  add(
    "quoted-comma-comma",
    lines(
      head.map((cell) => `"${cell}"`).join(","),
      run.map((row) =>
        commas(row)
          .map((cell) => `"${cell}"`)
          .join(","),
      ),
    ),
    run,
    { delimiter: ",", decimal_mark: "," },
  );
  add(
    "quoted-all",
    lines(
      head.map((cell) => `"${cell}"`).join(";"),
      run.map((row) =>
        cellsOf(row)
          .map((cell) => `"${cell}"`)
          .join(";"),
      ),
    ),
    run,
    { delimiter: ";" },
  );
  add(
    "delimiter-in-a-quoted-name",
    lines('"Time, elapsed (s)","Temperature, specimen (°C)","Mass (mg)"', table(run, ",")),
    run,
    {
      delimiter: ",",
      columns: [
        ["Time, elapsed", "s", "time"],
        ["Temperature, specimen", "°C", "temperature"],
        ["Mass", "mg", "mass"],
      ],
    },
  );
  add("line-breaks-in-quoted-names", lines('"Time\n(s)","Temperature\n(°C)","Mass\n(mg)"', table(run, ",")), run, {
    delimiter: ",",
    lines: [5, 44],
  });
  add(
    "trailing-delimiters",
    lines(
      `${head.join(";")};`,
      run.map((row) => `${cellsOf(row).join(";")};`),
    ),
    run,
    { delimiter: ";" },
  );
  add(
    "trailing-delimiters-of-rows-only",
    lines(
      head.join(","),
      run.map((row) => `${cellsOf(row).join(",")},,`),
    ),
    run,
    { delimiter: "," },
  );
  add(
    "leading-delimiter",
    lines(
      `\t${head.join("\t")}`,
      run.map((row) => `\t${cellsOf(row).join("\t")}`),
    ),
    run,
    {},
  );
  add("blanks-around-cells", lines(head.join(" ; "), table(run, " ; ")), run, { delimiter: ";" });
  const fixed = (row) => row.map((cell, i) => cell.padStart([10, 10, 12, 10][i])).join("");
  add(
    "fixed-width-with-empty-cells",
    lines(
      fixed(["Time/s", "T/°C", "DTG/(%/min)", "m/mg"]),
      run.map((row, i) =>
        fixed([row.t.toFixed(1), row.T.toFixed(2), i % 4 === 3 ? "" : (0.1 * i).toFixed(3), row.m.toFixed(4)]),
      ),
    ),
    run,
    {
      delimiter: " ",
      columns: [
        ["Time", "s", "time"],
        ["T", "°C", "temperature"],
        ["DTG", "%/min", "derivative"],
        ["m", "mg", "mass"],
      ],
    },
  );
  // The rate sometimes fills its column and touches the mass.
  const narrow = (row) => row.map((cell, i) => cell.padStart([9, 9, 9, 9][i])).join("");
  add(
    "fixed-width-with-touching-numbers",
    lines(
      narrow(["t/s", "T/°C", "m/mg", "Q/mW"]),
      run.map((row, i) =>
        narrow([
          row.t.toFixed(1),
          row.T.toFixed(2),
          row.m.toFixed(4),
          i % 5 === 4 ? (-1000.125 - i).toFixed(3) : (-1.125 - i).toFixed(3),
        ]),
      ),
    ),
    run,
    {
      delimiter: " ",
      columns: [
        ["t", "s", "time"],
        ["T", "°C", "temperature"],
        ["m", "mg", "mass"],
        ["Q", "mW", "heat-flow", "unit"],
      ],
    },
  );
}

function cells(add, run) {
  const head = "Time/s;Temperature/°C;Mass/mg";
  const long = inventRun({ rows: 40, rate: 5 });
  // 5 K/min: the time passes 1000 s.
  const grouped = (mark) => (text) => text.replace(/^(\d+)(\d{3})(?=\D|$)/, `$1${mark}$2`);
  const withGroups = (mark, change = (x) => x) =>
    table(long, ";", (row) => cellsOf(row).map((cell) => grouped(mark)(change(cell))));
  add("thousands-comma", lines(head, withGroups(",")), long, { delimiter: ";" });
  add("thousands-point", lines(head, withGroups(".", withComma)), long, { delimiter: ";", decimal_mark: "," });
  add("thousands-apostrophe", lines(head, withGroups("'")), long, { delimiter: ";" });
  add("thousands-blank", lines(head, withGroups(" ", withComma)), long, { delimiter: ";", decimal_mark: "," });
  add("thousands-narrow-blank", lines(head, withGroups("\u202f", withComma)), long, {
    delimiter: ";",
    decimal_mark: ",",
  });
  add(
    "thousands-quoted",
    lines(
      "Time/s,Temperature/°C,Mass/mg",
      run.map((row) =>
        cellsOf(row)
          .map((cell) => `"${grouped(",")(cell)}"`)
          .join(","),
      ),
    ),
    run,
    { delimiter: "," },
  );
  // Whole seconds 923, 950, 977, 1,003: a comma that always has three digits behind it, while smaller numbers have none.
  const whole = Array.from({ length: 60 }, (_, i) => ({ ...inventRun({ rows: 60 })[i], t: 600 + 27 * i }));
  add(
    "thousands-in-whole-numbers",
    lines(
      "Time/s\tTemperature/°C\tMass/mg",
      table(whole, "\t", ({ t, T, m }) => [grouped(",")(String(t)), T.toFixed(0), m.toFixed(4)]),
    ),
    whole,
    {
      tolerance: [half(0), half(4), 2 * half(9)],
    },
  );
  add(
    "exponents",
    lines(
      head,
      table(run, ";", ({ t, T, m }) => [
        t.toExponential(5),
        T.toExponential(4).toUpperCase(),
        m.toExponential(5).replace("e+0", "E+00"),
      ]),
    ),
    run,
    {
      delimiter: ";",
      tolerance: [half(1), half(4), 2 * half(1)],
    },
  );
  add(
    "exponents-with-d",
    lines(
      "t/s T/°C m/mg",
      table(run, "  ", ({ t, T, m }) => [t, T, m].map((value) => value.toExponential(6).replace("e", "D"))),
    ),
    run,
    {
      delimiter: " ",
      tolerance: [half(3), half(5), 2 * half(2)],
      columns: [
        ["t", "s", "time"],
        ["T", "°C", "temperature"],
        ["m", "mg", "mass"],
      ],
    },
  );
  add(
    "seventeen-digits",
    lines(
      head,
      table(run, ";", ({ t, T, m }) => [t, T, m].map((value) => value.toPrecision(17))),
    ),
    run,
    {
      delimiter: ";",
      tolerance: [1e-8, 1e-8, 1e-8],
    },
  );
  add(
    "shortest-digits",
    lines(
      head,
      table(run, ";", ({ t, T, m }) => [String(t), String(T), String(m)]),
    ),
    run,
    {
      delimiter: ";",
      tolerance: [1e-8, 1e-8, 1e-8],
    },
  );
  add(
    "numbers-without-leading-zero",
    lines(
      "Time/min;Temperature/°C;Mass/g",
      table(run, ";", ({ t, T, m }) => [(t / 60).toFixed(3), T.toFixed(2), (m / 1000).toFixed(7).replace(/^0/, "")]),
    ),
    run,
    {
      delimiter: ";",
      tolerance: [half(2), half(4), 120 * half(3)],
      columns: [
        ["Time", "min", "time"],
        ["Temperature", "°C", "temperature"],
        ["Mass", "g", "mass"],
      ],
    },
  );
  add(
    "plus-signs",
    lines(
      head,
      table(run, ";", (row) => cellsOf(row).map((cell) => `+${cell}`)),
    ),
    run,
    { delimiter: ";" },
  );
  const below = inventRun({ from: -20, to: 955 });
  add(
    "minus-sign-of-printers",
    lines(
      head,
      table(below, ";", (row) => cellsOf(row).map((cell) => cell.replace("-", "\u2212"))),
    ),
    below,
    { delimiter: ";" },
  );
  const units = inventRun();
  add(
    "units-in-the-cells",
    lines(
      "Time;Temperature;Mass",
      table(units, ";", ({ t, T, m }) => [`${t.toFixed(1)} s`, `${T.toFixed(2)} °C`, `${m.toFixed(4)} mg`]),
    ),
    units,
    { delimiter: ";" },
  );
  const marks = ["", "-", "n/a", "NaN", "--", "***", "#N/A", "null"];
  add(
    "missing-marks",
    lines(
      "Time/s;Temperature/°C;Mass/mg;DTG/(%/min)",
      run.flatMap((row, i) => {
        const complete = `${cellsOf(row).join(";")};${i % 3 === 0 ? marks[i % 8] : "0.125"}`;
        // Behind every tenth row one without a mass.
        return i % 10 === 9 ? [complete, `${cellsOf(row).slice(0, 2).join(";")};${marks[i % 8]};0.125`] : [complete];
      }),
    ),
    run,
    {
      delimiter: ";",
      columns: [...plainColumns, ["DTG", "%/min", "derivative"]],
      rows_dropped: [{ reason: "mass missing", count: 4, lines: [12, 23, 34, 45] }],
      flags: ["rows-dropped"],
    },
  );
  add(
    "empty-column",
    lines(
      "Time/s;Temperature/°C;Event;Mass/mg",
      table(run, ";", (row) => [...cellsOf(row).slice(0, 2), "", row.m.toFixed(4)]),
    ),
    run,
    {
      delimiter: ";",
      columns: [plainColumns[0], plainColumns[1], ["Event", "", "other", "none"], plainColumns[2]],
    },
  );
  add(
    "numbers-from-the-middle-on",
    lines(
      "Time/s\tQ/mW\tTemperature/°C\tMass/mg",
      run.map((row, i) => [row.t.toFixed(1), i < 25 ? "-" : "0.5", row.T.toFixed(2), row.m.toFixed(4)].join("\t")),
    ),
    run,
    { columns: [plainColumns[0], ["Q", "mW", "heat-flow", "unit"], plainColumns[1], plainColumns[2]] },
  );
  add(
    "column-of-words",
    lines(
      "Time/s,Part,Temperature/°C,Mass/mg",
      run.map((row, i) =>
        [row.t.toFixed(1), i < 20 ? "first ramp" : "second ramp", row.T.toFixed(2), row.m.toFixed(4)].join(","),
      ),
    ),
    run,
    {
      delimiter: ",",
      columns: [plainColumns[0], ["Part", "", "other", "none"], plainColumns[1], plainColumns[2]],
    },
  );
  add(
    "index-column",
    lines(
      "No.\tTime/s\tTemperature/°C\tMass/mg",
      run.map((row, i) => [i + 1, ...cellsOf(row)].join("\t")),
    ),
    run,
    {
      columns: [["No.", "", "index"], ...plainColumns],
    },
  );
  add(
    "one-bad-row-of-forty",
    lines(
      head,
      table(run, ";").flatMap((row, i) => (i === 20 ? ["61x.0;25..1;20", row] : [row])),
    ),
    run,
    {
      delimiter: ";",
      rows_dropped: [{ reason: "unreadable cell", count: 1, lines: [22] }],
      flags: ["rows-dropped"],
    },
  );
}

function segments(add) {
  const head = "Time/s\tTemperature/°C\tMass/mg";
  const run = inventRun({ rows: 60 });
  const parts = [run.slice(0, 25), run.slice(25)].map((part) => table(part, "\t"));
  add("segments-with-headings", lines("Part 1", head, parts[0], "", "Part 2", head, parts[1]), run, {
    rows_dropped: [
      { reason: "text inside the table", count: 1, lines: [29] },
      { reason: "repeated heading", count: 1, lines: [30] },
    ],
    flags: ["tables-joined"],
    lines: [3, 65],
  });
  add("segments-with-blank-lines", lines(head, parts[0], "", "", parts[1]), run, { lines: [2, 63] });
  add("segments-with-titles", lines(head, parts[0], "Second part", parts[1]), run, {
    rows_dropped: [{ reason: "text inside the table", count: 1, lines: [27] }],
  });
  const repeated = Array.from({ length: 3 }, (_, i) => [head, ...table(run.slice(20 * i, 20 * i + 20), "\t")]);
  add("heading-on-every-page", lines(repeated.flat()), run, {
    rows_dropped: [{ reason: "repeated heading", count: 2, lines: [22, 43] }],
    flags: ["tables-joined"],
  });
  // The clock of the second part starts at zero; the reader counts on by the step before: 100 s here.
  const even = inventRun({ rows: 61, to: 1025 });
  const restarted = even.map((row, i) => ({ ...row, t: i < 30 ? row.t : row.t - even[30].t }));
  add(
    "segments-with-time-from-zero",
    lines(head, table(restarted.slice(0, 30), "\t"), "", head, table(restarted.slice(30), "\t")),
    even,
    {
      rows_dropped: [{ reason: "repeated heading", count: 1, lines: [33] }],
      flags: ["tables-joined", "time-restarts"],
    },
  );
}

function quantities(add, run) {
  const t = ({ t }) => t.toFixed(1);
  const T = ({ T }) => T.toFixed(2);
  const m = ({ m }) => m.toFixed(4);
  const make = (name, head, rows, columns, more = {}) =>
    add(name, lines(head, rows), run, { delimiter: ";", columns, ...more });
  const joined = (...cells) => run.map((row, i) => cells.map((cell) => cell(row, i)).join(";"));
  const initial = run[0].m;
  const percent = run.map((row) => ({ ...row, m: (100 * row.m) / initial }));
  make(
    "four-temperatures",
    "Time/s;Programme temperature/°C;Furnace temperature/°C;Reference temperature/°C;Sample temperature/°C;Mass/mg",
    joined(
      t,
      (r) => (r.T + 9).toFixed(2),
      (r) => (r.T + 6).toFixed(2),
      (r) => (r.T + 3).toFixed(2),
      T,
      m,
    ),
    [
      ["Time", "s", "time"],
      ["Programme temperature", "°C", "programme-temperature"],
      ["Furnace temperature", "°C", "furnace-temperature"],
      ["Reference temperature", "°C", "reference-temperature"],
      ["Sample temperature", "°C", "temperature"],
      ["Mass", "mg", "mass"],
    ],
  );
  make(
    "sample-before-plain-temperature",
    "Temperature/°C;Specimen temperature/°C;Mass/mg",
    joined((r) => (r.T + 5).toFixed(2), T, m),
    [
      ["Temperature", "°C", "temperature"],
      ["Specimen temperature", "°C", "temperature"],
      ["Mass", "mg", "mass"],
    ],
    { tolerance: [half(2), half(4)] },
  );
  make(
    "only-a-furnace-temperature",
    "Time/s;Oven temp./°C;Mass/mg",
    joined(t, T, m),
    [
      ["Time", "s", "time"],
      ["Oven temp.", "°C", "furnace-temperature"],
      ["Mass", "mg", "mass"],
    ],
    { flags: ["columns-guessed"] },
  );
  const share = (decimals) => (r) => ((100 * r.m) / initial).toFixed(decimals);
  add("mass-percent", lines("Time/s;Temperature/°C;Mass/%", joined(t, T, share(4))), percent, {
    delimiter: ";",
    mass_unit: "%",
    columns: [plainColumns[0], plainColumns[1], ["Mass", "%", "mass-percent"]],
    flags: ["no-absolute-mass"],
  });
  make(
    "mass-percent-with-stated-mass",
    ["Initial mass: 20.5 mg", "Time/s;Temperature/°C;Mass/%"],
    joined(t, T, (r) => ((100 * r.m) / 20.5).toFixed(4)),
    [plainColumns[0], plainColumns[1], ["Mass", "%", "mass-percent"]],
    {
      tolerance: [half(2), 0.205 * half(4), 2 * half(1)],
      stated: { initial_mass_mg: 20.5, heating_rate_K_per_min: null, gas: null },
      metadata: { "Initial mass": "20.5 mg" },
    },
  );
  make(
    "mass-percent-with-sheet-mass",
    "Time/s;Temperature/°C;Mass/%",
    joined(t, T, (r) => ((100 * r.m) / 20.5).toFixed(4)),
    [plainColumns[0], plainColumns[1], ["Mass", "%", "mass-percent"]],
    { tolerance: [half(2), 0.205 * half(4), 2 * half(1)], options: { initialMass_mg: 20.5 } },
  );
  add(
    "mass-fraction",
    lines(
      "Time/s;Temperature/K;Mass fraction/(g/g)",
      joined(
        t,
        (r) => (r.T + 273.15).toFixed(2),
        (r) => (r.m / initial).toFixed(6),
      ),
    ),
    percent,
    {
      delimiter: ";",
      mass_unit: "%",
      columns: [plainColumns[0], ["Temperature", "K", "temperature"], ["Mass fraction", "g/g", "mass-fraction"]],
      flags: ["no-absolute-mass"],
    },
  );
  add(
    "mass-relative-to-the-first",
    lines(
      "t/s;T/°C;m/m0",
      joined(t, T, (r) => (r.m / initial).toFixed(6)),
    ),
    percent,
    {
      delimiter: ";",
      mass_unit: "%",
      columns: [
        ["t", "s", "time"],
        ["T", "°C", "temperature"],
        ["m/m0", "", "mass-fraction"],
      ],
      flags: ["no-absolute-mass"],
    },
  );
  make(
    "mass-change-in-mg",
    ["Sample weight;20.5 mg", "Time/s;Temperature/°C;Mass change/mg"],
    joined(t, T, (r) => (r.m - 20.5).toFixed(4)),
    [plainColumns[0], plainColumns[1], ["Mass change", "mg", "mass-change"]],
    {
      stated: { initial_mass_mg: 20.5, heating_rate_K_per_min: null, gas: null },
      metadata: { "Sample weight": "20.5 mg" },
    },
  );
  make(
    "mass-change-symbol-in-ug",
    ["Sample weight;20500 µg", "t/s;T/°C;Δm/µg"],
    joined(t, T, (r) => (1000 * (r.m - 20.5)).toFixed(1)),
    [
      ["t", "s", "time"],
      ["T", "°C", "temperature"],
      ["Δm", "µg", "mass-change"],
    ],
    {
      stated: { initial_mass_mg: 20.5, heating_rate_K_per_min: null, gas: null },
      metadata: { "Sample weight": "20500 µg" },
    },
  );
  const falling = (name, heading, quantity, cell, more = {}) =>
    add(name, lines(`Time/s;Temperature/°C;${heading[0]}/%`, joined(t, T, cell)), percent, {
      delimiter: ";",
      mass_unit: "%",
      columns: [plainColumns[0], plainColumns[1], [heading[0], "%", quantity, heading[1] ?? "name"]],
      flags: ["no-absolute-mass"],
      ...more,
    });
  falling("mass-loss-growing", ["Mass loss"], "mass-change-percent", (r) => (100 - (100 * r.m) / initial).toFixed(4));
  falling("mass-change-falling", ["Mass change"], "mass-change-percent", (r) =>
    ((100 * r.m) / initial - 100).toFixed(4),
  );
  falling("weight-loss-that-is-what-is-left", ["Weight loss"], "mass-percent", share(4), {
    flags: ["columns-guessed", "no-absolute-mass"],
  });
  falling("tg-percent-from-100", ["TG"], "mass-percent", share(4));
  falling("tg-percent-from-0", ["TG"], "mass-change-percent", (r) => ((100 * r.m) / initial - 100).toFixed(4), {
    flags: ["columns-guessed", "no-absolute-mass"],
  });
  make("mg-before-percent", "Time/s;Temperature/°C;Weight/%;Weight/mg", joined(t, T, share(2), m), [
    plainColumns[0],
    plainColumns[1],
    ["Weight", "%", "mass-percent"],
    ["Weight", "mg", "mass"],
  ]);
  make(
    "kelvin-microgram-hour",
    "Time/h;Temperature/K;Mass/µg",
    joined(
      (r) => (r.t / 3600).toFixed(6),
      (r) => (r.T + 273.15).toFixed(2),
      (r) => (1000 * r.m).toFixed(1),
    ),
    [
      ["Time", "h", "time"],
      ["Temperature", "K", "temperature"],
      ["Mass", "µg", "mass"],
    ],
    { tolerance: [half(2), half(4), 7200 * half(6)] },
  );
  make(
    "fahrenheit-gram-minute",
    "Time (min);Temperature (°F);Mass (g)",
    joined(
      (r) => (r.t / 60).toFixed(3),
      (r) => (1.8 * r.T + 32).toFixed(2),
      (r) => (r.m / 1000).toFixed(7),
    ),
    [
      ["Time", "min", "time"],
      ["Temperature", "°F", "temperature"],
      ["Mass", "g", "mass"],
    ],
    { tolerance: [half(2), half(4), 120 * half(3)] },
  );
  make(
    "rates-and-heat-flow-left-alone",
    "Time/s;Temperature/°C;DTG/(%/min);Mass/mg;Heat flow/(mW/mg);Gas flow/(ml/min)",
    joined(
      t,
      T,
      (_, i) => (0.2 * Math.sin(i)).toFixed(4),
      m,
      (_, i) => (0.1 * Math.cos(i)).toFixed(5),
      () => "50.0",
    ),
    [
      plainColumns[0],
      plainColumns[1],
      ["DTG", "%/min", "derivative"],
      plainColumns[2],
      ["Heat flow", "mW/mg", "heat-flow"],
      ["Gas flow", "ml/min", "other"],
    ],
  );
  make(
    "difference-of-temperatures-left-alone",
    "Time/s;ΔT/K;Temperature/°C;Mass/mg",
    joined(t, (_, i) => (0.02 * i).toFixed(3), T, m),
    [plainColumns[0], ["ΔT", "K", "other"], plainColumns[1], plainColumns[2]],
  );
  make(
    "columns-by-number",
    "Channel A;Channel B;Channel C;Channel D",
    joined(
      (r) => (r.T + 280).toFixed(2),
      (r) => (r.T + 273.15).toFixed(2),
      (r) => (1000 * r.m).toFixed(1),
      t,
    ),
    [
      ["Channel A", "", "other", "none"],
      ["Channel B", "K", "temperature", "override"],
      ["Channel C", "µg", "mass", "override"],
      ["Channel D", "s", "time", "override"],
    ],
    { options: { columns: "temperature=2:K, mass=3:µg, time=4:s" } },
  );
  make(
    "columns-by-name",
    "Time/s;Temperature/°C;Temperature 2/°C;Mass/mg",
    joined(t, (r) => (r.T - 8).toFixed(2), T, m),
    [
      plainColumns[0],
      ["Temperature", "°C", "other"],
      ["Temperature 2", "°C", "temperature", "override"],
      plainColumns[2],
    ],
    { options: { columns: "temperature=temperature 2" } },
  );
  make(
    "initial-mass-differs",
    ["Sample mass: 18.2 mg", "Time/s;Temperature/°C;Mass/mg"],
    joined(t, T, m),
    plainColumns,
    {
      stated: { initial_mass_mg: 18.2, heating_rate_K_per_min: null, gas: null },
      metadata: { "Sample mass": "18.2 mg" },
      flags: ["initial-mass-differs"],
    },
  );
}

function clocks(add, run) {
  const two = (value) => String(Math.floor(value)).padStart(2, "0");
  const clock = (s) => `${two(s / 3600)}:${two((s / 60) % 60)}:${two(s % 60)}`;
  // Whole seconds are written: 25 K in 150 s.
  const whole = inventRun({ rows: 40, to: 1000 });
  const make = (name, head, cell, time, more = {}) =>
    add(
      name,
      lines(
        head,
        table(whole, "\t", ({ t, T, m }) => [cell(t), T.toFixed(2), m.toFixed(4)]),
      ),
      whole,
      {
        columns: [time, plainColumns[1], plainColumns[2]],
        tolerance: [half(2), half(4), 1e-6],
        ...more,
      },
    );
  const rest = "\tTemperature/°C\tMass/mg";
  make("clock-hours-minutes-seconds", `Time/hh:mm:ss${rest}`, clock, ["Time", "hh:mm:ss", "time"]);
  make("clock-with-fractions", `Time${rest}`, (t) => `${clock(t)}.50`, ["Time", "", "time"]);
  make("clock-minutes-seconds", `Time (mm:ss)${rest}`, (t) => `${two(t / 60)}:${two(t % 60)}`, [
    "Time",
    "mm:ss",
    "time",
  ]);
  make("clock-past-midnight", `Time${rest}`, (t) => clock((t + 84_000) % 86_400), ["Time", "", "time"]);
  make(
    "date-and-time",
    `Time${rest}`,
    (t) =>
      `2031-03-31 ${clock(t + 80_000 > 86_399 ? t + 80_000 - 86_400 : t + 80_000)}`.replace(
        "03-31",
        t + 80_000 > 86_399 ? "04-01" : "03-31",
      ),
    ["Time", "", "time"],
  );
  make("date-and-time-with-points", `Time${rest}`, (t) => `14.02.2031 ${clock(t)}`, ["Time", "", "time"]);
  void run;
}

function languages(add, run) {
  const named = (
    name,
    headings,
    { comma = false, delimiter = "\t", encode = utf8, encoding = "utf-8", more = {} } = {},
  ) => {
    const mark = (text) => (comma ? withComma(text) : text);
    const rows = table(run, delimiter, ({ t, T, m }) =>
      [(t / 60).toFixed(3), (T + 5).toFixed(2), T.toFixed(2), m.toFixed(4), "0.125"].map(mark),
    );
    const units = ["min", "°C", "°C", "mg", "%/min"];
    const quantity = ["time", "furnace-temperature", "temperature", "mass", "derivative"];
    add(name, encode(lines(headings.map((heading, i) => `${heading} [${units[i]}]`).join(delimiter), rows)), run, {
      encoding,
      delimiter,
      decimal_mark: comma ? "," : ".",
      tolerance: [half(2), half(4), 120 * half(3)],
      columns: headings.map((heading, i) => [heading, units[i], quantity[i]]),
      ...more,
    });
  };
  named("english", ["Time", "Furnace temperature", "Sample temperature", "Weight", "Deriv. weight"]);
  named("german", ["Zeit", "Ofentemperatur", "Probentemperatur", "Masse", "Ableitung der Masse"], {
    comma: true,
    encode: windows1252,
    encoding: "windows-1252",
  });
  named("german-short", ["Zeit", "Ofentemp.", "Temp. der Probe", "Gewicht", "DTG"], { comma: true, delimiter: ";" });
  named("french", ["Temps", "Température du four", "Température de l'échantillon", "Masse", "Dérivée"], {
    comma: true,
    delimiter: ";",
  });
  named("spanish", ["Tiempo", "Temperatura del horno", "Temperatura de la muestra", "Peso", "Derivada"], {
    comma: true,
  });
  named("portuguese", ["Tempo", "Temperatura do forno", "Temperatura da amostra", "Massa", "Derivada da massa"], {
    comma: true,
    delimiter: ";",
  });
  named("italian", ["Tempo", "Temperatura forno", "Temperatura campione", "Massa", "Derivata"], { comma: true });
  named("polish", ["Czas", "Temperatura pieca", "Temperatura próbki", "Masa", "Pochodna masy"], {
    comma: true,
    delimiter: ";",
  });
  named("chinese", ["时间", "炉温", "样品温度", "质量", "质量微分"]);
  named("japanese", ["時間", "炉の温度", "試料温度", "質量", "質量の微分"], {
    encode: (text) => utf16le(`\ufeff${text}`),
    encoding: "utf-16le",
  });
  const losses = (name, title, columns) =>
    add(
      name,
      lines(
        title.join(";"),
        table(run, ";", ({ T, m }) => [T.toFixed(2), (100 - (100 * m) / run[0].m).toFixed(4)].map(withComma)),
      ),
      run.map((row) => ({ ...row, m: (100 * row.m) / run[0].m })),
      {
        delimiter: ";",
        decimal_mark: ",",
        mass_unit: "%",
        tolerance: [half(2), half(4)],
        columns,
        flags: ["no-absolute-mass"],
      },
    );
  for (const [language, temperature, loss] of [
    ["german", "Temperatur", "Massenverlust"],
    ["french", "Température", "Perte de masse"],
    ["spanish", "Temperatura", "Pérdida de peso"],
    ["portuguese", "Temperatura", "Perda de massa"],
    ["italian", "Temperatura", "Perdita di peso"],
    ["polish", "Temperatura", "Ubytek masy"],
    ["chinese", "温度", "质量损失"],
    ["japanese", "温度", "重量減少"],
  ]) {
    losses(
      `loss-${language}`,
      [`${temperature} (°C)`, `${loss} (%)`],
      [
        [temperature, "°C", "temperature"],
        [loss, "%", "mass-change-percent"],
      ],
    );
  }
  const symbols = (name, [t, T, m], head = `${t}/s\t${T}/°C\t${m}/mg`) =>
    add(name, lines(head, table(run, "\t")), run, {
      columns: [
        [t, "s", "time"],
        [T, "°C", "temperature"],
        [m, "mg", "mass"],
      ],
    });
  symbols("symbols", ["t", "T", "m"]);
  symbols("symbols-theta", ["t", "ϑ", "m"]);
  symbols("symbols-small-theta", ["t", "θ", "m"]);
}

function guesses(add, run) {
  const cells = ({ t, T, m }) => [t.toFixed(1), T.toFixed(2), m.toFixed(4)];
  const named = ["time", "temperature", "mass"].map((quantity) => [
    quantity[0].toUpperCase() + quantity.slice(1),
    "",
    quantity,
  ]);
  const guessed = (name, rows, more = {}) =>
    add(name, lines("Time\tTemperature\tMass", rows), run, { columns: named, flags: ["columns-guessed"], ...more });
  guessed("no-units", table(run, "\t", cells));
  guessed(
    "no-units-kelvin-minutes",
    table(run, "\t", ({ t, T, m }) => [(t / 60).toFixed(3), (T + 273.15).toFixed(2), m.toFixed(4)]),
    { tolerance: [half(2), half(4), 120 * half(3)] },
  );
  guessed(
    "no-units-hours",
    table(run, "\t", ({ t, T, m }) => [(t / 3600).toFixed(6), T.toFixed(2), m.toFixed(4)]),
    { tolerance: [half(2), half(4), 7200 * half(6)] },
  );
  const percent = run.map((row) => ({ ...row, m: (100 * row.m) / run[0].m }));
  add("no-units-percent", lines("Time\tTemperature\tMass", table(percent, "\t", cells)), percent, {
    mass_unit: "%",
    columns: [named[0], named[1], ["Mass", "", "mass-percent"]],
    flags: ["columns-guessed", "no-absolute-mass"],
  });
  const bare = ["time", "temperature", "mass"].map((quantity) => ["", "", quantity, "behaviour"]);
  add(
    "no-heading-with-index-and-rate",
    lines(run.map((row, i) => [i + 1, ...cells(row), (0.3 * Math.sin(3 * i)).toFixed(3)].join(","))),
    run,
    {
      delimiter: ",",
      columns: [["", "", "index", "behaviour"], ...bare, ["", "", "other", "none"]],
      flags: ["columns-guessed"],
    },
  );
  add("no-heading-two-columns", lines(table(run, " ", ({ T, m }) => [T.toFixed(2), m.toFixed(4)])), run, {
    delimiter: " ",
    tolerance: [half(2), half(4)],
    columns: [bare[1], bare[2]],
    flags: ["columns-guessed"],
  });
  add(
    "unknown-names-known-units",
    lines(
      "Channel 1 [min]\tChannel 2 [°C]\tChannel 3 [mg]",
      table(run, "\t", ({ t, T, m }) => [(t / 60).toFixed(3), T.toFixed(2), m.toFixed(4)]),
    ),
    run,
    {
      tolerance: [half(2), half(4), 120 * half(3)],
      columns: [
        ["Channel 1", "min", "time", "unit"],
        ["Channel 2", "°C", "temperature", "unit"],
        ["Channel 3", "mg", "mass", "unit"],
      ],
    },
  );
}

function oddities(add) {
  const head = "Time/s\tTemperature/°C\tMass/mg";
  /** Even noise without a random generator: the fractional parts of multiples of an irrational number. */
  const noise = (i, size) => (((i * 0.7548776662466927) % 1) + ((i * 0.5698402909980532) % 1) - 1) * size;
  const noisy = (rows) => inventRun({ rows }).map((row, i) => ({ ...row, m: row.m + noise(i, 0.004) }));
  const spiky = noisy(200).map((row, i) => ({ ...row, m: row.m + (i === 60 ? 1.5 : i === 140 ? -0.8 : 0) }));
  add("spikes-of-the-balance", lines(head, table(spiky, "\t")), spiky, { flags: ["spikes"] });
  const jumpy = noisy(200).map((row, i) => ({ ...row, T: row.T + (i === 100 ? 60 : 0) }));
  add("spike-of-the-thermocouple", lines(head, table(jumpy, "\t")), jumpy, { flags: ["spikes"] });
  const limited = noisy(200).map((row) => ({ ...row, m: Math.min(row.m, 20.45) }));
  add("balance-at-its-limit", lines(head, table(limited, "\t")), limited, { flags: ["balance-stuck"] });
  const wobbling = inventRun({ rows: 200 }).map((row, i) => ({ ...row, T: row.T - (i % 50 === 25 ? 8 : 0) }));
  add("temperature-falls-back", lines(head, table(wobbling, "\t")), wobbling, { flags: ["temperature-wobbles"] });
  const coarse = inventRun({ rows: 200 });
  const minutes = coarse.map((row) => ({ ...row, t: 60 * Math.floor(row.t / 60) }));
  add(
    "time-in-whole-minutes",
    lines(
      "Time/min\tTemperature/°C\tMass/mg",
      table(minutes, "\t", ({ t, T, m }) => [(t / 60).toFixed(0), T.toFixed(2), m.toFixed(4)]),
    ),
    minutes,
    {
      columns: [["Time", "min", "time"], plainColumns[1], plainColumns[2]],
      flags: ["time-repeats"],
    },
  );
  const cold = inventRun({ rows: 60 });
  add(
    "impossible-temperature",
    lines(
      head,
      table(cold, "\t").flatMap((row, i) => (i === 30 ? [row, "-1.0\t-9999.00\t-9999.0000"] : [row])),
    ),
    cold,
    {
      rows_dropped: [{ reason: "impossible temperature", count: 1, lines: [33] }],
      flags: ["rows-dropped"],
    },
  );
}
