import { describe, expect, test } from "vitest";
import { draftJobs } from "../../src/campaign/draftJobs.ts";
import { draftSheet } from "../../src/campaign/draftSheet.ts";
import { draftText } from "../../src/campaign/draftText.ts";
import type { DraftRow } from "../../src/campaign/types.ts";

const row = (more: Partial<DraftRow> = {}): DraftRow => ({
  ...{ file: "a.txt", mix: null, curing: null, curing_d: null, age_min: null, specimen: null, replicate: null },
  ...{ role: "specimen", label: null, ...more },
});
const heading = "file,mix,curing,curing_d,age,specimen,replicate,role,blank,session,note";

describe("a drafted sheet as text", () => {
  test("has a cell for all that is known, and empty ones to fill in", () => {
    const known = { mix: "M1", curing: "moist", curing_d: 3.5, age_min: 10080, specimen: "P", replicate: "2" };
    const text = draftText([row({ ...known, label: "K" }), row({ file: "b.txt", role: "blank" })]);
    expect(text).toBe(`${heading}\na.txt,M1,moist,3.5,7d,P,2,specimen,,,label K\nb.txt,,,,,,,blank,,,\n`);
  });

  test("writes days of curing without the noise of their digits", () => {
    expect(draftText([row({ curing_d: 1 / 3 })]).split("\n")[1]).toBe("a.txt,,,0.333333333,,,,specimen,,,");
    expect(draftText([row({ curing_d: 0.1 + 0.2 })]).split("\n")[1]).toContain(",0.3,");
  });

  test("of nothing is the heading", () => {
    expect(draftText([])).toBe(`${heading}\n`);
  });
});

describe("jobs of a draft nobody has finished", () => {
  const jobOf = (more: Partial<DraftRow>) => {
    const [{ mix, curing, specimen, replicate, role, curing_d, age_min }] = draftJobs([row(more)]) as [
      ReturnType<typeof draftJobs>[0],
    ];
    return { mix, curing, specimen, replicate, role, curing_d, age_min };
  };

  test("have the label as their mix, or beside their curing where the mix is known", () => {
    expect(jobOf({ label: "K", curing: "moist" })).toMatchObject({ mix: "K", curing: "moist" });
    expect(jobOf({ label: "K", curing: "moist", mix: "M" })).toMatchObject({ mix: "M", curing: "moist K" });
    expect(jobOf({ label: "K", mix: "M" })).toMatchObject({ mix: "M", curing: "K" });
    expect(jobOf({ curing: "moist", mix: "M" })).toMatchObject({ mix: "M", curing: "moist" });
    expect(jobOf({})).toMatchObject({ mix: null, curing: null });
  });

  test("are their own specimen where none is named", () => {
    expect(jobOf({}).specimen).toBe("a.txt");
    expect(jobOf({ specimen: "P", replicate: "2", role: "binder", curing_d: 7, age_min: 60 })).toMatchObject({
      ...{ specimen: "P", replicate: "2", role: "binder", curing_d: 7, age_min: 60 },
    });
  });
});

describe("a draft of names", () => {
  const labels = (...files: string[]) => draftSheet(files).rows.map(({ label }) => label);

  test("compares specimens only: a blank run without the common word does not make it tell anything", () => {
    const { rows, remarks } = draftSheet(["tg_moist_1d.txt", "tg_sealed_1d.txt", "blank.txt"]);
    expect(rows.map(({ label }) => label)).toEqual([null, null, null]);
    expect(remarks[0]).toBe("Every name has tg: if that is a mix or a curing regime, fill it in.");
  });

  test("names all words that every name has, whatever their capitals", () => {
    expect(draftSheet(["TG_lab_moist_1d.txt", "tg_LAB_sealed_1d.txt"]).remarks[0]).toBe(
      "Every name has tg, lab: if that is a mix or a curing regime, fill it in.",
    );
    expect(labels("TG_moist_1d.txt", "tg_sealed_1d.txt")).toEqual([null, null]);
  });

  test("keeps what it does not understand, word by word", () => {
    expect(labels("K_x_1d.txt", "L_y_1d.txt")).toEqual(["K x", "L y"]);
  });

  test("joins what stands twice", () => {
    const [one] = draftSheet(["mixA_mixB_moist_sealed_1d.txt"]).rows;
    expect([one!.mix, one!.curing]).toEqual(["mixA-mixB", "moist-sealed"]);
    const [two] = draftSheet(["prism1_cube2_r1_rep2_1d.txt"]).rows;
    expect([two!.specimen, two!.replicate]).toEqual(["1-2", "1-2"]);
  });

  test("tells what is missing in the names of specimens only", () => {
    expect(draftSheet(["mixA_moist_1d.txt", "mixA_moist_x.txt", "binder.txt"]).remarks).toContain(
      "No age in 1 of 2 names (mixA_moist_x.txt).",
    );
    expect(draftSheet(["mixA_moist_1d.txt"]).remarks.filter((remark) => remark.startsWith("No "))).toEqual([]);
  });
});
