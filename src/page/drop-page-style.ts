/** What the page adds to the report's style: its two sides, the drop field, lists and buttons. */
export const dropPageStyle = `
.drop-page { max-width: none; padding: 0; display: block; }
#page { min-height: 100dvh; display: grid; grid-template-columns: minmax(0, 1fr); grid-template-rows: auto 1fr auto; }
.page-head, .page-foot, .bench { padding-inline: clamp(1rem, 2vw, 2.5rem); }
.page-head {
  padding-block: 0.7rem; display: flex; flex-wrap: wrap; gap: 0.1rem 1.25rem; align-items: baseline;
  border-bottom: 1px solid var(--line); background: var(--surface);
}
.page-head h1 { font-size: 1.25rem; letter-spacing: 0; }
.page-line { font-size: 0.875rem; color: var(--quiet); max-width: none; }
.page-jumps { display: none; }
.page-foot { margin: 0; padding-block: 0.75rem; }
.page-foot p { max-width: 60rem; }
.heard { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.bench { padding-block: 1rem 2rem; display: grid; grid-template-columns: minmax(0, 1fr); gap: 1.5rem 2.5rem; align-items: start; }
.bench:focus { outline: none; }
.sheets-side, .report-side { display: grid; grid-template-columns: minmax(0, 1fr); gap: 1.25rem; align-content: start; }
main .block, main .drop-field, main .save-bar { margin-top: 0; }
main .block, main .drop-field { display: grid; grid-template-columns: minmax(0, 1fr); gap: 0.6rem; }
main .block h2, main .drop-field h2 { border-top: 0; padding-top: 0; font-size: 1.05rem; }
.block { border-top: 1px solid var(--line); padding-top: 0.8rem; }
.block-head { display: flex; flex-wrap: wrap; gap: 0.5rem 1rem; justify-content: space-between; align-items: baseline; }
.quiet { color: var(--quiet); font-size: 0.8125rem; unicode-bidi: plaintext; }
.drop-field { border: 1px solid var(--line); border-inline-start: 4px solid var(--accent); background: var(--surface); padding: 0.8rem 1rem; }
.drop-field p { font-size: 0.9375rem; }
.drop-field.over { background: var(--tint); border-color: var(--accent); }
.drop-notes { list-style: none; padding: 0; font-size: 0.875rem; max-block-size: 14rem; overflow: auto; }
.drop-notes li { border-inline-start: 3px solid var(--alert); padding-block: 0.1rem; padding-inline: 0.7rem 0; max-width: none; }
.drop-buttons { display: flex; flex-wrap: wrap; gap: 0.5rem; }
.at-start { justify-content: center; grid-template-columns: minmax(0, 46rem); padding-top: clamp(1rem, 12vh, 8rem); }
.at-start .drop-field { padding: clamp(1.25rem, 4vw, 3rem); gap: 1rem; }
main.at-start .drop-field h2 { font-size: 1.6rem; }
.at-start .drop-field p { font-size: 1.0625rem; }
.drop-page button, .save {
  font: inherit; font-size: 0.875rem; line-height: 1.3; padding: 0.4rem 0.8rem; min-height: 2.1rem; cursor: pointer;
  color: var(--accent); background: var(--surface); border: 1px solid var(--accent); border-radius: 3px; text-decoration: none;
  display: inline-flex; align-items: center;
}
.drop-page button:hover, .save:hover { background: var(--tint); }
.drop-page button.strong { background: var(--accent); color: var(--surface); font-weight: 600; }
.drop-page button.strong:hover { text-decoration: underline; text-underline-offset: 0.2em; }
.drop-page button.small { font-size: 0.8125rem; padding: 0.15rem 0.5rem; min-height: 1.6rem; border-color: var(--line); }
.drop-page button:disabled { color: var(--quiet); border-color: var(--line); background: none; cursor: default; }
.work-status {
  display: grid; grid-template-columns: minmax(0, 1fr) auto; gap: 0.35rem 0.75rem; align-items: center;
  background: var(--tint); padding: 0.6rem 0.8rem; border-inline-start: 4px solid var(--accent);
}
.work-text { font-size: 0.875rem; grid-column: 1; grid-row: 1; }
.work-status progress { grid-column: 1; grid-row: 2; width: 100%; height: 0.5rem; accent-color: var(--accent); }
.work-status button { grid-column: 2; grid-row: 1 / span 2; }
.work-status > p { grid-column: 1; font-size: 0.875rem; }
.work-status.trouble { background: var(--alert-tint); border-inline-start-color: var(--alert); }
.sheet-list, .log-list, .asked-list { list-style: none; padding: 0; display: grid; grid-template-columns: minmax(0, 1fr); }
.sheet-list li { display: flex; gap: 0.75rem; justify-content: space-between; align-items: start; max-width: none; }
.sheet-list li, .log-list li { padding: 0.45rem 0; border-top: 1px solid var(--hair); max-width: none; font-size: 0.875rem; }
.sheet-list li:first-child, .log-list li:first-child { border-top: 0; }
.sheet-list li > div { min-width: 0; }
.sheet-list button { flex: none; }
.sheet-name { font-weight: 600; unicode-bidi: plaintext; }
.use { color: var(--quiet); font-size: 0.8125rem; }
.use.trouble { color: var(--alert); }
.log-fold > .log-list, .fold > .asked-list { padding-inline-start: 0.9rem; border-inline-start: 2px solid var(--hair); }
.asked-list { gap: 0.9rem; }
.asked { display: grid; gap: 0.4rem; max-width: none; }
.asked h3 { font-size: 0.9375rem; }
.choices { display: flex; flex-wrap: wrap; gap: 0.4rem; align-items: center; }
.drop-page button.choice { flex-direction: column; align-items: flex-start; }
.choice-example { font-size: 0.75rem; color: var(--quiet); }
.drop-page .choice[aria-pressed="true"] { background: var(--accent); color: var(--surface); }
.choice[aria-pressed="true"] .choice-example { color: inherit; }
.choices input {
  font: inherit; font-size: 0.875rem; padding: 0.35rem 0.5rem; color: var(--ink); background: var(--surface);
  border: 1px solid var(--quiet); border-radius: 3px;
}
.given { font-size: 0.875rem; }
.save-bar {
  display: flex; flex-wrap: wrap; gap: 0.4rem; align-items: center; position: sticky; top: 0; z-index: 3;
  background: var(--ground); padding-block: 0.4rem;
}
.save-bar > .quiet { margin-inline-end: 0.35rem; }
.due-saves { display: flex; flex-wrap: wrap; gap: 0.4rem; }
.due-head { font-weight: 600; unicode-bidi: plaintext; }
.due-days, .due-tasks { list-style: none; padding: 0; display: grid; grid-template-columns: minmax(0, 1fr); }
.due-days { gap: 0.7rem; }
.due-days h3 { font-size: 0.9375rem; }
.due-tasks li { display: flex; flex-wrap: wrap; gap: 0 0.7rem; padding: 0.35rem 0; border-top: 1px solid var(--hair); max-width: none; overflow-wrap: anywhere; unicode-bidi: plaintext; }
fieldset.choices { border: 0; padding: 0; margin: 0 0 0.4rem; min-width: 0; }
.answers-found > li { display: grid; grid-template-columns: 6.6rem minmax(0, 1fr); gap: 0 1.1rem; padding: 0.45rem 0; border-top: 1px solid var(--hair); }
.answers-found .question { font-size: 0.8125rem; color: var(--quiet); }
.report-frame { width: 100%; height: 85dvh; border: 1px solid var(--line); background: var(--ground); display: block; }
.report-block.large { position: fixed; inset: 0; z-index: 9; background: var(--ground); padding: 0.5rem; grid-template-rows: auto auto 1fr; }
.report-block.large .report-frame { height: 100%; }
@media (min-width: 68rem) {
  .bench:not(.at-start) { grid-template-columns: minmax(22rem, 30rem) minmax(0, 1fr); }
}
@media (max-width: 67.99rem) {
  .page-jumps { display: flex; flex-wrap: wrap; gap: 0.25rem 1rem; font-size: 0.875rem; width: 100%; }
}
@media (max-width: 40rem) {
  .page-head { gap: 0.1rem; }
  .save-bar { position: static; }
}
@media print { .sheets-side, .page-head, .save-bar, .page-foot { display: none; } }
`
  .replace(/\s*\n\s*/g, "\n")
  .trim();
