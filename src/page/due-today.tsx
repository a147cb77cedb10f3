import { useMemo, useState } from "preact/hooks";
import type { DueList } from "../../analyses/due/due-list.ts";
import { dayWords } from "../planning/day-words.ts";
import type { WeekTask } from "../planning/week-page.ts";
import { Save } from "./save-bar.tsx";
import { due } from "./workbench.ts";

/** A text as a file to save; the same one while the text is the same. */
const useTextFile = (text: string | undefined, type: string): Blob | undefined =>
  useMemo(() => (text === undefined ? undefined : new Blob([text], { type: `${type};charset=utf-8` })), [text, type]);

/** Things to do in rows: what, which trays, when. */
function Tasks({ title, tasks }: { title: string; tasks: ReadonlyArray<WeekTask> }) {
  return (
    <li>
      <h3>{title}</h3>
      <ul class="due-tasks">
        {tasks.map(({ what, who, when }) => (
          <li key={`${what} ${who} ${when}`}>
            <strong>{what}</strong> <span>{who}</span> <span class="quiet">{when}</span>
          </li>
        ))}
      </ul>
    </li>
  );
}

/** The day a list is for: today, or the last day the sheets tell of. */
function Days({ lists, chosen, choose }: { lists: ReadonlyArray<DueList>; chosen: number; choose(at: number): void }) {
  if (lists.length < 2) return null;
  return (
    <fieldset class="choices">
      <legend class="heard">Day the list is for</legend>
      {lists.map(({ on }, at) => (
        <button key={on} type="button" class="choice" aria-pressed={at === chosen} onClick={() => choose(at)}>
          {at === 0 ? `Today, ${dayWords(on)}` : `The sheets' last day, ${dayWords(on)}`}
        </button>
      ))}
    </fieldset>
  );
}

/** What is due of the growing trays, day by day, with a calendar and a page of the week to save. */
export function DueToday() {
  const [at, choose] = useState(0);
  const lists = due.value;
  const chosen = Math.min(at, lists.length - 1);
  const list = lists[chosen];
  const calendar = useTextFile(list?.calendar, "text/calendar");
  const week = useTextFile(list?.week, "text/html");
  if (list === undefined) return null;
  return (
    <section aria-labelledby="due-title" class="block">
      <div class="block-head">
        <h2 id="due-title">Due</h2>
        <div class="due-saves">
          <Save what="Calendar" name={`due-${list.on}.ics`} blob={calendar} />
          <Save what="Week to print" name={`week-${list.on}.html`} blob={week} />
        </div>
      </div>
      <Days lists={lists} chosen={chosen} choose={choose} />
      <p class="due-head">{list.title}</p>
      {list.notes.map((note) => (
        <p key={note} class="quiet">
          {note}
        </p>
      ))}
      <ol class="due-days">
        {list.days.map(({ title, tasks }) => (
          <Tasks key={title} title={title} tasks={tasks} />
        ))}
        {list.later.length === 0 ? null : (
          <Tasks title={list.more === 0 ? "Later" : `Later (${list.more} more are not listed)`} tasks={list.later} />
        )}
      </ol>
    </section>
  );
}
