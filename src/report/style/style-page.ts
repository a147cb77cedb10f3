const steps = [8, 16, 25, 36, 48, 62, 78];
const tintNames = steps
  .map((share, index) => `--tint-${index + 1}: color-mix(in srgb, var(--ink) ${share}%, var(--ground));`)
  .join(" ");

/** Colours, type and the layout of the page. Colour is kept for doses and for warnings; all else is ink. */
export const pageStyle = `
:root {
  color-scheme: light dark;
  --ground: #fbfaf6; --surface: #ffffff; --head: #efeee7; --line: #b4bab2; --hair: #dfe0d8;
  --ink: #1d2321; --quiet: #56605b; --accent: #1d2321; --tint: #efeee7; --alert: #a33a12; --alert-tint: #f8e9e0;
  --range: #88918b; --shade: #eceade; --deep-shade: #dcd8c4; ${tintNames}
  --serif: Charter, 'Iowan Old Style', 'Sitka Text', Cambria, 'Noto Serif', 'DejaVu Serif Condensed', Georgia, serif;
  --sans: -apple-system, 'Segoe UI', 'Helvetica Neue', Roboto, 'Noto Sans', 'DejaVu Sans Condensed', system-ui, sans-serif;
}
@media (prefers-color-scheme: dark) {
  :root {
    --ground: #151917; --surface: #1c211f; --head: #222826; --line: #56605b; --hair: #2f3733;
    --ink: #e9ece8; --quiet: #a7b0aa; --accent: #e9ece8; --tint: #222826; --alert: #ff9d6e; --alert-tint: #3a241a;
    --range: #75817a; --shade: #212724; --deep-shade: #2f3833;
  }
}
* { box-sizing: border-box; }
html { font-size: 16px; -webkit-text-size-adjust: 100%; text-size-adjust: 100%; scroll-padding-top: 1rem; }
body {
  margin: 0 auto; max-width: 84rem; padding: 0 1.75rem; display: grid; grid-template-columns: 12.25rem minmax(0, 1fr);
  gap: 0 2.25rem; background: var(--ground); color: var(--ink); font: 1rem/1.45 var(--sans);
  font-variant-numeric: tabular-nums lining-nums; overflow-wrap: anywhere;
}
h1, h2, h3, h4, p, ul, ol, dl, dd, figure { margin: 0; }
ul, ol { padding: 0; list-style: none; }
h1 { font: 600 1.875rem/1.1 var(--serif); letter-spacing: -0.01em; text-wrap: balance; }
h2 { font: 600 1.375rem/1.2 var(--serif); text-wrap: balance; }
h3 { font: 600 1.3125rem/1.25 var(--serif); text-wrap: balance; }
h4 { font: 600 0.875rem/1.2 var(--sans); }
:is(p, h1, h2, h3, h4, li, dt, dd, caption, caption span, th, td, summary, figcaption, label, button, a) { unicode-bidi: plaintext; }
:root[dir=rtl] :is(p, h1, h2, h3, h4, li, dt, dd, summary, figcaption) { text-align: right; }
a { color: inherit; text-underline-offset: 0.18em; text-decoration-thickness: 1px; }
a:hover { text-decoration-thickness: 2px; }
:focus-visible { outline: 3px solid var(--ink); outline-offset: 2px; border-radius: 2px; }
.skip { position: absolute; inset-inline-start: 1rem; top: -5rem; padding: 0.5rem 0.75rem; background: var(--ink); color: var(--ground); z-index: 9; }
.skip:focus { top: 0.5rem; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
main { min-width: 0; padding-bottom: 3rem; }
.rail ~ main { grid-column: 2; }
.rail {
  position: sticky; top: 0; align-self: start; max-height: 100vh; overflow: auto; padding: 1.5rem 0 1rem;
  font-size: 0.8125rem; border-inline-end: 1px solid var(--hair); grid-column: 1;
}
.rail summary { display: none; cursor: pointer; }
.rail .part-name { font-weight: 600; color: var(--ink); display: block; padding: 0.55rem 0 0.1rem; text-decoration: none; }
.rail nav > div:first-child .part-name { padding-top: 0; }
.rail li a {
  display: grid; grid-template-columns: 2rem 1fr; align-items: center; min-height: 1.5rem; text-decoration: none;
  color: var(--quiet); padding-inline-end: 0.5rem; line-height: 1.2;
}
.rail li a:hover, .rail li a[aria-current] { color: var(--ink); }
.rail li a[aria-current] { font-weight: 650; }
.part { padding-top: 2.6rem; }
.part[hidden] { display: none; }
.part > h2 { border-top: 2px solid var(--ink); padding-top: 0.5rem; }
footer { margin-top: 2rem; border-top: 1px solid var(--hair); padding-top: 0.7rem; font-size: 0.8125rem; color: var(--quiet); }
.whole { white-space: nowrap; }
.note { font-size: 0.8125rem; color: var(--quiet); margin-top: 0.4rem; max-width: 62ch; }
.folds { display: flex; flex-wrap: wrap; gap: 0.1rem 1.4rem; margin-top: 0.7rem; font-size: 0.875rem; }
.fold > summary {
  cursor: pointer; padding: 0.2rem 0; min-height: 1.5rem; list-style: none; width: fit-content; text-decoration: underline;
  text-underline-offset: 0.2em; text-decoration-thickness: 1px;
}
.fold > summary::-webkit-details-marker { display: none; }
.fold > summary::after { content: '\\00a0+'; }
.fold[open] > summary::after { content: '\\00a0\\2212'; }
.folds > .fold[open], .folds > .fold-place:has(> .fold[open]) { flex: 1 0 100%; order: 2; min-width: 0; max-width: 100%; }
.fold-body { padding: 0.5rem 0 0.8rem; display: grid; grid-template-columns: minmax(0, 1fr); gap: 0.7rem; }
.fold-body p, .fold-body li, .fold-body dd { max-width: 72ch; }
.lines { padding-inline-start: 1.1rem; list-style: disc; }
.lines li + li { margin-top: 0.25rem; }
.names { color: var(--quiet); }
.cautions { display: grid; gap: 0.5rem; }
@media screen and (min-width: 74rem) {
  .rail details { display: contents; }
  .rail details::details-content { content-visibility: visible; display: block; }
  @supports not selector(::details-content) { .rail summary { display: block; } }
}
@media screen and (max-width: 73.99rem) {
  body { grid-template-columns: minmax(0, 1fr); padding: 0 1.5rem; }
  .rail ~ main { grid-column: 1; }
  .rail {
    border: 0; padding: 0; z-index: 4; max-height: none; overflow: visible; background: var(--ground); margin: 0 -1.5rem;
    border-bottom: 1px solid var(--hair);
  }
  .rail summary { display: block; padding: 0.7rem 1.5rem; font-weight: 600; font-size: 0.9375rem; min-height: 2.75rem; }
  .rail nav {
    position: absolute; left: 0; right: 0; background: var(--ground); border-bottom: 2px solid var(--ink);
    padding: 0 1.5rem 1rem; columns: 3; max-height: 75vh; overflow: auto;
  }
  .rail nav > div { break-inside: avoid; }
  .rail li a { min-height: 2.25rem; }
  html { scroll-padding-top: 3.5rem; }
}
@media screen and (max-width: 43rem) {
  body { padding: 0 1rem; }
  h1 { font-size: 1.5rem; }
  h3 { font-size: 1.1875rem; }
  .rail { margin: 0 -1rem; }
  .rail summary { padding: 0.7rem 1rem; }
  .rail nav { columns: auto; padding: 0 1rem 1rem; }
  .folds { gap: 0.1rem 1.1rem; }
  .fold > summary { min-height: 2.25rem; padding: 0.45rem 0; }
}
@media (prefers-reduced-motion: no-preference) { html { scroll-behavior: smooth; } }
`;
