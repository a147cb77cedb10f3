/** Questions open in full and of one line, their charts and tables, the price list, the wall of trays. */
export const questionStyle = `
.q { border-top: 1px solid var(--hair); padding: 1.1rem 0 0.9rem; }
.part > h2 + .q { border-top: 0; padding-top: 0.5rem; }
.top { display: flex; flex-wrap: wrap; gap: 0.1rem 0.9rem; align-items: center; font-size: 0.8125rem; color: var(--quiet); }
.top .verdict { color: var(--ink); }
.q h3 { font: inherit; }
.sentence { max-width: 76ch; font-size: 0.9375rem; text-wrap: pretty; }
.q > .sentence { margin-top: 0.2rem; max-width: none; }
.rest { display: block; max-width: 76ch; }
.claim { display: block; font: 400 1.3125rem/1.28 var(--serif); max-width: 80ch; margin-bottom: 0.15rem; text-wrap: pretty; }
.settle { color: var(--quiet); font-size: 0.9375rem; max-width: 76ch; }
.was-sentence { font-size: 0.875rem; color: var(--quiet); border-inline-start: 3px solid var(--line); padding-inline-start: 0.7rem; margin-top: 0.3rem; }
.pair { display: grid; grid-template-columns: 560px minmax(0, 1fr); gap: 1.1rem 2rem; margin-top: 0.6rem; align-items: start; }
.pair.alone { grid-template-columns: minmax(0, 44rem); }
.beside { min-width: 0; display: grid; gap: 0.9rem; grid-template-columns: minmax(0, 1fr); }
.beside { container-type: inline-size; }
.figure { max-width: 100%; }
.figure-picture { position: relative; width: fit-content; max-width: 100%; }
.short { border-top: 1px solid var(--hair); }
.q + .short { border-top: 1px solid var(--ink); }
.short > summary {
  display: grid; grid-template-columns: 6.6rem 9.6rem minmax(0, 1fr) 1.5rem; gap: 0 1.1rem; align-items: center;
  min-height: 3.1rem; padding: 0.35rem 0; cursor: pointer; list-style: none;
}
.short > summary::-webkit-details-marker { display: none; }
.short > summary::after { content: '+'; font-size: 1.25rem; text-align: end; color: var(--quiet); }
.short[open] > summary::after { content: '\\2212'; }
.short-sentence { display: block; }
.mid { font: 600 1.125rem/1.2 var(--serif); }
.mid .between { font: 400 0.8125rem/1.3 var(--sans); }
.short > .in { padding: 0.2rem 0 1rem; }
.short .figure, .short .compact { margin-top: 0.6rem; }
.compact, .prices { border-collapse: collapse; width: 100%; font-size: 0.875rem; }
.compact { overflow-wrap: break-word; }
.compact caption { text-align: start; font-weight: 600; padding-bottom: 0.3rem; }
:is(.compact, .prices) :is(th, td) { padding: 0.3rem 0.75rem 0.3rem 0; border-bottom: 1px solid var(--hair); text-align: start; }
@container (max-width: 24rem) {
  :is(.compact, .prices) :is(th, td) { padding-inline-end: 0.4rem; }
  .compact .needs-room { display: none; }
}
:is(.compact, .prices) tr > :last-child { padding-inline-end: 0; }
:is(.compact, .prices) thead th {
  font-weight: 400; color: var(--quiet); vertical-align: bottom; line-height: 1.25; font-size: 0.8125rem; border-bottom: 1px solid var(--ink);
}
:is(.compact, .prices) tbody th { font-weight: 600; }
:is(.compact, .prices) .n { text-align: end; }
:is(.compact, .prices) td.n { white-space: nowrap; }
.dose {
  font: inherit; font-weight: 650; background: none; border: 0; padding: 0.1rem 0; color: inherit; display: inline-flex;
  align-items: center; gap: 0.45rem; min-height: 1.5rem; white-space: nowrap;
}
button.dose { cursor: pointer; }
.pick-name { font: inherit; color: inherit; background: none; border: 0; padding: 0; text-align: start; cursor: pointer; min-height: 1.5rem; overflow-wrap: anywhere; }
button:is(.dose, .pick-name):hover { text-decoration: underline; }
button:is(.dose, .pick-name)[aria-pressed=true] { text-decoration: underline; text-decoration-thickness: 3px; }
.prices { margin-top: 0.5rem; }
.prices small { display: block; font-size: 0.8125rem; font-weight: 400; color: var(--quiet); }
.prices input { width: 5.4rem; }
.stands { font-weight: 600; }
.below { color: var(--alert); }
main input[type=text] {
  font: inherit; font-size: 0.875rem; font-variant-numeric: tabular-nums; color: var(--ink); background: var(--surface);
  border: 1px solid var(--quiet); border-radius: 2px; padding: 0.22rem 0.4rem; min-height: 1.9rem; text-align: end;
}
main input.changed { border: 2px solid var(--ink); font-weight: 650; }
.key { display: flex; flex-wrap: wrap; gap: 0.2rem 1.2rem; font-size: 0.8125rem; color: var(--quiet); margin-top: 0.4rem; }
.key li { display: flex; gap: 0.4rem; align-items: center; }
.what { background: var(--tint); padding: 0.75rem 1rem 0.85rem; border-radius: 3px; }
.what h4 { margin-bottom: 0.35rem; }
.what label { display: grid; grid-template-columns: 1fr auto 5.6rem; gap: 0.6rem; align-items: center; font-size: 0.875rem; padding: 0.14rem 0; }
.what .was { white-space: nowrap; }
.multiples { display: flex; flex-wrap: wrap; gap: 0.8rem 1.2rem; margin-top: 0.5rem; }
.small-chart figcaption { font-size: 0.8125rem; color: var(--quiet); max-width: 164px; }
.wall { display: grid; grid-template-columns: minmax(0, 1fr); gap: 0.15rem; margin-top: 0.5rem; }
.wall-row { display: grid; grid-template-columns: 4.5rem minmax(0, 1fr); align-items: center; }
.wall-row ul { display: flex; flex-wrap: wrap; }
.wall-row li { display: inline-flex; align-items: center; gap: 0.15rem; width: 3.35rem; min-height: 1.5rem; font-size: 0.8125rem; position: relative; }
.wall.bare li { width: 1.35rem; min-height: 1.35rem; }
.wall-row .cook { font-size: 0.8125rem; color: var(--quiet); overflow-wrap: anywhere; }
.wall li.doubtful .grams { color: var(--alert); font-weight: 600; }
.dose-picks { display: flex; flex-wrap: wrap; gap: 0.2rem 1.2rem; font-size: 0.875rem; margin-top: 0.5rem; align-items: center; }
.dose-picks .dose { white-space: normal; text-align: start; }
.print-all { display: inline-flex; gap: 0.4rem; align-items: center; min-height: 1.5rem; }
@media screen and (max-width: 73.99rem) {
  .pair { grid-template-columns: 358px minmax(0, 1fr); gap: 1.1rem 1.5rem; }
  .pair .wide { display: none; }
  .pair .narrow { display: block; }
  .pair .hide-phone { display: none; }
}
@media screen and (max-width: 60rem) { .short > summary { grid-template-columns: 6.2rem 8.4rem minmax(0, 1fr) 1.2rem; } }
@media screen and (max-width: 52rem) {
  .pair { grid-template-columns: minmax(0, 1fr); }
  .pair .wide { display: block; }
  .pair .narrow { display: none; }
  .prices, .prices tbody { display: grid; grid-template-columns: minmax(0, 1fr); }
  .prices thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; }
  .prices tr { display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 0.1rem 1rem; border-bottom: 1px solid var(--hair); padding: 0.55rem 0; }
  .prices :is(th, td) { border: 0; padding: 0; }
  .prices tbody th { grid-column: 1 / 3; grid-row: 1; }
  .prices .stands { grid-column: 3; grid-row: 1; text-align: end; }
  .prices td.n { text-align: start; }
  .prices td[data-label]::before { content: attr(data-label); display: block; font-size: 0.8125rem; color: var(--quiet); }
  .prices .drawn { grid-column: 1 / -1; order: 1; }
  .prices .hide-phone { display: none; }
  .prices input { width: 100%; }
}
@media screen and (max-width: 43rem) {
  .pair .wide { display: none; }
  .pair .narrow { display: block; }
  .short > summary {
    grid-template-columns: minmax(0, 1fr) auto 1.1rem; grid-template-areas: 'n v x' 'n m x'; gap: 0 0.7rem; padding: 0.55rem 0; align-items: start;
  }
  .short > summary .said { grid-area: n; }
  .short > summary .verdict { grid-area: v; justify-self: end; font-size: 0.8125rem; }
  .short > summary .mid { grid-area: m; justify-self: end; font-size: 1rem; text-align: end; max-width: 7.5rem; }
  .short > summary::after { grid-area: x; }
  .claim { font-size: 1.1875rem; }
  .wall li { width: 1.45rem; }
  .wall .grams { display: none; }
  .wall-row { grid-template-columns: 3.4rem minmax(0, 1fr); }
  button.dose, main input[type=text] { min-height: 2.25rem; }
}
@media (forced-colors: active) {
  .range, .limits { fill: Canvas; stroke: CanvasText; }
  .ruler, .ref, .bar, .thread, .cross, .frame { stroke: CanvasText; }
  .point, .dot, .mark, .mark.warm { fill: CanvasText; }
  .ring { fill: Canvas; stroke: CanvasText; }
  svg text, svg text.tick, svg text.warm, svg text.quiet { fill: CanvasText; stroke: none; }
  .chart [fill^='var(--dose'] { fill: CanvasText; }
  .chart [stroke^='var(--'] { stroke: CanvasText; }
}
`;
