/** The size of the sheet: as the printer says, or said by the page for printing without a dialogue. */
export type Paper = 'any' | 'a4' | 'letter';

// Black on white and sized for print; margins leave room on A4 and Letter alike. No colour carries a meaning. In print a
// heading is as tall as what must stand below it on its page, since browsers do not keep a table with its heading.
const STYLE = `
:root { color-scheme: light; }
* { box-sizing: border-box; }
html { scroll-padding-top: 1rem; }
body { margin: 0 auto; padding: 1rem; max-width: 62rem; color: #000; background: #fff; font: 1rem/1.45 Georgia, "DejaVu Serif", serif; overflow-wrap: break-word; }
h1, h2, h3, h4, .note, nav, table, figure, .reference { font-family: system-ui, "DejaVu Sans", sans-serif; }
h1 { font-size: 1.75rem; line-height: 1.2; margin: 0 0 .5rem; }
h2 { font-size: 1.3rem; line-height: 1.25; margin: 2.25rem 0 .5rem; padding-top: .4rem; border-top: 3px solid #000; }
h3 { font-size: 1.05rem; margin: 1.5rem 0 .4rem; }
h4 { font-size: .95rem; margin: 1.1rem 0 .2rem; }
.note { font-size: .85rem; line-height: 1.4; color: #333; }
h2 + h3, h2 + .beside h3 { margin-top: .75rem; }
p { margin: .4rem 0; }
header p { max-width: 44rem; }
ul, ol { margin: .4rem 0; padding-left: 1.4rem; }
li { margin: .25rem 0; }
a { color: #000; text-underline-offset: .15em; }
a:focus-visible, summary:focus-visible, .scrolling:focus-visible { outline: 3px solid #000; outline-offset: 2px; }
:target { background: #e6e6e6; }
.counts { font-weight: bold; white-space: nowrap; text-decoration-thickness: 1px; }
.reference { font-size: .72em; font-weight: normal; }
nav ul { display: flex; flex-wrap: wrap; gap: .25rem 1.1rem; list-style: none; margin: 1rem 0 0; padding: 0; font-size: .95rem; }
nav a { display: inline-block; padding: .2rem 0; }
.beside { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 22rem), 1fr)); gap: 0 2.5rem; align-items: start; }
figure { margin: .75rem 0 1.25rem; }
figure svg { display: block; width: 100%; height: auto; }
.beside svg, #path svg, #ahead { max-width: 30rem; }
figcaption { margin-top: .5rem; font-size: .85rem; line-height: 1.4; max-width: 44rem; }
details { margin-top: .4rem; font-size: .9rem; }
summary { cursor: pointer; padding: .2rem 0; }
.scrolling { overflow-x: auto; }
.scrolling svg { min-width: 42rem; }
svg text { font-family: system-ui, "DejaVu Sans", sans-serif; }
table { border-collapse: collapse; width: 100%; font-size: .9rem; line-height: 1.35; }
caption { text-align: left; padding: .3rem 0; }
th, td { text-align: left; vertical-align: top; padding: .3rem .6rem .3rem 0; border-bottom: 1px solid #999; }
thead th { border-bottom: 2px solid #000; }
tbody th { font-weight: bold; }
td .figures { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 14rem), 1fr)); gap: .3rem 1.2rem; margin: 0; padding: 0; list-style: none; }
td .figures li { margin: 0; }
.what { display: block; font-size: .8rem; color: #333; }
.grid td { white-space: nowrap; }
.columns, #not-known ul { columns: 22rem 2; column-gap: 2.5rem; }
.columns li, #not-known li { break-inside: avoid; }
.evidence { columns: 22rem 2; column-gap: 2.5rem; list-style: none; padding: 0; font-size: .8rem; line-height: 1.4; }
.evidence li { margin: 0 0 .5rem; overflow-wrap: anywhere; }
table.calls td, table.calls th { padding: .25rem .5rem .25rem 0; }
.habit, .numbered { display: inline-block; margin-right: .7rem; } .changed { display: block; } .is-changed > * { border-top: 2px solid #000; border-bottom: 2px solid #000; background: #eee; }
.order { white-space: nowrap; font-variant-numeric: tabular-nums; letter-spacing: .02em; } .clips { white-space: nowrap; }
.strip td, .strip th { border: 1px solid #999; padding: .2rem .3rem; font-size: .8rem; } .strip td { text-align: center; }
input, select, button { min-height: 2.75rem; padding: .35rem .7rem; font: 1rem/1.2 system-ui, "DejaVu Sans", sans-serif; }
input { width: 100%; max-width: 26rem; } fieldset { max-width: 26rem; } select { margin: .2rem 0; }
[type=checkbox] { width: 1.4rem; min-height: 1.4rem; margin: 0 .5rem 0 0; vertical-align: middle; } label:has([type=checkbox]) { display: block; padding: .6rem 0 .2rem; }
@page { margin: 14mm 15mm 16mm; @bottom-right { content: counter(page) " / " counter(pages); font: 8pt system-ui, "DejaVu Sans", sans-serif; } }
@media screen and (max-width: 34rem) {
  .stacking thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); } .stacking tr { display: block; padding: .4rem 0; border-bottom: 1px solid #999; }
  .stacking td, .stacking tbody th { display: block; padding: .1rem 0; border: 0; } .stacking td::before { content: attr(data-header) ": "; font-size: .8rem; color: #333; } .stacking td p { display: inline; } .stacking td p + p { display: block; }
  .stacking td:has(form)::before, .stacking td:empty::before { content: none; }
  table.calls { font-size: .8rem; } table.calls td, table.calls th { padding-right: .35rem; }
  .order, .clips { white-space: normal; } .order { min-width: 3.6em; }
  .strip { table-layout: fixed; } .strip td, .strip th { font-size: .62rem; padding: .2rem .1rem; overflow-wrap: anywhere; }
}
@media print {
  body { padding: 0; max-width: none; font-size: 9.5pt; line-height: 1.35; }
  h1 { font-size: 17pt; } h2 { font-size: 13pt; margin-top: 14pt; } h3 { font-size: 10.5pt; margin: 9pt 0 3pt; } h4 { font-size: 9.5pt; margin: 6pt 0 1pt; } .note { font-size: 8pt; }
  h1, h2, h3, h4, thead { break-after: avoid; } figcaption { break-before: avoid; }
  h2, h3, h4 { break-inside: avoid; }
  h2::after, h3::after { content: ""; display: block; height: 28mm; margin-bottom: -28mm; }
  figure, tr, li { break-inside: avoid; }
  table { font-size: 8pt; } figcaption { font-size: 7.5pt; }
  nav, details { display: none; }
  a { text-decoration: none; }
  p, li { orphans: 3; widows: 3; }
  .beside { grid-template-columns: 1fr 1fr; gap: 0 8mm; }
  .beside svg { max-width: 82mm; } #path svg, #ahead { max-width: 90mm; }
  .scrolling { overflow: visible; } .scrolling svg { min-width: 0; max-width: 165mm; }
  td .figures { grid-template-columns: repeat(auto-fill, minmax(38mm, 1fr)); gap: 1pt 3mm; } .what { font-size: 7pt; }
  .columns, #not-known ul { columns: 2; column-gap: 8mm; } .columns li, #not-known li { margin: 1.5pt 0; }
  #plays { break-before: page; }
  .evidence { columns: 3; column-gap: 6mm; font-size: 6.5pt; line-height: 1.3; }
  .evidence li { break-inside: auto; margin-bottom: 2.5pt; }
  .sheet { break-after: page; break-inside: avoid; } .sheet h1 { font-size: 13pt; margin: 0 0 2mm; } .sheet h2 { margin: 2mm 0 1mm; font-size: 10pt; }
  .sheet table { font-size: 7.5pt; line-height: 1.2; } .sheet td, .sheet th { padding: .8mm 1.5mm .8mm 0; } .sheet .calls { table-layout: fixed; }
  .calls th:nth-child(1) { width: 33mm; hyphens: none; } .calls th:nth-child(3) { width: 54mm; } .calls th:nth-child(4) { width: 24mm; } .calls th:nth-child(5) { width: 14mm; }
  .sheet .habit { margin-right: 2mm; } .sheet .what { display: inline; font-size: 6.5pt; } .sheet .strip td, .sheet .strip th { padding: .6mm 1mm; font-size: 7.5pt; }
  .sheet .call { font-size: 8.5pt; } .sheet .strip { margin-top: 2mm; } .sheet .note { font-size: 7.5pt; margin: 1mm 0; }
  .sheet h2::after, .sheet h3::after { content: none; }
  :target { background: none; }
}
`;

/** Constants, so that each can be allowed by its hash and nothing else can. */
export const PAGE_STYLES: Readonly<Record<Paper, string>> = {
  any: STYLE,
  a4: `${STYLE}@page { size: A4; }\n`,
  letter: `${STYLE}@page { size: letter; }\n`,
};
