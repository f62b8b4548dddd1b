import fc from "fast-check";
import { expect, test } from "vitest";
import { planRuns } from "../../src/campaign/planRuns.ts";

const plan = (sheet: string, mixes: string) =>
  planRuns({
    sheet: { name: "sheet.csv", text: sheet },
    mixes: { name: "mixes.csv", text: mixes },
    files: ["a.txt", "b.txt", "c.txt", "empty.txt"],
  });

test("no text is so strange that it throws, or gives a job outside the folder", () => {
  const piece = fc.constantFrom(
    ...[
      "file",
      "mix",
      "age",
      "age_d",
      "specimen",
      "role",
      "blank",
      "columns",
      "a.txt",
      "b.txt",
      "../a.txt",
      "/",
      "C:",
      "7d",
    ],
    ...[
      ",",
      ",",
      ";",
      "\t",
      "\n",
      "\n",
      "\r",
      '"',
      "'",
      "=",
      "-1",
      "1,5",
      "1e999",
      "__proto__",
      "\u0000",
      "\u{1f600}",
      "\ud800",
    ],
  );
  const text = fc.oneof(
    fc.array(piece, { maxLength: 40 }).map((pieces) => pieces.join("")),
    fc.string({ unit: "binary", maxLength: 60 }),
  );
  fc.assert(
    fc.property(text, text, (sheet, mixes) => {
      const { jobs, problems, remarks } = plan(`file,mix,age,specimen,blank\n${sheet}`, `mix,w_b\n${mixes}`);
      for (const { source, message } of [...problems, ...remarks]) expect(source && message).toBeTruthy();
      for (const { file, blank } of jobs) {
        for (const name of [file, blank ?? ""]) expect(name).not.toMatch(/^\/|^[a-z]:|(?:^|\/)\.\.(?:\/|$)/i);
      }
      plan(sheet, mixes);
    }),
    { seed: 77, numRuns: 1000 },
  );
});
