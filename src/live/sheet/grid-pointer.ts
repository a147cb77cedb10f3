import type { GridModel, Place } from "./grid-model.ts";

function placeOf(target: EventTarget | null): Place | undefined {
  const cell = target instanceof Element ? target.closest<HTMLElement>("[data-column]") : null;
  if (cell === null) return undefined;
  const row = cell.closest<HTMLElement>("[data-row]")?.dataset.row;
  return { row: row === undefined ? -1 : Number(row), column: Number(cell.dataset.column) };
}

/** What a grid does as the pointer is pressed on a cell and drawn over others. @param drag whether cells are being selected */
export function gridPointer(model: GridModel, box: { current: HTMLElement | null }, drag: { current: boolean }) {
  return {
    onPointerDown: (event: PointerEvent): void => {
      const place = placeOf(event.target);
      if (place === undefined || event.target instanceof HTMLInputElement || event.button !== 0) return;
      const { row, column } = model.active.value;
      const isSame =
        place.row === row && place.column === column && document.activeElement?.closest(".grid-box") === box.current;
      if (place.row < 0) {
        model.goTo(place);
        model.sortBy(model.shownColumns.value[place.column]!.at);
      } else if (isSame && !event.shiftKey && model.anchor.value === undefined) {
        event.preventDefault();
        model.open();
      } else {
        model.goTo(place, event.shiftKey);
        drag.current = event.pointerType === "mouse";
      }
    },
    onPointerOver: (event: PointerEvent): void => {
      const place = drag.current && event.buttons === 1 ? placeOf(event.target) : undefined;
      if (place !== undefined && place.row >= 0) model.goTo(place, true);
    },
    onPointerUp: (): void => {
      drag.current = false;
    },
  };
}
