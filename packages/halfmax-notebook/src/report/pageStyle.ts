/** The look of the report: light, dark and on paper. */
export const pageStyle: string = `
:root { color-scheme: light dark; --paper: #ffffff; --ink: #1f2328; --quiet: #5b626b; --rule: #d9dde2; --raised: #f5f6f8;
  --accent: #005a8d; --alarm: #a3230d; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #16191d; --ink: #e6e8eb; --quiet: #a2a9b2; --rule: #363d45; --raised: #1f242a; --accent: #7cc4ee; --alarm: #ff9d87; }
}
* { box-sizing: border-box; }
html { background: var(--paper); color: var(--ink); font: 1rem/1.55 system-ui, sans-serif; }
body { margin: 0; }
a { color: var(--accent); }
:focus-visible { outline: 2px solid var(--accent); outline-offset: 2px; }
.skip { position: absolute; left: -99rem; }
.skip:focus { left: 0.5rem; top: 0.5rem; background: var(--paper); padding: 0.3rem 0.6rem; }
header, nav, main, footer { max-width: 50rem; margin: 0 auto; padding: 0 1.25rem; }
header { padding-top: 2.5rem; }
main { padding-top: 1.5rem; }
.provenance { margin: 1rem 0; }
h1, h2, h3, h4, h5, h6 { line-height: 1.25; font-weight: 600; margin: 2em 0 0.6em; }
h1 { font-size: 1.7rem; margin: 0; }
h2 { font-size: 1.35rem; border-top: 1px solid var(--rule); padding-top: 1.2em; }
h3 { font-size: 1.1rem; }
h4, h5, h6 { font-size: 1rem; }
nav ol { list-style: none; padding: 0; margin: 0.5rem 0 0; }
nav ol ol { padding-left: 1.2rem; margin: 0; }
nav a { text-decoration: none; }
nav a:hover { text-decoration: underline; }
nav h2 { font-size: 1rem; border: 0; padding: 0; margin: 1.5rem 0 0; }
section > .cell { margin: 1.1rem 0; }
.text { overflow-wrap: break-word; }
.text > :first-child { margin-top: 0; }
details > summary { cursor: pointer; color: var(--quiet); font-size: 0.875rem; width: fit-content; }
pre, code { font-family: ui-monospace, 'DejaVu Sans Mono', monospace; font-size: 0.85rem; }
pre { white-space: pre-wrap; overflow-wrap: anywhere; margin: 0.5rem 0; padding: 0.6rem 0.8rem; background: var(--raised); border-radius: 3px; }
pre.stderr { border-left: 3px solid var(--quiet); }
pre.error { border-left: 3px solid var(--alarm); color: var(--alarm); }
.digest { overflow-wrap: anywhere; }
.note { color: var(--quiet); font-size: 0.9rem; }
.failed { border: 2px solid var(--alarm); padding: 0.6rem 0.9rem; color: var(--alarm); }
.katex:has(> math[display='block']) { display: block; overflow-x: auto; overflow-y: hidden; padding: 0.2rem 0; }
.table { overflow-x: auto; margin: 0.8rem 0; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
caption { text-align: left; color: var(--quiet); padding-bottom: 0.4rem; }
th, td { padding: 0.25rem 1.1rem 0.25rem 0; text-align: left; vertical-align: top; }
thead th { font-weight: 600; border-bottom: 1px solid var(--quiet); }
tbody tr + tr > * { border-top: 1px solid var(--rule); }
.number { text-align: right; }
figure { margin: 1rem 0; }
figure img, .text img { max-width: 100%; height: auto; }
figure img.still { width: 760px; }
figcaption { color: var(--quiet); font-size: 0.9rem; }
.plot { display: none; }
.drawn > .plot { display: block; }
.drawn > .still { display: none; }
.slider { display: none; gap: 0.8rem; align-items: center; margin: 0.3rem 0 0.6rem; }
.drawn > .slider { display: flex; }
.slider input { flex: 1; max-width: 24rem; accent-color: var(--accent); }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.3rem 1.2rem; font-size: 0.875rem; margin: 0.8rem 0; }
dt { color: var(--quiet); }
dd { margin: 0; }
dd ul { margin: 0; padding: 0; list-style: none; }
blockquote { margin: 1rem 0; padding-left: 1rem; border-left: 3px solid var(--rule); color: var(--quiet); }
footer { color: var(--quiet); font-size: 0.85rem; padding: 3rem 1.25rem 2rem; }
@media print {
  :root { color-scheme: light; --paper: #ffffff; --ink: #000000; --quiet: #444444; --rule: #cccccc; --raised: #ffffff; --accent: #000000; --alarm: #000000; }
  html { font-size: 10pt; }
  nav, .skip, .slider, .drawn > .slider, .drawn > .plot { display: none; }
  .drawn > .still { display: block; }
  details.code { display: none; }
  .provenance::details-content { content-visibility: visible; display: block; height: auto; }
  figure, tr, pre { break-inside: avoid; }
  h2, h3 { break-after: avoid; }
}
`;
