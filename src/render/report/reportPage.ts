import { agesSection } from "./agesSection.ts";
import { amountsSection } from "./amountsSection.ts";
import { cautionsSection } from "./cautionsSection.ts";
import { comparisonsSection } from "./comparisonsSection.ts";
import { figuresSection } from "./figuresSection.ts";
import { findingsSection } from "./findingsSection.ts";
import { flagsSection } from "./flagsSection.ts";
import { Html, html } from "./html.ts";
import { methodsSection } from "./methodsSection.ts";
import { overview } from "./overview.ts";
import { provenanceSection } from "./provenanceSection.ts";
import type { Report } from "./reportTypes.ts";
import { runsSection } from "./runsSection.ts";
import { section } from "./section.ts";
import { styleSheet } from "./styleSheet.ts";

/**
 * A campaign as one page of HTML that needs nothing else: findings, flags, tables, figures, methods and provenance. It asks for
 * nothing from anywhere (its content security policy forbids it), has no script, and prints. Labels cannot become markup.
 *
 * @param report What it is made of; only the campaign is required.
 * @returns The same page to the byte for the same input: there is no clock in it.
 *
 * @example
 * ```ts
 * import { protocols, reportPage, settle, summarise } from "tg-hydrates";
 * const campaign = summarise([], { protocol: settle(protocols.csa) });
 * const page = reportPage({ campaign, source: "an empty folder" });
 * if (!page.startsWith("<!doctype html>") || page.includes("<script")) throw new Error("a page without a script");
 * ```
 */
export function reportPage(report: Report): string {
  const { campaign, figures = [], source } = report;
  const sections = [
    findingsSection(campaign),
    flagsSection(report),
    agesSection(campaign),
    amountsSection(campaign),
    figuresSection(figures),
    comparisonsSection(campaign),
    methodsSection(campaign),
    runsSection(campaign),
    provenanceSection(report),
    cautionsSection(),
  ].filter((one) => one !== null);
  return html`<!doctype html>
<html lang="en" dir="ltr">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<meta name="generator" content="tg-hydrates ${campaign.version}">
<title>Hydrates by age${source !== undefined && `: ${source}`}</title>
<style>${new Html(styleSheet)}</style>
</head>
<body>
<a class="skip" href="#content">Skip to the findings</a>
${overview(report)}<nav aria-label="Contents">
<ol>
${sections.map(({ id, heading }) => html`<li><a href="#${id}">${heading}</a></li>\n`)}</ol>
</nav>
<main id="content" tabindex="-1">
${sections.map(section)}</main>
<footer>
<p>Made by tg-hydrates ${campaign.version}${report.made !== undefined && html`, ${report.made}`}. This page needs no network and no script; the numbers in full stand in the CSV tables and campaign.json beside it.</p>
</footer>
</body>
</html>
`.markup;
}
