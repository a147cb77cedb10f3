import { dayWords } from "./day-words.ts";
import { escapeHtml, printPage } from "./print-page.ts";

/** One thing to do on a printed week. */
export interface WeekTask {
  what: string;
  /** trays it is about */
  who: string;
  /** when, or how late */
  when: string;
}

/** A day of the week, or what is to be looked at first. */
export interface WeekDay {
  /** "Look at first", "Tue 10 Mar" */
  title: string;
  tasks: ReadonlyArray<WeekTask>;
}

const style = `
table { width: 100%; border-collapse: collapse; }
th, td { padding: 1.2mm 2mm; border-bottom: 0.2mm solid #c5ccc8; text-align: start; vertical-align: top; overflow-wrap: anywhere; }
tbody { break-inside: avoid; }
th[scope="rowgroup"] { padding-top: 4mm; border-bottom: 0.5mm solid #16201c; font-size: 11.5pt; }
.tick { width: 6mm; }
.tick span { display: inline-block; width: 4mm; height: 4mm; border: 0.3mm solid #16201c; }
.none { color: #56615c; }`;

const row = ({ what, who, when }: WeekTask): string =>
  `<tr><td class="tick"><span aria-hidden="true"></span></td><td>${escapeHtml(what)}</td><td>${escapeHtml(who)}</td><td>${escapeHtml(when)}</td></tr>`;

/**
 * A week on paper: a box to tick beside each thing to do, day by day.
 * @param from ISO 8601 date of its first day
 * @param note what the days are from
 */
export function weekPage(title: string, from: string, note: string, days: ReadonlyArray<WeekDay>): string {
  const bodies = days.map(
    ({ title: day, tasks }) =>
      `<tbody><tr><th colspan="4" scope="rowgroup">${escapeHtml(day)}</th></tr>${
        tasks.length === 0 ? `<tr><td></td><td colspan="3" class="none">nothing</td></tr>` : tasks.map(row).join("\n")
      }</tbody>`,
  );
  return printPage(
    `${title}: week from ${dayWords(from)}`,
    style,
    `<h1>${escapeHtml(title)}: week from ${dayWords(from)}</h1>
<p>${escapeHtml(note)}</p>
<table>
<thead><tr><th class="tick"><span aria-label="done"></span></th><th>What</th><th>Trays</th><th>When</th></tr></thead>
${bodies.join("\n")}
</table>`,
    "due-week",
  );
}
