import { mostDoses } from "../charts/chart-palette.ts";

const letters = Array.from(
  { length: mostDoses },
  (_, index) => `.dose-${index + 1}-letters { --letters: var(--dose-${index + 1}-ink); }`,
).join("\n");

/** The front: rows, strips, what to do next, what waits; and the parts of all pictures. */
export const frontStyle = `
header { padding: 1.4rem 0 0.7rem; display: flex; flex-wrap: wrap; justify-content: space-between; align-items: end; gap: 0.3rem 2rem; }
header > :first-child { flex: 1 1 20rem; }
.facts { color: var(--quiet); font-size: 0.9375rem; margin-top: 0.3rem; }
.legend { display: flex; flex-wrap: wrap; gap: 0.1rem 0.8rem; font-size: 0.8125rem; color: var(--quiet); }
.legend li { display: flex; align-items: center; gap: 0.35rem; white-space: nowrap; }
.rack { flex: none; display: inline-block; vertical-align: -2px; }
.rack :is(rect, path, circle) { fill: none; stroke: currentColor; stroke-width: 1.2; }
.rack .on { fill: currentColor; stroke: none; }
.rack .cut { stroke: var(--ground); }
.rack .dash { stroke-dasharray: 2 1.5; }
.verdict { display: inline-flex; align-items: center; gap: 0.45rem; font-size: 0.875rem; font-weight: 600; white-space: nowrap; }
.answers > li {
  display: grid; grid-template-columns: 6.6rem 9.6rem minmax(0, 1fr) 292px; gap: 0 1.1rem; align-items: center;
  border-top: 1px solid var(--hair); min-height: 4.2rem; padding: 0.25rem 0;
}
.answers > li:first-child { border-top: 2px solid var(--ink); }
.big { font: 600 1.6875rem/1.05 var(--serif); letter-spacing: -0.01em; display: block; overflow-wrap: break-word; }
.big.lesser { font-size: 1.25rem; }
.between { display: block; font-size: 0.8125rem; color: var(--quiet); line-height: 1.3; }
.said .name { font-size: 0.8125rem; color: var(--quiet); display: block; width: fit-content; line-height: 1.3; text-decoration-color: var(--line); }
.said p, .short-sentence { font: 400 1.0625rem/1.3 var(--serif); text-wrap: pretty; }
.on-paper { display: none; }
.same { font-size: 0.8125rem; color: var(--quiet); border-top: 1px solid var(--hair); padding: 0.4rem 0 0.5rem; }
.next { border-top: 2px solid var(--ink); padding-top: 0.55rem; }
.next h2 { font: 600 1rem/1.2 var(--sans); margin-bottom: 0.35rem; }
.next ol { display: grid; grid-template-columns: repeat(auto-fit, minmax(12.5rem, 1fr)); gap: 0.5rem 1.5rem; counter-reset: n; }
.next li { counter-increment: n; font-size: 0.9375rem; line-height: 1.35; padding-inline-start: 1.5rem; position: relative; }
.next li::before { content: counter(n); position: absolute; inset-inline-start: 0; top: -0.1rem; font: 600 1.125rem/1.4 var(--serif); }
.next a { display: inline-block; min-height: 1.5rem; }
.next small { display: block; font-size: 0.8125rem; color: var(--quiet); }
.wide { display: block; }
.narrow { display: none; }
svg { display: block; max-width: 100%; overflow: visible; direction: ltr; }
svg text { font-family: var(--sans); font-size: 13px; font-variant-numeric: tabular-nums; }
svg text:not([fill]) { fill: var(--ink); }
.strip text, .price-shares text, .small-chart text { font-size: 12.5px; }
.strip text { paint-order: stroke; stroke: var(--ground); stroke-width: 3px; }
svg text.quiet { fill: var(--quiet); }
svg text.tick { font-weight: 600; fill: var(--letters, var(--ink)); }
svg text.warm { fill: var(--alert); }
${letters}
.ruler { stroke: var(--line); stroke-width: 1; }
.grid { stroke: var(--hair); }
.ref { stroke: var(--ink); stroke-width: 1; }
.range { fill: var(--range); }
.bar { stroke: var(--range); stroke-width: 5; }
.point { fill: var(--ink); stroke: var(--ground); stroke-width: 1.5; }
.around { fill: none; stroke: var(--ink); stroke-width: 1.5; }
.dot { fill: var(--ink); }
.ring { fill: var(--ground); stroke: var(--ink); stroke-width: 1.8; }
.mark { fill: var(--ink); }
.mark.warm { fill: var(--alert); }
.frame { fill: none; stroke: var(--range); }
.cross { fill: none; stroke: var(--ink); stroke-width: 1.8; }
.thread { fill: none; stroke: var(--range); stroke-width: 1.5; }
.limits { fill: var(--head); }
.tiny { display: inline-block; vertical-align: middle; flex: none; }
.faded:is(path, circle, line, g, text, svg) { opacity: 0.18; }
tr.faded > *, li.faded { color: var(--quiet); }
:is(tr, li).faded svg { opacity: 0.3; }
.front .pair { margin-bottom: 1.2rem; }
.waits { margin-top: 0.6rem; display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 0 2rem; }
.waits:has(> :only-child) { grid-template-columns: minmax(0, 1fr); }
.wait { padding: 0.7rem 0; border-top: 1px solid var(--hair); }
.wait h3 { font: 600 1.0625rem/1.25 var(--serif); }
.wait p { font-size: 0.9375rem; max-width: 68ch; }
.wait .qs { color: var(--quiet); font-size: 0.875rem; }
.wait details { font-size: 0.875rem; }
.wait dt { font-weight: 600; }
.wait dd { margin-bottom: 0.5rem; }
.plain-facts {
  display: grid; grid-template-columns: repeat(4, minmax(0, 1fr)); gap: 0.8rem 1.5rem; border-top: 2px solid var(--ink);
  padding: 0.7rem 0 0.2rem;
}
.plain-facts .big { margin-bottom: 0.15rem; }
.plain-facts .big + span { font-size: 0.875rem; color: var(--quiet); line-height: 1.3; display: block; }
.verdict-line { font: 400 1.3125rem/1.3 var(--serif); max-width: 60ch; margin: 0.15rem 0 0.9rem; text-wrap: pretty; }
.was { display: block; font-size: 0.8125rem; color: var(--quiet); font-weight: 400; font-family: var(--sans); letter-spacing: 0; }
@media screen and (max-width: 60rem) {
  .waits { grid-template-columns: minmax(0, 1fr); }
  .answers > li {
    grid-template-columns: 9rem minmax(0, 1fr) 292px; grid-template-areas: 'v s g' 'b s g'; align-items: start; padding: 0.6rem 0;
  }
  .answers .verdict { grid-area: v; }
  .answers .num { grid-area: b; }
  .answers .said { grid-area: s; }
  .answers .pic { grid-area: g; }
  .next ol { grid-template-columns: 1fr 1fr; }
  .plain-facts { grid-template-columns: 1fr 1fr; }
}
@media screen and (max-width: 43rem) {
  header { padding: 0.8rem 0 0.5rem; }
  .legend { display: none; }
  .answers > li {
    grid-template-columns: minmax(7rem, 1fr) minmax(0, 196px); grid-template-areas: 's s' 'b g'; gap: 0.1rem 0.9rem;
    padding: 0.5rem 0 0.35rem; min-height: 0; position: relative; align-items: center;
  }
  .answers .verdict { position: absolute; inset-inline-end: 0; top: 0.55rem; font-size: 0.8125rem; }
  .said p, .short-sentence { line-height: 1.28; }
  .said .name { min-height: 1.5rem; padding: 0.1rem 0; }
  .pic .wide { display: none; }
  .pic .narrow { display: block; }
  .pic svg { width: 196px; height: auto; }
  .num { overflow-wrap: break-word; }
  .big { font-size: 1.4375rem; }
  .big.lesser { font-size: 1.125rem; }
  .next ol { grid-template-columns: 1fr; gap: 0.45rem; }
}
`;
