/** The report on paper: folded text opened, tables in full, wide ones on their side. */
export const printStyle = `
@page { size: A4; margin: 16mm 14mm; }
@page broad { size: A4 landscape; margin: 12mm; }
@media print {
  :root {
    --ground: #ffffff; --surface: #ffffff; --head: #f0f2f2; --line: #b9c1c3; --hair: #dfe4e5;
    --ink: #000000; --quiet: #444d51; --accent: #0b4f5c; --tint: #ffffff; --alert: #7a3305; --alert-tint: #f7f2ee;
  }
  html { font-size: 10.5pt; }
  body { max-width: none; padding: 0; background: none; print-color-adjust: exact; }
  header { padding-top: 0; }
  nav, .skip { display: none; }
  a { color: inherit; text-decoration: none; }
  main section { margin-top: 1.75rem; display: block; }
  main section > *, .tables > *, .fold-body > * { margin-bottom: 0.75rem; }
  h2, h3, h4, .figure-title, summary { break-after: avoid; }
  .figure, .answers > li, .key, .cautions li { break-inside: avoid; }
  .evidence, .evidence.paired, .tables, .fold-body { display: block; }
  .figures, .paired .figures { display: grid; grid-template-columns: 1fr 1fr; gap: 0.75rem; margin-bottom: 0.75rem; }
  .figures > :only-child { grid-column: 1 / -1; max-width: 26rem; }
  .fold > summary { list-style: none; color: var(--quiet); font-weight: 650; padding: 0; }
  .sheet-box { overflow: visible; max-height: none; border: 0; width: auto; border-radius: 0; }
  table { font-size: 7.75pt; border: 1px solid var(--line); max-width: 100%; }
  caption { border-bottom: 0; break-after: avoid; }
  caption span { position: static; padding-inline-start: 0; }
  thead { display: table-header-group; }
  tfoot { display: table-row-group; }
  thead th, tbody th, tfoot th { position: static; }
  tbody th, tbody th.long { max-width: none; }
  tr { break-inside: avoid; }
  th, td { padding: 0.18rem 0.4rem; }
  .paragraph { min-width: 0; }
  .crowded th, .crowded td { white-space: normal; }
  .long { white-space: normal; min-width: 0; max-width: none; }
  .broad, #trays { page: broad; }
  .broad table { font-size: 6.5pt; }
  .broad th, .broad td { padding: 0.12rem 0.28rem; }
}
`;
