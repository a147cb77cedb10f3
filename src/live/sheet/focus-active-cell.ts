import type { GridModel } from "./grid-model.ts";

/** The heights of a grid's parts, in pixels. */
export interface GridHeights {
  row: number;
  head: number;
}

/** Scrolls down or up until a row is in sight below the head. */
function bringRow(box: HTMLElement, row: number, heights: GridHeights): void {
  const top = row * heights.row;
  if (top < box.scrollTop) box.scrollTop = top;
  const room = box.clientHeight - heights.head;
  if (top + heights.row > box.scrollTop + room) box.scrollTop = top + heights.row - room;
}

/** Scrolls sideways until a cell is in sight: the first column stays where it is and must not cover the cell. */
function bringColumn(box: HTMLElement, cell: HTMLElement): void {
  const fixed = box.querySelector<HTMLElement>(".grid-head > :first-child")?.offsetWidth ?? 0;
  const isRightToLeft = getComputedStyle(box).direction === "rtl";
  const start = box.getBoundingClientRect().left + box.clientLeft;
  const left = start + (isRightToLeft ? 0 : fixed);
  const right = start + box.clientWidth - (isRightToLeft ? fixed : 0);
  const place = cell.getBoundingClientRect();
  if (place.left < left) box.scrollLeft -= left - place.left;
  else if (place.right > right) box.scrollLeft += Math.min(place.right - right, place.left - left);
}

/** Gives the focus to the cell the reader stands on and brings it into sight, where the grid wants the focus. */
export function focusActiveCell(
  model: GridModel,
  box: HTMLElement | null,
  heights: GridHeights,
  isTyping: boolean,
): void {
  const active = model.active.value;
  const count = model.rows.value.length;
  if (active.row >= count) {
    // the row stood on is gone: an added row was undone, or a filter took it away
    model.wantsFocus ||= document.activeElement === document.body;
    model.active.value = { row: count - 1, column: active.column };
    return;
  }
  if (box === null || !model.wantsFocus || isTyping) return;
  model.wantsFocus = false;
  if (active.row >= 0) bringRow(box, active.row, heights);
  const row = active.row < 0 ? ".grid-head " : `[data-row="${active.row}"] > `;
  const cell = box.querySelector<HTMLElement>(`${row}[data-column="${active.column}"]`);
  if (cell === null) return;
  cell.focus({ preventScroll: true });
  if (active.column > 0) bringColumn(box, cell);
  else box.scrollLeft = 0;
}
