/** Tables that read like a sheet. */
export const sheetStyle = `
.sheet { max-width: 100%; min-width: 0; }
.sheet-box {
  overflow: auto; max-height: min(75vh, 44rem); max-width: 100%; width: fit-content;
  border: 1px solid var(--line); border-radius: 3px; background: var(--surface);
}
.sheet table { border-collapse: separate; border-spacing: 0; font-size: 0.8125rem; line-height: 1.35; }
.sheet caption { text-align: start; border-bottom: 1px solid var(--line); }
.sheet caption span {
  display: inline-block; position: sticky; inset-inline-start: 0; padding: 0.45rem 0.6rem; font-weight: 650; font-size: 0.875rem;
  max-width: min(100%, calc(100vw - 3rem));
}
.sheet :is(th, td) {
  padding: 0.28rem 0.6rem; text-align: start; vertical-align: top; white-space: nowrap; font-weight: 400;
  overflow-wrap: break-word;
  border-bottom: 1px solid var(--hair); border-inline-end: 1px solid var(--hair); background: var(--surface);
}
.sheet tr > :last-child { border-inline-end: 0; }
.sheet tbody tr:last-child > * { border-bottom: 0; }
.sheet thead th {
  position: sticky; top: 0; z-index: 1; background: var(--head); border-bottom: 1px solid var(--line);
  font-weight: 600; vertical-align: bottom; white-space: normal;
}
.sheet thead .unit { display: block; font-weight: 400; color: var(--quiet); }
.sheet :is(tbody, tfoot) th { position: sticky; inset-inline-start: 0; font-weight: 600; }
.sheet thead th:first-child { inset-inline-start: 0; z-index: 2; }
.sheet :is(thead th:first-child, tbody th, tfoot th) { border-inline-end: 1px solid var(--line); }
.sheet tbody tr:hover > * { background: var(--tint); }
.sheet tfoot > tr > * { font-weight: 650; background: var(--head); border-bottom: 0; }
.sheet tfoot > tr:first-child > * { border-top: 1px solid var(--line); }
.sheet .fixed { white-space: nowrap; font-variant-numeric: tabular-nums; }
.sheet .number { text-align: right; font-variant-numeric: tabular-nums lining-nums; }
:root[dir=rtl] :is(th, td) { text-align: right; }
.sheet .long { white-space: normal; min-width: 8rem; max-width: 24rem; }
.sheet .split { overflow-wrap: anywhere; }
.sheet .paragraph { min-width: min(20rem, 60vw); }
.sheet tbody th.long { max-width: 14rem; }
@media screen and (max-width: 40rem) {
  .sheet .paragraph { min-width: 10rem; }
  .sheet tbody th { max-width: 11rem; white-space: normal; }
}
`;
