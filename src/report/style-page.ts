/** Colours, type, spacing and the layout of the page. */
export const pageStyle = `
:root {
  color-scheme: light dark;
  --ground: #fbfbf9; --surface: #ffffff; --head: #eef2f2; --line: #d8dedf; --hair: #e9eded;
  --ink: #1c2326; --quiet: #536067; --accent: #0b6475; --tint: #e4f0f2; --alert: #97400b; --alert-tint: #fbefe4;
}
@media (prefers-color-scheme: dark) {
  :root {
    --ground: #14181a; --surface: #1b2124; --head: #242c30; --line: #3a4448; --hair: #2a3236;
    --ink: #e6eaeb; --quiet: #a9b4b9; --accent: #7fcbdb; --tint: #1d343b; --alert: #ffb27d; --alert-tint: #38281c;
  }
}
* { box-sizing: border-box; }
html {
  font-size: clamp(16px, 0.35vw + 9.5px, 24px);
  -webkit-text-size-adjust: 100%; text-size-adjust: 100%; scroll-padding-top: 1rem;
}
body {
  margin: 0 auto; max-width: 96rem; padding: 0 clamp(1rem, 3vw, 3rem) 3rem;
  background: var(--ground); color: var(--ink);
  font-family: system-ui, -apple-system, 'Segoe UI', Roboto, 'Noto Sans', sans-serif; line-height: 1.5;
  overflow-wrap: anywhere;
}
h1, h2, h3, h4 { line-height: 1.2; text-wrap: balance; margin: 0; font-weight: 650; }
h1 { font-size: 2.1rem; letter-spacing: -0.015em; }
h2 { font-size: 1.4rem; }
h3 { font-size: 1.1rem; }
h4 { font-size: 0.875rem; color: var(--quiet); }
p, ul, ol, dl { margin: 0; }
:is(p, h1, h2, h3, h4, li, dt, dd, caption span, th, td, summary, figcaption, label, button, a) { unicode-bidi: plaintext; }
:root[dir=rtl] :is(p, h1, h2, h3, h4, li, dt, dd, summary, figcaption) { text-align: right; }
p, li, dd { max-width: 44rem; }
ul, ol { padding-inline-start: 1.15rem; }
a { color: var(--accent); text-underline-offset: 0.15em; text-decoration-thickness: 1px; }
a:hover { text-decoration-thickness: 2px; }
:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; border-radius: 2px; }
.skip { position: absolute; inset-inline-start: 1rem; top: -5rem; padding: 0.5rem 0.75rem; background: var(--surface); z-index: 9; }
.skip:focus { top: 0.5rem; }
header { padding: 2rem 0 0.5rem; }
.kicker { font-size: 0.8125rem; color: var(--accent); font-weight: 600; margin-bottom: 0.25rem; }
.book-line { color: var(--quiet); margin-top: 0.5rem; max-width: 60rem; }
nav ul { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: 0.15rem 1.1rem; margin-top: 1rem; }
nav a { display: inline-block; padding: 0.2rem 0; font-size: 0.875rem; }
main section { display: grid; grid-template-columns: minmax(0, 1fr); gap: 1rem; margin-top: 2.75rem; }
main section h2 { border-top: 2px solid var(--ink); padding-top: 0.6rem; }
.question-section { margin-top: 0.75rem; padding: 1.25rem 0 0.5rem; border-top: 1px solid var(--line); gap: 0.75rem; }
h2 + .question-section { border-top: 0; margin-top: 0; padding-top: 0.25rem; }
.sentence { font-size: 1.0625rem; text-wrap: pretty; }
.answers { list-style: none; padding: 0; display: grid; }
.answers > li {
  display: grid; grid-template-columns: 7.5rem minmax(0, 1fr); gap: 0 1.25rem; max-width: none;
  padding: 0.9rem 0; border-top: 1px solid var(--line);
}
.answers > li:first-child { border-top: 0; padding-top: 0.25rem; }
.answers .question { font-size: 0.875rem; }
.answers .sentence { font-size: 1.1875rem; line-height: 1.4; max-width: 52rem; }
.certainty {
  display: inline-flex; align-items: baseline; gap: 0.45rem; white-space: nowrap;
  font-size: 0.875rem; font-weight: 650; color: var(--accent);
}
.answers .certainty { align-self: start; padding-top: 0.05rem; }
.question-section .certainty { margin-inline-end: 0.4rem; vertical-align: baseline; }
.certainty.open, .certainty.cannot-tell { color: var(--quiet); }
.rack { align-self: center; width: 1.1rem; height: 1.1rem; flex: none; }
.rack path { fill: none; stroke: currentColor; stroke-width: 1.5; }
.rack .full { fill: currentColor; stroke: currentColor; stroke-width: 1; }
.rack .empty { fill: none; stroke: currentColor; stroke-width: 1; }
.settle { color: var(--quiet); margin-top: 0.25rem; }
.flagged { font-size: 0.875rem; color: var(--quiet); margin-top: 0.25rem; }
.flagged.changes {
  color: var(--ink); background: var(--alert-tint); border-inline-start: 3px solid var(--alert); padding: 0.4rem 0.7rem;
}
.flagged.changes strong { color: var(--alert); }
.key {
  display: flex; flex-wrap: wrap; gap: 0.4rem 1.75rem; font-size: 0.8125rem; color: var(--quiet);
  border-top: 1px solid var(--line); padding-top: 0.75rem;
}
.key div { display: flex; gap: 0.5rem; align-items: center; }
.key dd { margin: 0; }
.key .certainty { font-size: inherit; }
.evidence { display: grid; grid-template-columns: minmax(0, 1fr); gap: 1rem 2rem; margin-top: 0.25rem; }
.figures { display: grid; gap: 1.25rem 2rem; grid-template-columns: repeat(auto-fill, minmax(min(100%, 25rem), 31rem)); }
.tables { display: flex; flex-wrap: wrap; gap: 1.25rem 2rem; align-items: flex-start; align-content: flex-start; }
.figure { margin: 0; max-width: 31rem; }
.figure-title { font-size: 0.875rem; font-weight: 650; margin-bottom: 0.35rem; }
.figure img { display: block; width: 100%; height: auto; border: 1px solid var(--line); border-radius: 3px; }
.note { font-size: 0.8125rem; color: var(--quiet); margin-top: 0.4rem; }
@media (min-width: 72rem) {
  .evidence.paired { grid-template-columns: minmax(0, 31rem) minmax(0, 1fr); }
  .paired .figures { grid-template-columns: minmax(0, 1fr); }
}
.fold > summary { cursor: pointer; color: var(--accent); font-size: 0.875rem; padding: 0.3rem 0; width: fit-content; }
.fold > summary:hover { text-decoration: underline; text-underline-offset: 0.15em; }
.fold-body { display: grid; grid-template-columns: minmax(0, 1fr); gap: 1rem; }
@media screen { .fold:not([open]) + .fold-body { display: none; } }
.working { display: grid; gap: 1rem 2rem; grid-template-columns: repeat(auto-fill, minmax(min(100%, 22rem), 1fr)); }
.working h4 { margin-bottom: 0.3rem; }
.working ul { font-size: 0.875rem; }
.names { color: var(--quiet); }
.cautions { display: grid; gap: 0.5rem; }
footer { margin-top: 3rem; border-top: 1px solid var(--line); padding-top: 1rem; font-size: 0.8125rem; color: var(--quiet); }
@media (max-width: 40rem) {
  h1 { font-size: 1.7rem; }
  .answers > li { grid-template-columns: minmax(0, 1fr); gap: 0.25rem; }
  .answers .sentence { font-size: 1.0625rem; }
  .key { display: grid; }
}
`;
