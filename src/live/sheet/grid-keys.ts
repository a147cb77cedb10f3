import { redo, undo } from "../model/workbook.ts";
import { clearBlock } from "./grid-block-edits.ts";
import type { GridModel, Place } from "./grid-model.ts";
import { addRow, toggleDeleted } from "./grid-row-edits.ts";

/** Steps of the keys that move by one cell. */
const steps: Readonly<Record<string, Place>> = {
  ArrowUp: { row: -1, column: 0 },
  ArrowDown: { row: 1, column: 0 },
  ArrowLeft: { row: 0, column: -1 },
  ArrowRight: { row: 0, column: 1 },
};

/** The step of a key as it is seen: from right to left the next column stands to the left. */
function stepOf({ key, target }: KeyboardEvent): Place | undefined {
  const step = steps[key];
  const isTurned = target instanceof Element && getComputedStyle(target).direction === "rtl";
  return step !== undefined && isTurned ? { row: step.row, column: 0 - step.column } : step;
}

/** Undo and redo, wherever the reader stands. @returns whether the key was one of them */
export function handleUndoKeys(event: KeyboardEvent): boolean {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return false;
  const key = event.key.toLowerCase();
  if (key === "z") (event.shiftKey ? redo : undo)();
  else if (key === "y") redo();
  else return false;
  event.preventDefault();
  return true;
}

/** Where a moving key leads; undefined for other keys. */
function target(event: KeyboardEvent, model: GridModel, page: number): Place | undefined {
  const { row, column } = model.active.value;
  const [lastRow, lastColumn] = [model.rows.value.length - 1, model.shownColumns.value.length - 1];
  const isFar = event.ctrlKey || event.metaKey;
  const step = stepOf(event);
  if (step !== undefined) {
    if (!isFar) return { row: row + step.row, column: column + step.column };
    return {
      row: step.row === 0 ? row : step.row < 0 ? 0 : lastRow,
      column: step.column === 0 ? column : step.column < 0 ? 0 : lastColumn,
    };
  }
  switch (event.key) {
    case "Home":
      return { row: isFar ? 0 : row, column: 0 };
    case "End":
      return { row: isFar ? lastRow : row, column: lastColumn };
    case "PageUp":
      return { row: Math.max(0, row - page), column };
    case "PageDown":
      return { row: row + page, column };
    case "Tab":
      if (event.shiftKey)
        return column > 0 ? { row, column: column - 1 } : row > -1 ? { row: row - 1, column: lastColumn } : undefined;
      return column < lastColumn
        ? { row, column: column + 1 }
        : row < lastRow
          ? { row: row + 1, column: 0 }
          : undefined;
    default:
      return undefined;
  }
}

/**
 * A key pressed while no cell is being typed into.
 * @param page rows a page key moves; @param leave called when the reader wants out of the grid
 */
export function handleGridKey(event: KeyboardEvent, model: GridModel, page: number, leave: () => void): void {
  if (handleUndoKeys(event)) return;
  const isTab = event.key === "Tab";
  const to = target(event, model, page);
  if (to !== undefined) {
    event.preventDefault();
    model.goTo(to, event.shiftKey && !isTab);
    return;
  }
  if (isTab) return;
  const isWithControl = (event.ctrlKey || event.metaKey) && !event.altKey && !event.shiftKey;
  if (isWithControl && ["Enter", "Delete", "Backspace"].includes(event.key)) {
    event.preventDefault();
    if (event.key === "Enter") addRow(model);
    else toggleDeleted(model);
    return;
  }
  const isPlain = !event.ctrlKey && !event.metaKey && !event.altKey;
  if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "a") {
    event.preventDefault();
    model.goTo({ row: 0, column: 0 });
    model.goTo({ row: model.rows.value.length - 1, column: model.shownColumns.value.length - 1 }, true);
    return;
  }
  if (!isPlain) return;
  const isHead = model.active.value.row < 0;
  switch (event.key) {
    case "Enter":
    case "F2":
    case " ":
      event.preventDefault();
      if (isHead) model.sortBy(model.shownColumns.value[model.active.value.column]!.at);
      else model.open(event.key === " " ? " " : undefined);
      return;
    case "Delete":
    case "Backspace":
      event.preventDefault();
      if (!isHead) clearBlock(model);
      return;
    case "Escape":
      event.preventDefault();
      leave();
      return;
    default:
      if (event.key.length === 1 && !isHead) {
        event.preventDefault();
        model.open(event.key);
      }
  }
}

/** A key pressed while a cell is being typed into. */
export function handleEditorKey(event: KeyboardEvent, model: GridModel, text: string): void {
  event.stopPropagation();
  const step = model.editing.value?.isReplacing ? steps[event.key] : undefined;
  const move =
    event.key === "Enter"
      ? { row: event.shiftKey ? -1 : 1, column: 0 }
      : event.key === "Tab"
        ? { row: 0, column: event.shiftKey ? -1 : 1 }
        : step;
  if (event.key === "Escape") {
    event.preventDefault();
    model.cancel();
  } else if (move !== undefined && !event.isComposing) {
    event.preventDefault();
    model.commit(text, move);
  }
}
