/** The report on paper: page 1 hangs in the grow room; folds stay as they are, or all open. */
export const printStyle = `
@page { size: A4; margin: 12mm 13mm; }
@media print {
  :root {
    --ground: #ffffff; --surface: #ffffff; --head: #f3f3f3; --line: #999999; --hair: #cccccc; --ink: #111111; --quiet: #444444;
    --accent: #111111; --tint: #f3f3f3; --alert: #a33a12; --alert-tint: #ffffff; --range: #8a8a8a; --shade: #eeeeee; --deep-shade: #dddddd;
    color-scheme: light;
  }
  html { font-size: 12.9px; }
  body { display: block; max-width: none; padding: 0; background: none; print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  .rail, .skip, .folds:not(:has([open])), .fold:not([open]), .short > summary::after, .note.screen, .blank-costs, .print-all, .dose-picks { display: none; }
  main { padding: 0; }
  a { text-decoration: none; }
  header { padding-top: 0; display: block; }
  header .legend { margin-top: 0.4rem; }
  .legend { display: flex; }
  .answers > li {
    grid-template-columns: 7.2rem 9rem minmax(0, 1fr) 196px; grid-template-areas: 'v b s g'; gap: 0 0.7rem; min-height: 4rem;
    padding: 0.2rem 0; align-items: center; break-inside: avoid; position: static;
  }
  .answers .verdict { position: static; align-self: center; grid-area: v; }
  .answers .num { grid-area: b; }
  .answers .said { grid-area: s; }
  .answers .pic { grid-area: g; }
  .pic .wide { display: none; }
  .pic .narrow { display: block; }
  .said p, .short-sentence { font-size: 1.0625rem; }
  .short > summary { grid-template-columns: 7.2rem 12rem minmax(0, 1fr); grid-template-areas: none; min-height: 2rem; padding: 0.15rem 0; }
  .short > summary > * { grid-area: auto; justify-self: start; text-align: start; }
  .next ol { grid-template-columns: 1fr 1fr; gap: 0.7rem 2rem; }
  .waits { grid-template-columns: 1fr 1fr; }
  .plain-facts { grid-template-columns: repeat(4, minmax(0, 1fr)); }
  .pair { grid-template-columns: 288px minmax(0, 1fr); gap: 0 1.4rem; }
  .pair .narrow svg { height: auto; }
  .pair { margin-top: 0.3rem; }
  .note { max-width: none; }
  .pair .wide { display: none; }
  .pair .narrow { display: block; }
  .pair .hide-phone { display: none; }
  .on-paper { display: table; margin-top: 1.1rem; break-inside: avoid; }
  .what-place { display: none; }
  .prices svg { width: 136px; height: auto; }
  h2, h3, h4, summary, .top, .part > .note { break-after: avoid; }
  .q, .short, .wait, .wall-row, .wall:not(.bare), .next, .note, .prices tr, figure { break-inside: avoid; }
  .part { padding-top: 0.8rem; }
  :is(.compact, .prices) :is(th, td) { padding-block: 0.2rem; }
  .q { padding: 0.7rem 0 0.6rem; }
  main input[type=text] { border: 0; padding: 0; min-height: 0; background: none; }
  .sheet-box { overflow: visible; max-height: none; border: 0; width: auto; }
  .sheet table { font-size: 7.4pt; max-width: 100%; }
  .sheet thead { display: table-header-group; }
  .sheet tfoot { display: table-row-group; }
  .sheet :is(thead, tbody, tfoot) th { position: static; }
  .sheet :is(th, td) { padding: 0.12rem 0.3rem; white-space: normal; overflow-wrap: normal; }
  .sheet .fixed { white-space: nowrap; }
  .sheet tr { break-inside: avoid; }
  :root:has(#print-all:checked) :is(.fold, .short, .folds, .folds:not(:has([open])), .fold:not([open])) { display: block; }
  :root:has(#print-all:checked) details::details-content { content-visibility: visible; block-size: auto; }
}
`;
