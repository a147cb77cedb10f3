/** The style of what can be changed in a report. It holds none of the characters that markup escapes. */
export const liveStyle = `
.figure-tools { display: none; }
.was { display: block; font-size: 0.75rem; color: var(--alert); font-weight: 400; white-space: nowrap; }
.was-sentence { font-size: 0.875rem; color: var(--quiet); border-inline-start: 3px solid var(--alert); padding-inline-start: 0.7rem; margin-top: 0.3rem; }
.was-sentence strong { color: var(--alert); }
.tray-card[hidden] { display: none; }
.tray-card {
  position: absolute; z-index: 8; background: var(--surface); color: var(--ink); border: 1px solid var(--line);
  border-radius: 3px; padding: 0.5rem 0.7rem; font-size: 0.8125rem; line-height: 1.4; pointer-events: none;
  box-shadow: 0 2px 8px rgb(0 0 0 / 0.2);
}
.tray-card span { color: var(--quiet); }
.tray-card .hint { color: var(--quiet); font-size: 0.75rem; margin-top: 0.2rem; }
.mark-stop { display: none; }
.figure-picture { position: relative; }
.mark-ring {
  position: absolute; width: 1.1rem; height: 1.1rem; margin: -0.55rem 0 0 -0.55rem; border-radius: 50%;
  border: 2px solid var(--surface); outline: 3px solid var(--accent); box-sizing: border-box;
}
.mark-ring[hidden] { display: none; }
.figure.on-mark img { cursor: pointer; }
.unseen {
  position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap;
}
@media screen {
  .live .live-slot > .as-written { display: none; }
  .live-slot { display: grid; grid-template-columns: minmax(0, 1fr); }
  .live-place { display: grid; grid-template-columns: minmax(0, 1fr); gap: 1.5rem; }
  .live .figure-tools { display: flex; flex-wrap: wrap; gap: 0.4rem; margin-top: 0.4rem; align-items: center; }
  .live .mark-stop { display: block; position: absolute; inset: 0; pointer-events: none; border-radius: 3px; }
  .live .mark-stop:focus-visible { outline: 2px solid var(--accent); outline-offset: 2px; }
  .live .grid-box { contain: layout paint style; }
  .live { scroll-padding-bottom: 8rem; }
}
@media print { .live-place, .live-bar-place, .tray-card, .figure-tools { display: none; } }
.live-place button, .live-bar button, .figure-tools button, .figure-tools select {
  font: inherit; font-size: 0.8125rem; line-height: 1.3; color: var(--ink); background: var(--surface);
  border: 1px solid var(--line); border-radius: 3px; padding: 0.3rem 0.7rem; cursor: pointer; min-height: 1.75rem;
}
.figure-tools select { max-width: 14rem; }
@media (max-width: 30rem) { .figure-tools [data-save] { display: none; } }
.live-place button:hover, .live-bar button:hover, .figure-tools button:hover { border-color: var(--accent); }
.live-place button[aria-pressed=true] { background: var(--tint); border-color: var(--accent); }
.live-bar button.strong { background: var(--accent); border-color: var(--accent); color: var(--surface); }
.live-bar button:disabled, .live-place button:disabled { color: var(--quiet); cursor: default; border-color: var(--hair); }
.grid-block { display: grid; grid-template-columns: minmax(0, 1fr); gap: 0.5rem; }
.grid-tools { display: flex; flex-wrap: wrap; gap: 0.4rem 0.75rem; align-items: baseline; }
.grid-title { font-size: 0.9375rem; }
.grid-count { font-size: 0.8125rem; color: var(--quiet); margin-inline-end: auto; }
.column-choice { font-size: 0.8125rem; }
.column-choice > summary { cursor: pointer; color: var(--accent); padding: 0.3rem 0; }
.column-choice[open] { flex-basis: 100%; }
.column-choice ul { list-style: none; padding: 0.5rem 0; columns: 13rem; margin: 0; }
.column-choice label { display: block; padding: 0.1rem 0; cursor: pointer; }
.grid-box {
  overflow: auto; max-height: min(62vh, 36rem); border: 1px solid var(--line); border-radius: 3px;
  background: var(--surface); font-size: 0.8125rem; line-height: 1.35; width: fit-content; max-width: 100%;
  overflow-wrap: normal;
}
.grid-canvas { position: relative; width: fit-content; min-width: 100%; }
.grid-head, .grid-row { display: grid; grid-template-columns: var(--columns); width: max-content; min-width: 100%; }
.grid-head { position: sticky; top: 0; z-index: 3; height: var(--head-height); background: var(--head); }
.grid-row { position: absolute; left: 0; right: 0; }
.grid-head > div, .grid-row > div {
  padding: 0.28rem 0.6rem; border-inline-end: 1px solid var(--hair); border-bottom: 1px solid var(--hair);
  white-space: nowrap; overflow: hidden; text-overflow: ellipsis; background: var(--surface); cursor: default;
}
.grid-head > div {
  background: var(--head); border-bottom: 1px solid var(--line); font-weight: 600; cursor: pointer; white-space: normal;
  display: flex; flex-direction: column; justify-content: flex-end; gap: 0.25rem; line-height: 1.2;
}
.grid-head .unit { font-weight: 400; color: var(--quiet); }
.grid-head > :first-child, .grid-row > :first-child {
  position: sticky; inset-inline-start: 0; z-index: 2; font-weight: 600; border-inline-end: 1px solid var(--line);
}
:is(.grid-head, .grid-row) > div { unicode-bidi: plaintext; }
:root[dir=rtl] :is(.grid-head, .grid-row) > div { text-align: right; }
.grid-row .number { text-align: right; font-variant-numeric: tabular-nums lining-nums; }
.grid-row .fixed-cell { color: var(--quiet); }
.grid-row > :first-child { color: var(--ink); }
.grid-row:hover > div { background: var(--tint); }
.grid-row > .selected { background: var(--tint); box-shadow: inset 0 0 0 1px var(--accent); }
.grid-row > .changed { background: var(--alert-tint); font-weight: 650; }
.grid-row s, .moved s { color: var(--quiet); font-weight: 400; }
.grid-row > .bad { text-decoration: underline wavy var(--alert); text-underline-offset: 0.2em; }
.grid-row .mark { display: inline-block; font-weight: 700; color: var(--alert); margin-inline-end: 0.35em; }
.grid-row.aside > div { color: var(--quiet); text-decoration: line-through; }
.grid-row.aside > .changed { text-decoration: none; color: var(--ink); }
.grid-row.added > div { background: var(--tint); }
.grid-row.added > :first-child { border-inline-start: 3px solid var(--accent); }
.grid-row.deleted > div { color: var(--quiet); text-decoration: line-through; }
.grid-row.deleted > :first-child { border-inline-start: 3px solid var(--alert); }
.row-mark { display: inline-block; font-size: 0.75rem; font-weight: 400; color: var(--quiet); margin-inline-end: 0.4em; }
.grid-box :focus-visible { outline: 2px solid var(--accent); outline-offset: -2px; }
.grid-row > .open { padding: 0; overflow: visible; }
.cell-field {
  font: inherit; width: 100%; height: 100%; box-sizing: border-box; padding: 0.28rem 0.55rem; border: 0; margin: 0;
  background: var(--surface); color: var(--ink); outline: 2px solid var(--accent); outline-offset: -2px; border-radius: 0;
}
.filter-field {
  font: inherit; font-weight: 400; width: 100%; padding: 0.1rem 0.3rem; border: 1px solid var(--line); border-radius: 2px;
  background: var(--surface); color: var(--ink); min-width: 0;
}
.finding { font-size: 0.8125rem; max-width: none; }
.bad-finding, .bad-cells li { color: var(--ink); }
.bad-finding { border-inline-start: 3px solid var(--alert); padding-inline-start: 0.6rem; }
.bad-cells { flex-basis: 100%; list-style: none; padding: 0.4rem 0.7rem; margin: 0; background: var(--alert-tint); border-inline-start: 3px solid var(--alert); font-size: 0.8125rem; }
.bad-cells li { max-width: none; padding: 0.1rem 0; }
.bad-cells button { font-weight: 600; }
.moved { white-space: nowrap; }
.moved s { position: relative; }
.moved strong { color: var(--alert); }
td .moved { white-space: normal; }
@media (pointer: coarse), (max-width: 43rem) { .for-keys { display: none; } }
.live-bar-place {
  position: sticky; bottom: 0; z-index: 7; margin: 1.5rem -1.75rem 0; grid-column: 1 / -1;
}
.live-bar {
  display: flex; flex-wrap: wrap; gap: 0.4rem 1.25rem; align-items: center;
  padding: 0.55rem 1.75rem; background: var(--head); border-top: 1px solid var(--line); font-size: 0.8125rem;
}
.live-bar.busy { border-top: 2px solid var(--alert); }
.live-bar p { max-width: none; }
.change-list, .more-changes ul { list-style: none; padding: 0; margin: 0; font-weight: 600; }
.more-changes { font-weight: 400; }
.more-changes > summary { cursor: pointer; padding: 0.2rem 0; }
.more-changes[open] { flex-basis: 100%; max-height: 30vh; overflow: auto; }
.live-saved { flex-basis: 100%; }
.moved-list a { display: inline-block; padding: 0.15rem 0; }
.live-count { color: var(--quiet); }
.live-state { color: var(--quiet); }
.live-trouble { color: var(--alert); flex-basis: 100%; }
.moved-list { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: 0.2rem 1.25rem; }
.live-buttons { display: flex; flex-wrap: wrap; gap: 0.4rem; margin-inline-start: auto; }
@media (max-width: 73.99rem) { .live-bar-place { margin-inline: -1.5rem; } }
@media (max-width: 43rem) { .live-bar-place { margin-inline: -1rem; } .live-bar { padding-inline: 1rem; } }
@media (max-width: 40rem) {
  .live-buttons { margin-inline-start: 0; }
  .live-buttons button { padding-inline: 0.6rem; }
  .live-buttons button:disabled { display: none; }
  .live-bar { gap: 0.25rem 0.75rem; padding-top: 0.4rem; padding-bottom: 0.4rem; }
  .grid-box { max-height: 60vh; }
  .live-place button, .live-bar button, .figure-tools button, .figure-tools select { min-height: 2.25rem; }
}
`
  .replace(/\s*\n\s*/g, "\n")
  .trim();
