import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseSheet } from "../../src/campaign/parseSheet.ts";
import { toCsv } from "../../src/render/toCsv.ts";

describe("a CSV table", () => {
  test("quotes what RFC 4180 says, and writes numbers and blanks", () => {
    const rows = [
      { a: "plain", b: 1 / 3 },
      { a: "comma, here", b: null },
      { a: 'quote "here"', b: -0 },
      { a: "line\nhere", b: -1.5 },
      { a: " blank first", b: 0 },
      { a: null, b: null },
    ];
    expect(toCsv(["a", "b"], rows)).toBe(
      'a,b\nplain,0.333333333\n"comma, here",\n"quote ""here""",0\n"line\nhere",-1.5\n" blank first",0\n,\n',
    );
  });

  test.for([
    ["=1+1", "'=1+1"],
    ["+SUM(A1)", "'+SUM(A1)"],
    ["-cmd", "'-cmd"],
    ["-1-1", "'-1-1"],
    ["@x", "'@x"],
    ["\t=1", "'\t=1"],
    ["\r=1", "'\r=1"],
    ["＝1", "'＝1"],
    ["'=1", "''=1"],
    ["-1.5", "-1.5"],
    ["+7e-3", "+7e-3"],
    ["'tis", "'tis"],
    ["a=b", "a=b"],
  ] as const)("the text %j is written %j", ([text, cell]) => {
    const written = toCsv(["a"], [{ a: text }]).slice(2, -1);
    const bare = written.startsWith('"') ? written.slice(1, -1).replaceAll('""', '"') : written;
    expect(bare).toBe(cell);
  });

  test("a column that the row has and the table not is left out; order is the table's", () => {
    const row = { b: 2, a: 1, c: 3 };
    expect(toCsv(["a", "b"], [row])).toBe("a,b\n1,2\n");
  });

  test("no rows are a heading", () => {
    expect(toCsv(["a", "b"], [])).toBe("a,b\n");
  });

  test("any label comes back through the sheet's reader", () => {
    // Trimmed and composed, as the reader does; control characters are refused by it.
    const label = fc
      .string({ unit: "binary", maxLength: 12 })
      .map((text) =>
        text
          .replaceAll(/\p{Cc}|\p{Cs}/gu, "")
          .normalize("NFC")
          .trim(),
      )
      .filter((text) => text !== "" && text === text.trim());
    fc.assert(
      fc.property(label, (note) => {
        const { rows, problems } = parseSheet(toCsv(["file", "note"], [{ file: "a.txt", note }]), { name: "s" });
        expect(problems).toEqual([]);
        expect(rows[0]!.note).toBe(note);
      }),
      { seed: 4180, numRuns: 500 },
    );
    fc.assert(
      fc.property(fc.array(fc.constantFrom("=", "'", "+", "-", "@", "1", ",", '"', "a"), { minLength: 1 }), (parts) => {
        const note = parts.join("");
        const { rows } = parseSheet(toCsv(["file", "note"], [{ file: "a.txt", note }]), { name: "s" });
        expect(rows[0]!.note).toBe(note);
      }),
      { seed: 4181, numRuns: 500 },
    );
  });
});
