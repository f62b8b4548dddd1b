/** The looks of the report: a bound laboratory report with side headings. Own colours, fonts of the system, no request. */
export const styleSheet: string = `
:root {
  color-scheme: light dark;
  --paper: #fcfbf8; --ink: #22272b; --soft: #596167; --rule: #d9d4c9; --tint: #f3f0e8; --link: #175a66;
  --serious: #96291c; --caution: #7d5200; --note: #4b5a63;
  --read: Charter, "Bitstream Charter", "Sitka Text", Cambria, Georgia, serif;
  --data: "Segoe UI", "Helvetica Neue", "Liberation Sans", Arial, sans-serif;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #171a1c; --ink: #e7e4dd; --soft: #aab0b2; --rule: #3b4144; --tint: #20262a; --link: #8fcad2;
    --serious: #f2a596; --caution: #e4bd64; --note: #a9bac4;
  }
}
* { box-sizing: border-box; }
html { scroll-padding-top: 1rem; -webkit-text-size-adjust: 100%; }
body {
  margin: 0 auto; padding: 1.5rem clamp(0.9rem, 4vw, 3rem) 4rem; max-width: 82rem;
  background: var(--paper); color: var(--ink); font: 1rem/1.55 var(--read); overflow-wrap: break-word;
}
a { color: var(--link); text-underline-offset: 0.15em; }
a:focus-visible, summary:focus-visible, [tabindex]:focus-visible { outline: 3px solid var(--link); outline-offset: 2px; }
main:focus { outline: none; }
.skip { position: absolute; left: -999rem; }
.skip:focus { position: static; display: inline-block; padding: 0.4rem 0.6rem; }
h1 { margin: 0 0 1rem; font-size: clamp(1.6rem, 5vw, 2.4rem); line-height: 1.15; font-weight: 600; overflow-wrap: anywhere; }
h2 { margin: 0 0 1rem; font-size: 1.3rem; line-height: 1.25; font-weight: 600; }
h3 { margin: 2rem 0 0.5rem; font-size: 1.1rem; line-height: 1.3; overflow-wrap: anywhere; }
h4 { margin: 1.1rem 0 0.25rem; font-size: 1rem; line-height: 1.35; overflow-wrap: anywhere; }
.body > :first-child { margin-top: 0; }
p { margin: 0 0 0.8rem; max-width: 46rem; }
ul, ol { margin: 0 0 0.8rem; padding-left: 1.2rem; max-width: 46rem; }
li { margin-bottom: 0.2rem; overflow-wrap: anywhere; }
.over, .aside, .soft, small { color: var(--soft); }
.over { margin: 0 0 0.3rem; font: 0.85rem/1.4 var(--data); }
.aside, .legend { font-size: 0.92rem; }
code, pre { font-family: ui-monospace, "Cascadia Mono", "DejaVu Sans Mono", Menlo, monospace; font-size: 0.86em; }
code { overflow-wrap: anywhere; }
.facts { margin: 0 0 1.2rem; border-top: 1px solid var(--rule); }
.facts > div { display: grid; grid-template-columns: minmax(6rem, 11rem) minmax(0, 1fr); gap: 0 1.2rem; padding: 0.28rem 0; border-bottom: 1px solid var(--rule); }
dt { color: var(--soft); }
dd { margin: 0; overflow-wrap: anywhere; }
nav ol { display: flex; flex-wrap: wrap; gap: 0.2rem 1.4rem; padding: 0; margin: 0 0 1rem; max-width: none; list-style: none; font-family: var(--data); font-size: 0.9rem; }
nav li { margin: 0; padding: 0.2rem 0; }
section { padding: 1.6rem 0 1rem; border-top: 3px double var(--rule); }
.verdicts { margin: 0; }
.verdicts > div { padding: 0.15rem 0 0.35rem; }
.verdicts dt { font-size: 0.92rem; }
.verdicts b { color: var(--ink); }
.verdicts .neither b { font-weight: normal; font-style: italic; }
.verdicts dd { padding-left: 1rem; max-width: 45rem; }
.caution-line { padding: 0.5rem 0; border: solid var(--caution); border-width: 1px 0; }
.finding { margin: 0 0 1.2rem; }
.finding p { margin-bottom: 0.3rem; }
h3.serious { color: var(--serious); }
h3.caution { color: var(--caution); }
h3.note { color: var(--note); }
summary { cursor: pointer; color: var(--link); padding: 0.15rem 0; }
details { margin-bottom: 0.8rem; }
.scroll { overflow-x: auto; margin: 0 0 1.6rem; max-width: 100%; }
table { border-collapse: collapse; font: 0.86rem/1.4 var(--data); font-variant-numeric: tabular-nums; }
caption { padding: 0.4rem 0; text-align: left; font: 600 0.96rem/1.4 var(--read); }
caption span { position: sticky; left: 0; display: inline-block; max-width: min(46rem, calc(100vw - 2rem)); overflow-wrap: anywhere; }
th, td { padding: 0.22rem 0.7rem 0.22rem 0; text-align: left; vertical-align: baseline; }
td:last-child, th:last-child { padding-right: 0.2rem; }
thead th { border-bottom: 1px solid var(--ink); font-weight: 600; vertical-align: bottom; }
thead tr:first-child:not(:last-child) > * { border-bottom: 0; padding-top: 0.3rem; }
thead th[scope="colgroup"] { color: var(--soft); font-weight: 600; }
tbody { border-bottom: 1px solid var(--rule); }
tbody tr:nth-child(even):not(.group) { background: var(--tint); }
tbody th { font-weight: 500; }
tbody th[scope="row"]:not(.number) { min-width: 4.8rem; max-width: 22rem; overflow-wrap: anywhere; }
td a, td b, td .soft { white-space: nowrap; }
tr.group th { padding-top: 0.7rem; font-weight: 650; }
tr.group span { position: sticky; left: 0; }
.number { text-align: right; white-space: nowrap; }
.half { color: var(--soft); }
th small { font-weight: normal; }
.hash { font-size: 0.8rem; overflow-wrap: normal; }
.quote { padding: 0.2rem 0 0.2rem; max-width: 46rem; }
pre { margin: 0; padding: 0.8rem; background: var(--tint); font-size: 0.8rem; line-height: 1.45; }
figure { margin: 0 0 2.2rem; }
.paper { width: fit-content; max-width: 100%; overflow-x: auto; padding: 0.8rem; background: #fff; color: #000; border: 1px solid var(--rule); }
.paper svg { display: block; max-width: max(100%, 34rem); height: auto; }
figcaption { padding-top: 0.4rem; max-width: 46rem; font-size: 0.95rem; }
.in-place { padding: 0.8rem; background: var(--tint); }
footer { margin-top: 1.5rem; padding-top: 0.8rem; border-top: 1px solid var(--rule); color: var(--soft); font-size: 0.9rem; }
@media (min-width: 68rem) {
  section { display: grid; grid-template-columns: 11rem minmax(0, 1fr); gap: 0 2rem; }
  h2 { font-size: 1.15rem; }
  section.wide { display: block; }
}
@media (max-width: 30rem) {
  .facts > div { grid-template-columns: minmax(0, 1fr); }
  .facts dd { padding-left: 0.8rem; }
}
@page { margin: 16mm 14mm; }
@page wide { size: landscape; }
@media print {
  :root {
    color-scheme: light;
    --paper: #fff; --ink: #000; --soft: #444; --rule: #bbb; --tint: #f4f4f4; --link: #000;
    --serious: #7a1408; --caution: #5e3d00; --note: #333;
  }
  body { padding: 0; max-width: none; font-size: 10pt; }
  nav, .skip { display: none; }
  a { text-decoration: none; }
  section { display: block; padding: 5mm 0 2mm; }
  section.wide { page: wide; }
  h2, h3, h4, caption, summary { break-after: avoid; }
  h2 { font-size: 14pt; }
  tr, li, figure, .finding > h4, .regime, .facts > div { break-inside: avoid; }
  thead { display: table-header-group; }
  .scroll, .paper { overflow: visible; }
  .paper { border: 0; padding: 0; }
  .paper svg { max-width: 100%; max-height: 220mm; }
  .singles .paper svg { max-height: 105mm; }
  table { font-size: 8pt; max-width: 100%; }
  caption span { position: sticky; left: 0; display: inline-block; max-width: min(46rem, calc(100vw - 2rem)); overflow-wrap: anywhere; }
th, td { padding-right: 1.6mm; }
  td, th { overflow-wrap: anywhere; }
  caption span { position: static; max-width: none; }
  td a { white-space: normal; }
  .number { white-space: normal; }
  .hash { font-size: 6.5pt; }
  pre { white-space: pre-wrap; overflow-wrap: anywhere; font-size: 7pt; background: none; padding: 0; }
  details::details-content { content-visibility: visible; display: block; block-size: auto; }
  details:not([open]) > :not(summary) { display: revert; }
}
`;
