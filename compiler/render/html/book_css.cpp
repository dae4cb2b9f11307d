#include "render/html/page.h"

namespace gill::render::html {

// One sheet for every page: paper and ink, bottle green for what can be followed, nothing loaded from
// anywhere. Sizes are in rem, so that a reader's own type size counts. Narrow screens come first; two columns
// from 62rem on.
std::string_view book_css() {
  return R"css(:root {
  color-scheme: light dark;
  --paper: #fbf9f3;
  --wash: #f2efe4;
  --ink: #1d2622;
  --soft: #566159;
  --faint: #b9bfb5;
  --rule: #d8d8cc;
  --green: #1d5441;
  --rust: #8c3a12;
  --serif: "Iowan Old Style", "Palatino Linotype", Palatino, "Book Antiqua", "URW Palladio L", "Noto Serif", Georgia, "DejaVu Serif", serif;
  --sans: system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", "Liberation Sans", sans-serif;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #141a17;
    --wash: #1d2521;
    --ink: #e9e7dd;
    --soft: #a9b3ab;
    --faint: #5d6961;
    --rule: #323c36;
    --green: #93cbb0;
    --rust: #f1a778;
  }
}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body {
  margin: 0 auto;
  max-width: 74rem;
  padding: 0 1rem 3rem;
  background: var(--paper);
  color: var(--ink);
  font: 1.0625rem/1.5 var(--sans);
  font-variant-numeric: tabular-nums lining-nums;
  overflow-wrap: break-word;
}
a { color: inherit; text-decoration: underline; text-decoration-color: var(--green); text-decoration-thickness: 1px; text-underline-offset: 0.2em; }
a:hover { color: var(--green); text-decoration-thickness: 2px; }
:focus-visible { outline: 3px solid var(--green); outline-offset: 2px; }
.skip { position: absolute; left: -100vw; padding: 0.5rem 1rem; background: var(--ink); color: var(--paper); }
.skip:focus { left: 0; z-index: 2; }

/* the head of every page */
.top { display: flex; flex-wrap: wrap; gap: 0 1.5rem; align-items: baseline; justify-content: space-between; padding: 0.75rem 0 0.5rem; border-bottom: 1px solid var(--rule); }
.top p { margin: 0; }
.house a, nav a { text-decoration: none; display: inline-block; padding: 0.35rem 0; }
.house { font-family: var(--serif); font-style: italic; }
nav ul { display: flex; flex-wrap: wrap; gap: 0 1.1rem; margin: 0; padding: 0; list-style: none; font-size: 0.9375rem; }
nav a[aria-current] { box-shadow: inset 0 -2px 0 var(--green); }
.title { padding: 1.5rem 0 1rem; }
h1, h2, h3, h4 { font-family: var(--serif); font-weight: 400; line-height: 1.15; text-wrap: balance; }
h1 { margin: 0; font-size: 2.5rem; letter-spacing: -0.01em; }
.subtitle { margin: 0.35rem 0 0; color: var(--soft); }

/* what the script brings to life */
[hidden] { display: none !important; }
input, select, button { font: inherit; color: inherit; background: var(--paper); border: 1px solid var(--soft); border-radius: 0; padding: 0.35rem 0.5rem; min-height: 2.5rem; max-width: 100%; }
input[type="checkbox"], input[type="radio"] { min-height: 0; width: 1.15rem; height: 1.15rem; margin: 0; accent-color: var(--green); flex: none; }
button { cursor: pointer; }
fieldset { border: 0; margin: 0; padding: 0; min-width: 0; }
legend { padding: 0; font-size: 0.875rem; color: var(--soft); }
.find { position: relative; display: flex; gap: 0.6rem; align-items: center; flex: 0 1 20rem; }
.find label { font-family: var(--serif); font-style: italic; }
.find input { flex: 1; min-width: 0; }
.found { position: absolute; z-index: 3; top: 100%; left: 0; right: 0; max-height: min(70vh, 34rem); overflow-y: auto; padding: 0.5rem 0.75rem; background: var(--paper); border: 2px solid var(--ink); }
.found p { margin: 0; font-size: 0.875rem; color: var(--soft); }
.found ul { margin: 0.35rem 0 0; padding: 0; list-style: none; }
.found li { border-top: 1px solid var(--rule); font-size: 0.875rem; color: var(--soft); }
.found a { display: block; padding: 0.45rem 0 0; text-decoration: none; font-family: var(--serif); font-size: 1.125rem; color: var(--ink); }
.found li span { display: block; padding-bottom: 0.4rem; }
.finder { display: flex; flex-wrap: wrap; gap: 0.6rem 1.25rem; align-items: center; margin: 0 0 1.75rem; padding: 0.75rem 0; border: solid var(--rule); border-width: 1px 0; }
.finder label { display: inline-flex; gap: 0.5rem; align-items: center; font-size: 0.9375rem; }
.finder select { max-width: 11rem; }
.finder details { flex-basis: auto; }
.finder details[open] { flex-basis: 100%; }
.finder summary { padding: 0.4rem 0; cursor: pointer; }
.finder fieldset { display: grid; grid-template-columns: repeat(auto-fill, minmax(12rem, 1fr)); gap: 0.15rem 1rem; padding: 0.25rem 0 0.5rem; }
.finder legend { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
.finder fieldset label { padding: 0.3rem 0; }
.matches .count { font-size: 1.125rem; }
.matches h2 { margin: 0 0 0.35rem; font-size: 1.3rem; color: var(--green); }
.switches { display: flex; flex-wrap: wrap; gap: 0.1rem 2rem; margin: 0.5rem 0 0; }
.switches fieldset { display: flex; flex-wrap: wrap; gap: 0 1.1rem; align-items: center; }
.switches legend { float: left; min-width: 5.25rem; padding: 0; }
.switches label { display: inline-flex; gap: 0.4rem; align-items: center; padding: 0.4rem 0; font-size: 0.9375rem; }
.switches label:has(:checked) { font-weight: 600; }
.scale-note { flex-basis: 100%; margin: 0; font-size: 0.875rem; color: var(--soft); }

/* parts of a page */
.part > h2 { margin: 0 0 0.6rem; font-size: 1.3rem; color: var(--green); }
.part { margin: 0 0 2rem; }
.part .part { margin: 0 0 1.25rem; }
.part > h3 { margin: 1.2rem 0 0.3rem; font-size: 1.15rem; font-style: italic; }
p { margin: 0 0 0.75rem; }
.prose { max-width: 40rem; }
code { font-family: ui-monospace, "DejaVu Sans Mono", "Liberation Mono", monospace; font-size: 0.9em; }
pre { margin: 0 0 1rem; padding: 0.7rem 1rem; overflow-x: auto; overflow-wrap: normal; background: var(--wash); border-left: 0.25rem solid var(--rule); font-size: 0.9375rem; line-height: 1.45; }
.prose + .facts { margin-top: 0.5rem; }
.body > .prose { margin-bottom: 1.75rem; }
.prose > :last-child, li > .prose > :last-child { margin-bottom: 0; }
.lead { font-size: 1.125rem; }
.small { font-size: 0.875rem; color: var(--soft); }
.number { white-space: nowrap; }
.number .unit { font-size: 0.86em; color: var(--soft); }
.converted { color: var(--soft); }
.fraction { font-variant-numeric: diagonal-fractions; }
ul, ol { margin: 0 0 0.75rem; padding-left: 1.4rem; }
.method ol { padding-left: 2.1rem; font-size: 1.125rem; }
.method li { padding: 0.2rem 0 0.2rem 0.3rem; }
.method li::marker { font-family: var(--serif); color: var(--green); }
.method .prose { font-size: 1rem; color: var(--soft); }
ul.index { list-style: none; padding: 0; }
ul.index > li { padding: 0.4rem 0; border-top: 1px solid var(--rule); color: var(--soft); font-size: 0.9375rem; break-inside: avoid; }
ul.index > li > a:first-child { font-family: var(--serif); font-size: 1.1875rem; color: var(--ink); text-decoration: none; }
ul.index strong { font-weight: 600; color: var(--ink); }

/* facts */
.facts { margin: 0 0 0.75rem; }
.facts > div { display: grid; grid-template-columns: minmax(7.5rem, 2fr) 3fr; gap: 0 1rem; padding: 0.4rem 0; border-top: 1px solid var(--rule); }
.facts dt { color: var(--soft); grid-column: 1; grid-row: 1 / span 9; }
.facts dd { margin: 0; grid-column: 2; }
.facts.lead { display: grid; grid-template-columns: repeat(auto-fit, minmax(8.5rem, 1fr)); gap: 0.75rem 1.25rem; margin: 0 0 1.25rem; padding: 0.75rem 0; border: solid var(--ink); border-width: 1px 0; }
.facts.lead > div { display: block; padding: 0; border: 0; }
.facts.lead dt { font-size: 0.875rem; }
.facts.lead dd { font-family: var(--serif); font-size: 1.25rem; line-height: 1.25; }
.facts.lead a { text-decoration-color: transparent; }
.facts.lead a:hover { text-decoration-color: var(--green); }

/* tables */
table { width: 100%; border-collapse: separate; border-spacing: 0; }
caption { text-align: left; font-size: 0.875rem; color: var(--soft); padding: 0 0 0.3rem; }
th, td { padding: 0.4rem 0.9rem 0.4rem 0; text-align: left; vertical-align: baseline; border-top: 1px solid var(--rule); font-weight: 400; }
thead th { border-top: 0; font-size: 0.875rem; color: var(--soft); }
.end { text-align: right; }
.centre { text-align: center; }
.build caption, .build thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.build tbody td { width: 1%; padding-right: 1.1rem; text-align: right; font-size: 1.1875rem; white-space: nowrap; }
.build tbody th { padding-right: 0; font-size: 1.1875rem; line-height: 1.3; }
.build tbody tr:last-child > * { border-bottom: 1px solid var(--rule); }
.build em { font-style: normal; font-size: 0.9375rem; color: var(--soft); }
.build a { text-decoration-color: var(--faint); }
.sideways { overflow-x: auto; margin: 0 0 0.75rem; }
.sideways table { font-size: 0.9375rem; }
.sideways th, .sideways td { padding: 0.4rem 0.45rem; }
.sideways tbody th, .sideways thead th:first-child { padding-left: 0; }
.sideways tbody th { position: sticky; left: 0; min-width: 8.5rem; background: var(--paper); font-family: var(--serif); }
.sideways thead th:first-child { position: sticky; left: 0; background: var(--paper); }
.sideways td.end { white-space: nowrap; }
.sideways td:not(.centre, .end) { min-width: 6.5rem; }
.sideways strong { font-weight: 700; }

/* what must not be missed: told by its title and its frame, not by colour */
.notice { margin: 0 0 1.5rem; padding: 0.75rem 1rem; border: 2px solid var(--ink); }
.notice > :last-child { margin-bottom: 0; }
.notice-title { margin: 0 0 0.35rem; font-weight: 700; }
.notice p { margin: 0 0 0.4rem; }
.notice .lead strong { font-size: 1.0625em; font-weight: 700; }
.notice.caution { border: 1px solid var(--rust); border-left-width: 0.5rem; background: var(--wash); }
.notice.error { border: 4px double var(--rust); }
.notice.caution .notice-title, .notice.error .notice-title { color: var(--rust); }
.notice ul { margin-bottom: 0.4rem; }

/* pictures */
figure { margin: 0 0 1rem; }
figure svg { display: block; width: 100%; max-width: 27rem; height: auto; color: var(--ink); }
figcaption { margin-top: 0.6rem; font-size: 0.875rem; color: var(--soft); max-width: 27rem; }
.page-glossary #glasses-title ~ .part { display: grid; grid-template-columns: 7rem 1fr; gap: 0 1.25rem; align-items: start; }
.page-glossary #glasses-title ~ .part > h3 { grid-column: 1 / -1; }
.page-glossary #glasses-title ~ .part > figure { grid-row: 2 / span 2; }
.page-glossary #glasses-title ~ .part > :not(h3, figure) { grid-column: 2; }
.page-glossary #glasses-title ~ .part .facts > div { grid-template-columns: minmax(4.5rem, 1fr) 2.5fr; }
.page-glossary #measures > table { max-width: 26rem; margin-bottom: 1.25rem; }

/* the guests' menu */
.page-guest-menu { max-width: 46rem; }
.page-guest-menu .part > h2 { font-size: 1.5rem; margin-top: 1rem; }
.page-guest-menu .part > h3 { display: flex; justify-content: space-between; gap: 1.5rem; margin: 1.1rem 0 0.15rem; font-size: 1.3rem; font-style: normal; break-after: avoid; }
.page-guest-menu .part > h3 .number { font-size: 1.125rem; }
.page-guest-menu .part p { margin: 0 0 0.2rem; max-width: 36rem; }
.page-guest-menu .part .part { break-inside: avoid; margin: 0; }
.page-guest-menu .part .small { font-size: 0.9375rem; color: var(--ink); }
.page-guest-menu .notice { margin-top: 2.5rem; }

/* the chart of a menu, and the sheet of the preps */
.page-balance figure { overflow-x: auto; }
.page-balance figure svg { max-width: none; min-width: 46rem; }
.page-balance figure text { pointer-events: none; }
.page-balance figure a { cursor: pointer; text-decoration: none; }
.page-balance figure a:hover circle, .page-balance figure a:focus circle { stroke: var(--green); stroke-width: 0.8; }
.page-inspection .facts > div { grid-template-columns: minmax(6.5rem, 1fr) 3fr; padding: 0.25rem 0; }
.page-inspection .body > p { max-width: 40rem; margin-bottom: 1.5rem; }
.page-inspection .part { break-inside: avoid; }
.page-inspection .notice { margin: 0; padding: 0.5rem 0.75rem; font-size: 0.9375rem; }

footer { margin-top: 2.5rem; padding-top: 0.75rem; border-top: 1px solid var(--ink); font-size: 0.875rem; color: var(--soft); }
footer p { margin: 0 0 0.25rem; }

@media (max-width: 30rem) {
  .find { flex-basis: 100%; }
  .finder { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); }
  .finder > label:has(select) { flex-direction: column; gap: 0.15rem; align-items: stretch; }
  .finder > :not(label:has(select)) { grid-column: 1 / -1; justify-self: start; }
  .finder select { width: 100%; max-width: none; }
  .switches legend { min-width: 4.5rem; }
  .switches fieldset { gap: 0 0.8rem; }
  h1 { font-size: 2.125rem; }
  .notice { padding: 0.6rem 0.75rem; }
  .notice .lead { font-size: 1.0625rem; line-height: 1.4; }
  .notice .small { font-size: 0.8125rem; line-height: 1.4; }
  .facts.lead { grid-template-columns: repeat(auto-fit, minmax(6.5rem, 1fr)); gap: 0.5rem 1rem; }
  .facts.lead dd { font-size: 1.125rem; }
  .build tbody td { padding-right: 0.75rem; font-size: 1.125rem; }
}
@media (min-width: 62rem) {
  body { padding: 0 2.5rem 4rem; }
  h1 { font-size: 3.25rem; }
  .title { padding: 2.25rem 0 1.25rem; }
  .page-drink .body, .page-prep .body, .page-ingredient .body { display: grid; grid-template-columns: minmax(0, 7fr) minmax(0, 5fr); grid-template-rows: auto auto 1fr; gap: 0 4rem; align-items: start; }
  .body > .facts.lead, .body > .group.keeping { grid-column: 1 / -1; }
  .body > .group.making { grid-column: 1; grid-row: 2 / span 2; }
  .body > .group.notices { grid-column: 2; grid-row: 2; }
  .body > .group.serving { grid-column: 2; grid-row: 3; }
  .group.keeping { display: grid; grid-template-columns: minmax(0, 7fr) minmax(0, 5fr); gap: 0 4rem; }
  .page-index .body > .part { columns: 2; column-gap: 4rem; }
  .page-index .body > .part > h2 { column-span: all; }
  .page-index .part .part { break-inside: avoid; }
  .matches ul { columns: 2; column-gap: 4rem; }
  .page-inspection .body { columns: 2; column-gap: 4rem; }
  .page-inspection .body > p { column-span: all; }
  .page-glossary #measures { display: grid; grid-template-columns: 1fr 1fr; gap: 0 4rem; align-items: start; }
  .page-glossary #measures > h2 { grid-column: 1 / -1; }
  .page-glossary #glasses { display: grid; grid-template-columns: 1fr 1fr; gap: 0 4rem; align-items: start; }
  .page-glossary #glasses > h2 { grid-column: 1 / -1; }
  .page-glossary #glasses-title ~ .part { grid-template-columns: 9rem 1fr; }
  .page-glossary .body > #families, .page-glossary .body > #ices { columns: 2; column-gap: 4rem; }
  .page-glossary #families > h2, .page-glossary #ices > h2 { column-span: all; }
  .page-glossary #families .part, .page-glossary #ices .part { break-inside: avoid; }
}
@media print {
  :root { --paper: #fff; --wash: #fff; --ink: #000; --soft: #333; --faint: #777; --rule: #999; --green: #000; --rust: #000; }
  @page { margin: 14mm; }
  html { font-size: 9.25pt; }
  body, .page-guest-menu { max-width: none; padding: 0; font-size: 1rem; line-height: 1.4; }
  nav, .skip, .find, .finder, .switches fieldset { display: none; }
  .title { padding: 0.5rem 0; }
  a { text-decoration: none; }
  .part, .notice, figure, tr, li { break-inside: avoid; }
  .page-index .part, .page-list .part, .page-glossary .part, .page-balance .part { break-inside: auto; }
  h2, h3 { break-after: avoid; }
  .sideways, .page-balance figure { overflow: visible; }
  .page-balance figure svg { min-width: 0; }
  .page-inspection .body { columns: 2; column-gap: 8mm; }
  .page-inspection .body > p { column-span: all; }
  .page-drink .body, .page-prep .body { display: grid; grid-template-columns: 3fr 2fr; grid-template-rows: auto auto 1fr; gap: 0 8mm; align-items: start; }
  .body > .facts.lead, .body > .group.keeping { grid-column: 1 / -1; }
  .body > .group.making { grid-column: 1; grid-row: 2 / span 2; }
  .body > .group.notices { grid-column: 2; grid-row: 2; }
  .body > .group.serving { grid-column: 2; grid-row: 3; }
  .group.keeping { display: grid; grid-template-columns: 3fr 2fr; gap: 0 8mm; }
  .part { margin-bottom: 1.25rem; }
  h1 { font-size: 2.25rem; }
  footer { margin-top: 1rem; }
}
)css";
}

}  // namespace gill::render::html
