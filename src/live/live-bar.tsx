import { computed, signal } from "@preact/signals";
import { counted } from "../records/counted.ts";
import { placeOf } from "../report/report-facts.ts";
import { visibleText } from "../report/visible-text.ts";
import { type ChangeSaid, changesSaid, type MovedAnswer, movedAnswers } from "./model/change-list.ts";
import { type FileToSave, filesToSave } from "./model/files-to-save.ts";
import { noEdits } from "./model/live-sheet.ts";
import { leftOutOf, savedCsv } from "./model/saved-csv.ts";
import {
  asideReasons,
  backToSaved,
  canRedo,
  canUndo,
  edits,
  figures,
  isChanged,
  redo,
  said,
  undo,
  workbook,
} from "./model/workbook.ts";
import { saveFile } from "./save-file.ts";
import { WasNow } from "./sheet/was-now.tsx";
import { working } from "./worker/answering.ts";

/** why changes do not outlast a reload; "" while they do */
export const keepTrouble = signal("");

/** What a reader must know of a file just saved. */
function saveRemark(file: FileToSave): string {
  const leftOut = leftOutOf(file);
  const parts = [
    file.replaces
      ? `${file.name} was saved. Put it in the place of your own sheet, or drop it on the page.`
      : `${file.name} was saved: the ${file.sheet} of ${visibleText(file.source, 60)}. It cannot stand in the place of that file; take the ${file.sheet} out of it before you use both.`,
    file.sheet === "trays" && asideReasons.value.size > 0
      ? "Trays set aside are still in it, with the reason in their note."
      : "",
    leftOut > 0
      ? `${counted(leftOut, "row that was", "rows that were")} left out of the report ${leftOut === 1 ? "is" : "are"} not in it: keep your own sheet, too.`
      : "",
  ];
  return parts.filter((part) => part !== "").join(" ");
}

/** Saves one file of the changes. */
function save(file: FileToSave): void {
  saveFile(file.name, new Blob([savedCsv(file)], { type: "text/csv;charset=utf-8" }));
  remember(saveRemark(file));
}

/** what was said of the files saved last, and of which changes; shown until the next change */
const lastSaved = signal({ edits: noEdits, text: "" });

function remember(text: string): void {
  lastSaved.value = { edits: edits.value, text };
  said.value = text;
}

const toSave = computed(() => filesToSave(workbook().saved, edits.value));

/** Saves every file that was changed. @returns whether there was any */
export function saveAll(): boolean {
  for (const file of toSave.value) save(file);
  if (toSave.value.length > 1) remember(toSave.value.map(saveRemark).join(" "));
  return toSave.value.length > 0;
}

function SaveButtons() {
  return (
    <>
      {toSave.value.map((file) => (
        <button type="button" class="strong" key={file.name} onClick={() => save(file)}>
          Save {visibleText(file.name, 40)}
        </button>
      ))}
    </>
  );
}

/** changes in sight; the others are in a fold */
const mostChanges = 2;

function Change({ change: { what, from, to, trouble } }: { change: ChangeSaid }) {
  return (
    <li>
      {what}: {from === "" ? to : <WasNow was={from} now={to} />}
      {trouble === undefined ? null : <span class="live-trouble"> {trouble}</span>}
    </li>
  );
}

/** What was changed, from what to what. */
function Changes() {
  const changes = changesSaid.value;
  const shown = changes.length > mostChanges + 1 ? changes.slice(0, mostChanges) : changes;
  const others = changes.slice(shown.length);
  return (
    <>
      <ul class="change-list">
        {shown.map((change) => (
          <Change key={change.key} change={change} />
        ))}
      </ul>
      {others.length === 0 ? null : (
        <details class="more-changes">
          <summary>{others.length} more changed</summary>
          <ul>
            {others.slice(0, 100).map((change) => (
              <Change key={change.key} change={change} />
            ))}
            {others.length > 100 ? <li>and {others.length - 100} more</li> : null}
          </ul>
        </details>
      )}
    </>
  );
}

/** answers in sight; the others are in a fold */
const mostJumps = 3;

function Jump({ answer: { id, name, was, now } }: { answer: MovedAnswer }) {
  const open = () => {
    const place = document.getElementById(placeOf(id));
    if (place instanceof HTMLDetailsElement) place.open = true;
  };
  return (
    <li>
      <a href={`#${placeOf(id)}`} onClick={open}>
        {visibleText(name)}
      </a>{" "}
      {was === now ? null : <WasNow was={was} now={now} />}
    </li>
  );
}

/** Links to the answers that say something else now. */
function Jumps() {
  const moved = movedAnswers.value;
  if (moved.length === 0) return null;
  const shown = moved.length > mostJumps + 1 ? moved.slice(0, mostJumps) : moved;
  const others = moved.slice(shown.length);
  return (
    <>
      <ul class="moved-list" aria-label="Answers that changed">
        {shown.map((answer) => (
          <Jump key={answer.id} answer={answer} />
        ))}
      </ul>
      {others.length === 0 ? null : (
        <details class="more-changes">
          <summary>{others.length} more answers changed</summary>
          <ul>
            {others.map((answer) => (
              <Jump key={answer.id} answer={answer} />
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

/** What has moved, in a few words. */
function Moved() {
  const before = new Map(workbook().figures.figures.map(({ name, text }) => [name, text]));
  const moved = figures.value.figures.filter(({ name, text }) => before.get(name) !== text).slice(0, 1);
  const prices = new Map(workbook().figures.prices.map((price) => [price.product, price.target]));
  const asked = figures.value.prices.filter(
    ({ product, target }) => prices.has(product) && prices.get(product) !== target,
  );
  if (moved.length + asked.length === 0) return null;
  return (
    <ul class="moved-list">
      {moved.map(({ name, text }) => (
        <li key={name}>
          {name} <WasNow was={before.get(name)} now={text} />
        </li>
      ))}
      {asked.slice(0, 2).map(({ product, target }) => (
        <li key={product}>
          ask for {visibleText(product, 40)} <WasNow was={prices.get(product)} now={target} />
        </li>
      ))}
    </ul>
  );
}

function state(): string {
  const { left, trouble, followed } = working.value;
  if (trouble !== "") return `The answers could not be worked out again: ${trouble}`;
  if (!isChanged.value) return "";
  if (left > 0 || followed !== edits.value)
    return left > 0 ? `Working out ${counted(left, "answer")} …` : "Working out the answers …";
  const bad = changesSaid.value.filter((change) => change.trouble !== undefined).length;
  if (bad > 0) return `The answers follow; ${bad} changed ${bad === 1 ? "cell is" : "cells are"} in doubt.`;
  const { length } = movedAnswers.value;
  return `All answers follow; ${length === 0 ? "none says" : counted(length, "says", "say")} something else.`;
}

/** Always in reach: what was changed, what it did, undo, save, and the way back. */
export function LiveBar() {
  const isAny = isChanged.value;
  return (
    <section class={isAny ? "live-bar busy" : "live-bar"} aria-label="Changes">
      {isAny ? (
        <Changes />
      ) : (
        <p class="live-count">
          Costs, products, trays and settings can be changed in this page; answers follow.
          <span class="for-keys"> F6 jumps between its parts, Ctrl+S saves.</span>
        </p>
      )}
      {isAny && working.value.followed !== edits.value ? <Moved /> : null}
      {isAny ? <Jumps /> : null}
      <p class="live-state">{state()}</p>
      <div class="live-buttons">
        {isAny || canUndo.value || canRedo.value ? (
          <>
            <button type="button" disabled={!canUndo.value} onClick={undo}>
              Undo
            </button>
            <button type="button" disabled={!canRedo.value} onClick={redo}>
              Redo
            </button>
          </>
        ) : null}
        <SaveButtons />
        {isAny ? (
          <button type="button" onClick={backToSaved}>
            Back to the saved book
          </button>
        ) : null}
      </div>
      {keepTrouble.value === "" || !isAny ? null : <p class="live-trouble">{keepTrouble.value}</p>}
      {isAny && lastSaved.value.edits === edits.value && lastSaved.value.text !== "" ? (
        <p class="live-saved">{lastSaved.value.text}</p>
      ) : null}
      <p class="unseen" role="status" aria-live="polite">
        {said.value}
      </p>
    </section>
  );
}

/** Above the answers: that trays were set aside, and why. */
export function AsideNote() {
  const reasons = [...asideReasons.value];
  if (reasons.length === 0) return null;
  const { left } = working.value;
  const count = counted(reasons.length, "tray is", "trays are");
  return (
    <p class="flagged changes">
      <strong>{count} set aside in this page</strong> and left out of every answer
      {left > 0 ? ` (${left} still to follow)` : ""}:{" "}
      {reasons
        .slice(0, 6)
        .map(([tray, reason]) => `${visibleText(tray, 40)} (${visibleText(reason, 80)})`)
        .join("; ")}
      {reasons.length > 6 ? ` and ${reasons.length - 6} more` : ""}.
    </p>
  );
}
