import fc from "fast-check";
import { expect, test } from "vitest";
import { summarise } from "../../../src/campaign/summarise.ts";
import type { Campaign } from "../../../src/campaign/types.ts";
import type { DrawnFigure } from "../../../src/render/figures/types.ts";
import { reportPage } from "../../../src/render/report/reportPage.ts";
import type { Report } from "../../../src/render/report/reportTypes.ts";
import { makeFailure, makeResult, twoWindows } from "../../campaign/makeResult.ts";
import { makeCampaign, makeCompared } from "./makeCampaign.ts";
import { type Tag, tagsOf } from "./tagsOf.ts";

const spec = { $schema: "https://vega.github.io/schema/vega-lite/v5.json" };
const drawn: DrawnFigure = {
  ...{ name: "stack", kind: "stack", title: "Curves", alt: "Two curves that fall.", spec },
  svg: '<svg width="9" height="9"><defs><clipPath id="c"><rect width="9" height="9"/></clipPath></defs><path clip-path="url(#c)" d="M0 0L9 9"/></svg>',
};
const undrawn: DrawnFigure = {
  ...{ name: "ages", kind: "ages", title: "Indices", alt: "AH3 grows from 4 to 5.", spec },
  missing: "vega is not installed",
};

const empty = summarise([], { protocol: twoWindows });
const failed = summarise([makeFailure("a.txt"), makeFailure("b.txt")], { protocol: twoWindows });

const reports: Record<string, Report> = {
  "a compared campaign with figures": {
    campaign: makeCompared(),
    figures: [drawn, undrawn, { ...drawn, name: "again" }],
    source: "runs",
    command: 'tg-hydrates compare runs --reference moist --margin "10%"',
    made: "2031-05-04",
    plan: { unlisted: ["stray.txt"], remarks: [{ source: "sheet.csv", line: 3, message: "no specimen is named" }] },
    remarks: ["Two properties have no run."],
  },
  "a campaign without decisions": { campaign: makeCampaign() },
  "a campaign with amounts": { campaign: withAmounts() },
  "an empty campaign": { campaign: empty },
  "a campaign whose runs all failed": { campaign: failed },
};

/** A campaign with amounts of calcite: on a basis that no mix allows, and of a run that has none. */
function withAmounts(): Campaign {
  const row = (basis: string, amount: object, age_d: number) => ({
    ...{
      mix: "M1",
      curing: "moist",
      curing_d: null,
      age_d,
      phase: "calcite",
      window: "ah3",
      mol_lost: 1,
      basis,
      amount,
    },
    ...{ n_specimens: 1, n_runs: 1, amount_sd: null, u_random: null, u_shared: null, df: null },
    ...{ amount_lo95: null, amount_hi95: null, flags: [] },
  });
  const amounts = [7, 28].flatMap((age_d) => [
    row("ignited", age_d === 7 ? { value: 5, u: null, terms: [] } : { missing: "window-truncated" }, age_d),
    row("binder", { missing: "no-binder-loss" }, age_d),
    row("paste", { missing: "no-binder-loss" }, age_d),
  ]);
  return { ...makeCampaign(), amounts: amounts as Campaign["amounts"] };
}

const named = (tags: readonly Tag[], name: string) => tags.filter((tag) => tag.name === name);

/** Text of the page as it is read: no markup, no style. */
function textOf(report: Report): string {
  const tags = tagsOf(reportPage(report));
  return named(tags, "body")[0]!.text.replaceAll(/\s+/g, " ").replaceAll("\u00a0", " ");
}

test.for(Object.entries(reports))("%s is a page that a browser need not mend", ([, report]) => {
  const tags = tagsOf(reportPage(report));
  const ids = tags.flatMap(({ attributes }) => attributes.id ?? []);
  expect(new Set(ids).size).toBe(ids.length);
  const targets = tags.flatMap(({ name, attributes }) => (name === "a" ? attributes.href! : []));
  expect(targets.filter((target) => !target.startsWith("#") || !ids.includes(target.slice(1)))).toEqual([]);
  const labels = tags.flatMap(({ attributes }) => attributes["aria-labelledby"] ?? []);
  expect(labels.filter((id) => !ids.includes(id))).toEqual([]);
  const levels = tags.flatMap(({ name }) => (/^h[1-6]$/.test(name) ? Number(name[1]) : []));
  expect(levels.filter((level, i) => level > (levels[i - 1] ?? 0) + 1)).toEqual([]);
  expect(levels.filter((level) => level === 1)).toHaveLength(1);
  for (const name of ["header", "nav", "main", "footer", "title"]) expect(named(tags, name)).toHaveLength(1);
  expect(named(tags, "html")[0]!.attributes).toEqual({ lang: "en", dir: "ltr" });
  expect(named(tags, "caption")).toHaveLength(named(tags, "table").length);
  expect(named(tags, "caption").filter(({ text }) => text.trim() === "")).toEqual([]);
  expect(named(tags, "th").filter(({ attributes }) => attributes.scope === undefined)).toEqual([]);
  expect(named(tags, "a")[0]).toMatchObject({ text: "Skip to the findings", attributes: { href: "#content" } });
});

test.for(Object.entries(reports))("%s asks for nothing and runs nothing", ([, report]) => {
  const page = reportPage(report);
  const tags = tagsOf(page);
  const strange = ["script", "link", "img", "iframe", "object", "embed", "form", "base", "image", "foreignObject"];
  expect(tags.filter(({ name }) => strange.includes(name))).toEqual([]);
  const attributes = tags.flatMap((tag) => Object.entries(tag.attributes));
  expect(attributes.filter(([key]) => key.startsWith("on") || key === "src" || key === "srcset")).toEqual([]);
  expect(attributes.filter(([key, value]) => key === "href" && !value.startsWith("#"))).toEqual([]);
  expect(named(tags, "style")[0]!.text).not.toMatch(/url\(|@import|@font-face/);
  const [policy] = named(tags, "meta").filter(({ attributes: of }) => of["http-equiv"] === "Content-Security-Policy");
  expect(policy!.attributes.content).toMatch(/^default-src 'none'; style-src 'unsafe-inline';/);
});

test("the same report is the same page, and nothing in it is changed", () => {
  const report = reports["a compared campaign with figures"]!;
  const before = JSON.stringify(report);
  expect(reportPage(report)).toBe(reportPage(JSON.parse(before) as Report));
  expect(JSON.stringify(report)).toBe(before);
});

test("a label is text, whatever it is: the elements of the page stay the same", () => {
  const shape = (names: { mix: string; curing: string }): string[] =>
    tagsOf(reportPage({ campaign: makeCompared(names), source: names.mix, remarks: [names.curing] })).map(
      ({ name, attributes }) => `${name} ${Object.keys(attributes).join(" ")}`,
    );
  const plain = shape({ mix: "M1", curing: "xair" });
  const hostile = fc.oneof(
    fc.string({ unit: "grapheme", minLength: 1, maxLength: 30 }),
    fc.constantFrom(
      "</td></table><script>alert(1)</script>",
      '" onfocus="x',
      "=cmd|' /C calc'!A0",
      "&lt;b&gt;",
      "]]>",
      "<!--",
      "\u202Egpj",
      "🧪",
      "a\nb",
    ),
  );
  fc.assert(
    fc.property(hostile, hostile, (mix, curing) => {
      // A name of its own, sorted after the reference as the plain one is.
      expect(shape({ mix: `M${mix}`, curing: `x${curing}` })).toEqual(plain);
    }),
    { numRuns: 60, seed: 7 },
  );
});

test("a label is shown as it is, isolated, with its invisible marks made visible", () => {
  const page = reportPage({ campaign: makeCampaign({ mix: '<b>"M"</b>\u202Etxt\n=1' }) });
  expect(page).toContain("<bdi>&lt;b&gt;&quot;M&quot;&lt;/b&gt;\\u{202e}txt\\u{a}=1</bdi>");
  expect(page).not.toContain("\u202e");
});

test("difference and agreement are counted and told apart", () => {
  const campaign = makeCompared();
  const rows = campaign.decisions!.contrasts.filter(({ against }) => against === "regime");
  const shown = rows.filter(({ difference_verdict }) => /lower|higher/.test(difference_verdict)).length;
  const within = rows.filter(({ equivalence_verdict }) => equivalence_verdict === "within margin").length;
  // Built so that both verdicts occur, and neither in all.
  expect([shown, within].every((count) => count > 0 && count < rows.length)).toBe(true);
  const text = textOf({ campaign });
  expect(text).toContain(
    `Is there a difference? Shown in ${shown} of ${rows.length} comparisons; in the other ${rows.length - shown} these data cannot tell.`,
  );
  expect(text).toContain(`Do they agree within the margin? Shown in ${within} of ${rows.length} comparisons`);
  expect(text).not.toMatch(/no difference between|are equal|are the same as|equivalent/i);
});

test("without a margin agreement is not asked, and not found", () => {
  const campaign = makeCompared();
  const decisions = structuredClone(campaign.decisions!);
  decisions.asked.margins = [];
  for (const row of decisions.contrasts) if (row.p !== null) row.equivalence_verdict = "no margin given";
  const text = textOf({ campaign: { ...campaign, decisions } });
  expect(text).toContain("Not asked: no margin was stated.");
  expect(text).not.toContain("Agreement: within");
});

test("the shortest sufficient curing never goes without its caution", () => {
  const campaign = makeCompared();
  const caution = "Ask the engineer of record.";
  const step = {
    curing: "cloth",
    n: 3,
    value: 40,
    share_pct: null,
    share_lower95: null,
    p: null,
    df: null,
    bound95: null,
  };
  const sufficient = [
    {
      ...{ quantity: "strength", unit: "MPa", mix: "M1", curing: "cloth", age_d: 28, longest_d: 7, requirement: null },
      margin: { quantity: null, kind: "share" as const, size: 0.1, unit: null },
      sufficient_d: 3,
      steps: [{ ...step, curing_d: 7, verdict: "longest" as const }],
      sentence: "strength of M1 at 28 d, cloth: 3 d is the shortest shown.",
      caution,
    },
  ];
  const text = textOf({ campaign: { ...campaign, decisions: { ...campaign.decisions!, sufficient } } });
  // In the findings, and with the table.
  expect(text.split("3 d is the shortest shown.")).toHaveLength(3);
  expect(text.split(caution)).toHaveLength(3);
});

test("without a comparison the page says what the means cannot say", () => {
  const text = textOf({ campaign: makeCampaign() });
  expect(text).toContain("4 cells (mix, curing, age) in 2 windows: 8 of 8 values are there, 8 with a 95 % interval.");
  expect(text).toContain("No regime was compared with another.");
  expect(text).not.toMatch(/Comparisons in full|Is there a difference/);
});

test("one specimen per cell gives no interval, and the page says so", () => {
  const runs = ["a", "b"].map((file, i) => makeResult(`${file}.txt`, [30 + i, 4], { age_d: 7 + i }));
  const text = textOf({ campaign: summarise(runs, { protocol: twoWindows }) });
  expect(text).toContain("4 of 4 values are there, 0 with a 95 % interval. 2 cells rest on one specimen.");
  expect(text).toContain("how far specimens scatter is not known, and no difference can be judged");
});

test("signs of the table of indices are explained where they stand", () => {
  const signs = (campaign: Campaign) => /<section id="ages".*?<p>(.*?)<\/p>/s.exec(reportPage({ campaign }))![1]!;
  const all = makeCampaign();
  expect(signs(all)).toMatch(/^Mean ± half of its 95 % interval\..* An asterisk: read with care/);
  expect(signs(all)).not.toMatch(/Without ±|A dash/);
  const bare = all.ages.map((row) => ({ ...row, index_hi95: null, flags: [] }));
  expect(signs({ ...all, ages: bare })).toMatch(/^Without ±[^.]*\.$/);
  const missing = bare.map((row, i) => (i === 0 ? { ...row, index: { missing: "window-truncated" } } : row));
  expect(signs({ ...all, ages: missing })).toMatch(/^Without ±[^.]*\. A dash: missing\.$/);
});

test("an empty campaign and one whose runs all failed have no findings", () => {
  expect(textOf({ campaign: empty })).toContain("There is no run: nothing was measured, and nothing is found.");
  const text = textOf({ campaign: failed });
  expect(text).toContain("Runs2 (0 done, 0 incomplete, 2 failed)");
  expect(text).toContain("None of 2 runs of specimens gave an index: nothing can be said about hydrates.");
  expect(text).toContain("2 runs could not be evaluated");
  expect(text).toContain("a.txt (no-table): a.txt: holds no table");
});

test("flags stand by severity with what to do, once per run, and linked from the tables", () => {
  const page = reportPage({ campaign: makeCampaign() });
  const text = textOf({ campaign: makeCampaign() });
  expect(text).toContain("Start the run near room temperature");
  // Two runs are flagged; their cells carry the flag on, which is not told again.
  expect(page.match(/The run starts at 52\u00a0°C/g)).toHaveLength(2);
  expect(page).toContain('<div class="finding" id="flag-starts-warm">');
  expect(page).toContain('<a href="#flag-starts-warm">starts-warm</a>');
});

test("a figure has its text; without a drawing the text stands in its place, with the reason", () => {
  const tags = tagsOf(reportPage({ campaign: empty, figures: [drawn, undrawn] }));
  expect(named(tags, "figcaption").map(({ text }) => text)).toEqual(["Figure 1. Curves", "Figure 2. Indices"]);
  expect(
    tags.filter(({ attributes }) => attributes.role === "img").map(({ attributes }) => attributes["aria-label"]),
  ).toEqual(["Two curves that fall."]);
  const [, second] = named(tags, "figure");
  expect(second!.text).toContain("Not drawn: vega is not installed. What it shows: AH3 grows from 4 to 5.");
});

test("what a table does not hold is counted, and the page stays small for many runs", () => {
  const runs = Array.from({ length: 600 }, (_, i) =>
    i % 3 === 0
      ? makeFailure(`r${i}.txt`, { age_d: i })
      : makeResult(`r${i}.txt`, [30 + (i % 7), 5], { age_d: 1 + (i % 90) }),
  );
  const report: Report = {
    campaign: summarise(runs, { protocol: twoWindows }),
    figures: Array.from({ length: 100 }, (_, i) => ({ ...drawn, kind: "run" as const, name: `run${i}` })),
  };
  const text = textOf(report);
  expect(text).toContain("Runs600 (400 done, 0 incomplete, 200 failed)");
  expect(text).toContain("175 more: they stand in runs.csv.");
  expect(text).toContain("400 more: they stand in runs.csv.");
  expect(text).toContain("40 more: they stand in the folder figures.");
  // Failed ones are shown first where not all can be.
  const table = named(tagsOf(reportPage(report)), "table").find(({ text: of }) =>
    of.includes("noise of a single reading"),
  )!;
  expect(table.text.match(/failed/g)).toHaveLength(200);
  expect(reportPage(report).length).toBeLessThan(600_000);
});

test("numbers of the tables are those of the campaign, to the digits of their interval", () => {
  const campaign: Campaign = makeCampaign();
  const row = campaign.ages.find(
    ({ window, curing, age_d }) => window === "aft-afm" && curing === "moist" && age_d === 28,
  )!;
  if ("missing" in row.index || row.index_hi95 === null) throw new Error("the cell has an interval");
  // Interval of about a tenth: two digits of it are two decimals.
  const half = row.index_hi95 - row.index.value;
  expect(half).toBeGreaterThan(0.1);
  expect(half).toBeLessThan(1);
  expect(row.index.value).toBeCloseTo(32, 9);
  const cells = named(tagsOf(reportPage({ campaign })), "td").map(({ text }) => text.replaceAll(/\s+/g, " "));
  expect(cells).toContain(`32.00 ± ${half.toFixed(2)}*`);
});

test("what it takes to make the numbers again stands in the page", () => {
  const report = reports["a compared campaign with figures"]!;
  const text = textOf(report);
  expect(text).toContain("tg-hydrates compare runs --reference moist --margin &quot;10%&quot;");
  expect(text).toContain("2031-05-04");
  const [json] = named(tagsOf(reportPage(report)), "pre");
  const plain = json!.text
    .replaceAll("&quot;", '"')
    .replaceAll("&#39;", "'")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&amp;", "&");
  expect(JSON.parse(plain)).toEqual(report.campaign.protocol);
  for (const { sha256 } of report.campaign.runs) if (sha256 !== null) expect(text).toContain(sha256);
  expect(text).toContain("1 file of the folder is not in the run sheet and took no part. stray.txt");
  expect(text).toContain("sheet.csv, line 3: no specimen is named");
});

test("the cautions stand in every report", () => {
  for (const report of Object.values(reports)) {
    const text = textOf(report);
    expect(text).toMatch(
      /No acceptance test\..*local code.*engineer of record.*isopropanol.*burn.*Furnace gases.*caustic/s,
    );
    expect(text).toContain("Indices are no acceptance test, and not shown is never the same as equal");
  }
});

test("a basis that no cell can have is no column of dashes: the reason is told once", () => {
  const text = textOf({ campaign: withAmounts() });
  const [, amounts = ""] = /(Amounts of phases By stoichiometry.*?)Methods Written/.exec(text) ?? [];
  expect(amounts).toContain("Not per 100 g of binder, paste: Give loi_binder_pct for the mix in the mix table.");
  expect(amounts).toMatch(/curingageignitedread with care/);
  expect(amounts).toMatch(/28 d—window-truncated/);
});
