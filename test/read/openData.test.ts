import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readRun } from "../../src/read/readRun.ts";

// Measured runs of the open "Measurement and Computation of Fire Phenomena" materials database (matl-db, MIT licence), which
// lie beside the repository and not in it.
const folder = new URL("../../../shared/open-data/", import.meta.url);
const isThere = existsSync(folder);

/** What stands in the files: rows by counting lines, first and last row as printed; kelvin, so °C = K − 273.15. */
const truths = [
  {
    file: "Aalto_Wood_TGA_N2_10K_R1.csv",
    rows: 1520,
    kelvin: [313.2, 1070.9],
    mass: [7.427, 1.052],
    time: 4556.3538,
    head: 1,
  },
  {
    file: "FSRI_TGA_N2_10K_1.csv",
    rows: 999,
    kelvin: [323, 822],
    mass: [3.9791, 0.0372],
    time: 2999.4 - 28.4,
    head: 2,
  },
  {
    file: "HKPolyU_TGA_N2_10K_1.csv",
    rows: 1005,
    kelvin: [300.03, 802.846],
    mass: [4.104, -0.0167],
    time: 3011.76 - 0.24,
    head: 2,
  },
  {
    file: "NIST_TGA_N2_10K_1.csv",
    rows: 695,
    kelvin: [303.147, 997.147],
    mass: [4.994570141, 0.065530975],
    time: 4166.5254,
    head: 2,
  },
  {
    file: "Sandia_TGA_Ar_10K_1.csv",
    rows: 5625,
    kelvin: [307.216, 869.616],
    mass: [4.91, 0.02],
    time: 4628.439 - 1209.15,
    head: 2,
  },
  {
    file: "TIFP_TGA_N2_10K_1.csv",
    rows: 5480,
    kelvin: [300.105, 822.38102],
    mass: [5.4338, 0.117160335],
    time: 3436.8498,
    head: 2,
  },
  {
    file: "UAI_Wood_TGA_N2_20K_R1.csv",
    rows: 1355,
    kelvin: [299.8, 976.8],
    mass: [14.89, 1.01],
    time: 2282.2,
    head: 1,
  },
  {
    file: "UMD_TGA_N2_10K.csv",
    rows: 556,
    kelvin: [313, 869.11],
    mass: [99.98, 0.08],
    time: 3278.9514,
    head: 2,
    share: true,
  },
] as const;

describe.runIf(isThere)("measured runs from eight laboratories open", () => {
  test.for(truths)("$file", ({ file, rows, kelvin, mass, time, head, ...rest }) => {
    const run = readRun(new Uint8Array(readFileSync(new URL(file, folder))), { name: file });
    expect(run.reading).toMatchObject({ rows_read: rows, rows_dropped: [], encoding: "utf-8", delimiter: "," });
    expect(run.massUnit).toBe("share" in rest ? "%" : "mg");
    expect(run.flags.map(({ code }) => code)).toEqual("share" in rest ? ["no-absolute-mass"] : []);
    expect([run.lines[0], run.lines.at(-1)]).toEqual([head + 1, head + rows]);
    expect(run.temperature[0]).toBeCloseTo(kelvin[0] - 273.15, 9);
    expect(run.temperature.at(-1)).toBeCloseTo(kelvin[1] - 273.15, 9);
    expect(run.mass[0]).toBeCloseTo(mass[0], 9);
    expect(run.mass.at(-1)).toBeCloseTo(mass[1], 9);
    expect(run.time!.at(-1)).toBeCloseTo(time, 6);
    expect(run.initialMass).toBe("share" in rest ? null : mass[0]);
  });

  test("no file of the folder is left out", () => {
    const there = readdirSync(folder).filter((name) => name.endsWith(".csv"));
    expect(truths.map(({ file }) => file)).toEqual(expect.arrayContaining(there));
  });
});

test.skipIf(isThere)(
  "the measured runs are not here: ../shared/open-data is missing, so they were not tried",
  () => {},
);
