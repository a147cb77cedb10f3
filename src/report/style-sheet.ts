/** Tables that read like a sheet. */
export const sheetStyle = `
.sheet { max-width: 100%; min-width: 0; }
.sheet-box {
  overflow: auto; max-height: min(75vh, 44rem); max-width: 100%; width: fit-content;
  border: 1px solid var(--line); border-radius: 3px; background: var(--surface);
}
table { border-collapse: separate; border-spacing: 0; font-size: 0.8125rem; line-height: 1.35; }
caption { text-align: start; border-bottom: 1px solid var(--line); }
caption span {
  display: inline-block; position: sticky; inset-inline-start: 0; padding: 0.45rem 0.6rem; font-weight: 650; font-size: 0.875rem;
  max-width: min(100%, calc(100vw - 3rem));
}
th, td {
  padding: 0.28rem 0.6rem; text-align: start; vertical-align: top; white-space: nowrap; font-weight: 400;
  overflow-wrap: break-word;
  border-bottom: 1px solid var(--hair); border-inline-end: 1px solid var(--hair); background: var(--surface);
}
tr > :last-child { border-inline-end: 0; }
tbody tr:last-child > * { border-bottom: 0; }
thead th {
  position: sticky; top: 0; z-index: 1; background: var(--head); border-bottom: 1px solid var(--line);
  font-weight: 600; vertical-align: bottom; white-space: normal;
}
thead .unit { display: block; font-weight: 400; color: var(--quiet); }
tbody th, tfoot th { position: sticky; inset-inline-start: 0; font-weight: 600; }
thead th:first-child { inset-inline-start: 0; z-index: 2; }
thead th:first-child, tbody th, tfoot th { border-inline-end: 1px solid var(--line); }
tbody tr:hover > * { background: var(--tint); }
tfoot > tr > * { font-weight: 650; background: var(--head); border-bottom: 0; }
tfoot > tr:first-child > * { border-top: 1px solid var(--line); }
.fixed { white-space: nowrap; font-variant-numeric: tabular-nums; }
.number { text-align: right; font-variant-numeric: tabular-nums lining-nums; }
:root[dir=rtl] :is(th, td) { text-align: right; }
.long { white-space: normal; min-width: 8rem; max-width: 24rem; }
.split { overflow-wrap: anywhere; }
.paragraph { min-width: min(12rem, 60vw); }
tbody th.long { max-width: 14rem; }
@media (max-width: 40rem) {
  .paragraph { min-width: 10rem; }
  tbody th.long, tbody th { max-width: 11rem; white-space: normal; }
}
`;
