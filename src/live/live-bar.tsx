import { signal } from "@preact/signals";
import { visibleText } from "../report/visible-text.ts";
import { sheetNames } from "./model/live-sheet.ts";
import { savedCsv, savedName } from "./model/saved-csv.ts";
import {
  addedRowCount,
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

function SaveButtons() {
  const changed = sheetNames.filter(
    (name) =>
      edits.value.cells.some(({ sheet }) => sheet === name) ||
      edits.value.deleted.some(({ sheet }) => sheet === name) ||
      (name === "trays" && asideReasons.value.size > 0),
  );
  return (
    <>
      {changed.map((name) => (
        <button
          type="button"
          class="strong"
          key={name}
          onClick={() => {
            saveFile(savedName(name), new Blob([savedCsv(name)], { type: "text/csv;charset=utf-8" }));
            said.value = `${savedName(name)} was saved as a new file; your own sheet is as it was.${
              name === "trays" && asideReasons.value.size > 0
                ? " Trays set aside are still in it, with the reason in their note."
                : ""
            }`;
          }}
        >
          Save {name}.csv
        </button>
      ))}
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
  const { left, trouble } = working.value;
  if (trouble !== "") return `The answers could not be worked out again: ${trouble}`;
  if (left > 0) return `Working out ${left} ${left === 1 ? "answer" : "answers"} …`;
  return isChanged.value ? "All answers follow the changes." : "";
}

/** Always in reach: what was changed, what it did, undo, save, and the way back. */
export function LiveBar() {
  const cells = edits.value.cells.length;
  const aside = asideReasons.value.size;
  const [added, deleted] = [sheetNames.reduce((sum, name) => sum + addedRowCount(name), 0), edits.value.deleted.length];
  const counts = [
    cells > 0 ? `${cells} ${cells === 1 ? "cell" : "cells"} changed` : "",
    added > 0 ? `${added} ${added === 1 ? "row" : "rows"} added` : "",
    deleted > 0 ? `${deleted} ${deleted === 1 ? "row" : "rows"} deleted` : "",
    aside > 0 ? `${aside} ${aside === 1 ? "tray" : "trays"} set aside` : "",
  ].filter((part) => part !== "");
  return (
    <section class={isChanged.value ? "live-bar busy" : "live-bar"} aria-label="Changes">
      <p class="live-count">
        {counts.length > 0
          ? counts.join(", ")
          : "Costs, products, trays and settings can be changed in this page; answers follow."}
      </p>
      {isChanged.value ? <Moved /> : null}
      <p class="live-state">{state()}</p>
      <div class="live-buttons">
        {isChanged.value || canUndo.value || canRedo.value ? (
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
        {isChanged.value ? (
          <button type="button" onClick={backToSaved}>
            Back to the saved book
          </button>
        ) : null}
      </div>
      {keepTrouble.value === "" || !isChanged.value ? null : <p class="live-trouble">{keepTrouble.value}</p>}
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
  const count = reasons.length === 1 ? "1 tray is" : `${reasons.length} trays are`;
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
