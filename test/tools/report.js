// Opens reports from disk in a real browser and looks at them as readers do: at a desk, at night, on a telephone, on paper, with
// a screen reader. Needs `npm run build` before, and Chromium: CHROME_PATH, or one of the usual names on the PATH.
// Pages, pictures and PDFs go to out/report. Stops at the first thing that does not hold.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { delimiter, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import puppeteer from "puppeteer-core";

const root = fileURLToPath(new URL("../../", import.meta.url));
const out = join(root, "out", "report");
const { campaignFigures, compare, drawSvg, indexFolder, parseMargin, readProperties, reportPage } = await import(
  pathToFileURL(join(root, "dist", "node.js")).href
);
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const NAMES = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome", "microsoft-edge"];

function findBrowser() {
  const { CHROME_PATH, PATH = "" } = process.env;
  if (CHROME_PATH) return CHROME_PATH;
  const places = PATH.split(delimiter).flatMap((folder) => NAMES.map((name) => join(folder, name)));
  return places.find((file) => existsSync(file)) ?? null;
}

function expectThat(holds, sentence, found) {
  if (!holds) throw new Error(`not so: ${sentence}${found === undefined ? "" : `\n${JSON.stringify(found, null, 2)}`}`);
  console.log(`ok  ${sentence}`);
}

const browserPath = findBrowser();
if (browserPath === null) {
  console.error(
    "report skipped: no Chromium. Nothing was checked. Install one (Debian: apt-get install chromium; otherwise\n" +
      "https://www.chromium.org/getting-involved/download-chromium/) or name it in CHROME_PATH.\n" +
      "Where there can be none, set REPORT_BROWSER=optional to let this pass.",
  );
  process.exit(process.env.REPORT_BROWSER === "optional" ? 0 : 1);
}

/** Two figures as a drawing program makes them, with the same ids in both, and one that could not be drawn. */
function stampFigures() {
  const drawing = (text) =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="640" height="200" viewBox="0 0 640 200"><defs><clipPath id="clip0"><rect width="600" height="180"/></clipPath></defs><g clip-path="url(#clip0)"><path d="M20 20 L200 60 L320 150 L600 170" fill="none" stroke="#333"/><text x="30" y="190" font-size="12">${text}</text></g></svg>`;
  const spec = { $schema: "https://vega.github.io/schema/vega-lite/v5.json" };
  return [
    { name: "a", kind: "stack", title: "Two curves", alt: "Two falling curves.", spec, svg: drawing("first") },
    { name: "b", kind: "ages", title: "Two more", alt: "Two more falling curves.", spec, svg: drawing("second") },
    { name: "c", kind: "run", title: "One run", alt: "One falling curve.", spec, missing: "vega is not installed" },
  ];
}

/** All figures of a campaign, drawn. */
async function realFigures(campaign, sketches) {
  const figures = [];
  for (const figure of campaignFigures(campaign, sketches, { which: "all" })) {
    figures.push({ ...figure, svg: await drawSvg(figure.spec) });
  }
  return figures;
}

/** A label that tries everything a label can try. */
const HOSTILE =
  "\"><script>window.hit=1</script><img src=x onerror=window.hit=1>=cmd|' /C calc'!A0\u202Etxt.exe\n\u{1F9EA}";

async function pages() {
  const cwd = root;
  const source = "fixtures/example";
  const { campaign, plan, sketches } = await indexFolder(source, { cwd });
  const properties = await readProperties(undefined, { folder: source, cwd });
  const asked = { reference: "sealed", margins: parseMargin("10%"), properties: properties.rows };
  const decided = { ...campaign, decisions: compare(campaign, asked) };
  const command = 'tg-hydrates compare fixtures/example --reference sealed --margin "10%" --out out/report';
  const renamed = JSON.parse(JSON.stringify(decided).replaceAll('"M1"', JSON.stringify(HOSTILE)));
  const figures = await realFigures(decided, sketches);
  return {
    example: reportPage({ campaign: decided, figures, source, plan, command }),
    indexed: reportPage({ campaign, source, plan }),
    hostile: reportPage({ campaign: renamed, source: HOSTILE, figures: stampFigures(), remarks: [HOSTILE] }),
    empty: reportPage({ campaign: { ...campaign, runs: [], ages: [], amounts: [], plausibility: [], flags: [] } }),
  };
}

/** Opens a page from disk and listens to everything it says and asks for. */
async function open(browser, name, { width = 1280, dark = false } = {}) {
  const page = await browser.newPage();
  const said = [];
  const asked = [];
  page.on("console", (message) => said.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => said.push(`error: ${error.message}`));
  page.on("requestfailed", (request) => said.push(`failed: ${request.url()}`));
  await page.setRequestInterception(true);
  const url = pathToFileURL(join(out, `${name}.html`)).href;
  page.on("request", (request) => {
    if (request.url() === url) return void request.continue();
    asked.push(request.url());
    request.abort();
  });
  await page.setViewport({ width, height: 900 });
  await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: dark ? "dark" : "light" }]);
  await page.goto(url, { waitUntil: "load" });
  return { page, said, asked };
}

/** What axe finds with everything unfolded; the policy of the page keeps it from being loaded as a script of the page. */
async function violations(page) {
  await page.evaluate(() => {
    for (const details of document.querySelectorAll("details")) details.open = true;
  });
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => globalThis.axe.run(document));
  return violations.map(({ id, impact, nodes }) => ({ id, impact, at: nodes.slice(0, 3).map(({ html }) => html) }));
}

const LOOKS = {
  light: {},
  dark: { dark: true },
  narrow: { width: 360 },
  "narrow-dark": { width: 360, dark: true },
};

async function lookAt(browser, name, looks) {
  for (const look of looks) {
    const options = LOOKS[look];
    const { page, said, asked } = await open(browser, name, options);
    expectThat(asked.length === 0, `${name}, ${look}: asks for nothing but itself`, asked);
    await page.screenshot({ path: join(out, `${name}-${look}.png`), fullPage: true });
    const found = await violations(page);
    expectThat(found.length === 0, `${name}, ${look}: axe finds nothing`, found);
    const wide = await page.evaluate(() => {
      const { scrollWidth, clientWidth } = document.documentElement;
      return scrollWidth <= clientWidth
        ? []
        : [...document.querySelectorAll("body *")]
            .filter(
              (one) =>
                !one.parentElement.closest(".scroll, .paper") && one.getBoundingClientRect().right > clientWidth + 1,
            )
            .slice(0, 5)
            .map((one) => one.outerHTML.slice(0, 120));
    });
    expectThat(wide.length === 0, `${name}, ${look}: nothing is wider than the page`, wide);
    expectThat(said.length === 0, `${name}, ${look}: no word on the console`, said);
    await page.close();
  }
}

/** What the parser of a browser made of the page. */
async function structure(browser, name, { figures }) {
  const { page } = await open(browser, name);
  const seen = await page.evaluate(() => {
    const all = (selector) => [...document.querySelectorAll(selector)];
    const levels = all("h1, h2, h3, h4").map((one) => Number(one.tagName[1]));
    const ids = all("[id]").map(({ id }) => id);
    return {
      mode: document.compatMode,
      lang: document.documentElement.lang,
      title: document.title,
      h1: all("h1").length,
      leaps: levels.filter((level, i) => i > 0 && level > levels[i - 1] + 1).length,
      landmarks: ["header", "nav", "main", "footer"].filter((one) => all(`body > ${one}`).length !== 1),
      uncaptioned: all("table").filter((table) => !table.caption?.textContent.trim()).length,
      unscoped: all("th:not([scope])").length,
      unreachable: all("table").filter((table) => table.parentElement.tabIndex !== 0).length,
      twice: ids.filter((id, i) => ids.indexOf(id) !== i),
      lost: all('a[href^="#"]').filter((one) => !document.getElementById(one.hash.slice(1))).length,
      clips: all("[clip-path]").filter(
        (one) => !document.getElementById(/#(.*)\)/.exec(one.getAttribute("clip-path"))[1]),
      ).length,
      unnamed: all("[role=img]").filter((one) => !one.getAttribute("aria-label")).length,
      drawn: all("figure svg").length,
      figures: all("figure").length,
      scripts: all("script, img, iframe, object, link, [onerror]").length,
      hit: globalThis.hit ?? null,
    };
  });
  const { title, drawn, figures: shown, ...rest } = seen;
  const right = {
    mode: "CSS1Compat",
    lang: "en",
    h1: 1,
    leaps: 0,
    landmarks: [],
    uncaptioned: 0,
    unscoped: 0,
    unreachable: 0,
    twice: [],
    lost: 0,
    clips: 0,
    unnamed: 0,
    scripts: 0,
    hit: null,
  };
  expectThat(title.startsWith("Hydrates by age"), `${name}: has a title`, title);
  for (const [what, value] of Object.entries(right)) {
    expectThat(
      JSON.stringify(rest[what]) === JSON.stringify(value),
      `${name}: ${what} is ${JSON.stringify(value)}`,
      rest[what],
    );
  }
  expectThat(
    shown >= figures.least && shown - drawn === figures.undrawn,
    `${name}: ${drawn} of ${shown} figures are drawn, ${figures.undrawn} not`,
    seen,
  );
  await page.close();
}

/** Prints it, and counts the pages; folded parts must be printed too. */
async function print(browser, name) {
  const { page } = await open(browser, name);
  const pdf = await page.pdf({ path: join(out, `${name}.pdf`), printBackground: false, preferCSSPageSize: true });
  const count = (
    Buffer.from(pdf)
      .toString("latin1")
      .match(/\/Type\s*\/Page\b/g) ?? []
  ).length;
  expectThat(count > 1, `${name}: prints on ${count} pages`);
  await page.emulateMediaType("print");
  await page.setViewport({ width: 794, height: 1123 });
  await page.screenshot({ path: join(out, `${name}-print.png`), fullPage: true });
  const folded = await page.evaluate(
    () =>
      [...document.querySelectorAll("details:not([open])")].filter(
        (one) => one.getBoundingClientRect().height < 2 * one.firstElementChild.getBoundingClientRect().height,
      ).length,
  );
  expectThat(folded === 0, `${name}: what is folded on the screen is printed`, folded);
  await page.close();
}

mkdirSync(out, { recursive: true });
const made = await pages();
for (const [name, page] of Object.entries(made)) writeFileSync(join(out, `${name}.html`), page);
expectThat(JSON.stringify(await pages()) === JSON.stringify(made), "the same folder gives the same pages to the byte");
const sandbox = process.getuid?.() === 0 ? ["--no-sandbox"] : [];
const browser = await puppeteer.launch({ executablePath: browserPath, args: [...sandbox, "--disable-gpu"] });
try {
  console.log(`    ${await browser.version()}`);
  await structure(browser, "example", { figures: { least: 40, undrawn: 0 } });
  await structure(browser, "hostile", { figures: { least: 3, undrawn: 1 } });
  await structure(browser, "empty", { figures: { least: 0, undrawn: 0 } });
  await lookAt(browser, "example", Object.keys(LOOKS));
  for (const name of ["indexed", "hostile", "empty"]) await lookAt(browser, name, ["light", "narrow"]);
  await print(browser, "example");
  await print(browser, "hostile");
} finally {
  await browser.close();
}
console.log(`pictures, pages and PDFs: ${out}`);
