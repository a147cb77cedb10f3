// biome-ignore-all lint/a11y/useSemanticElements: a table of the browser's own needs every row in the page
// biome-ignore-all lint/a11y/useFocusableInteractive: the cells take the focus, one at a time
// biome-ignore-all lint/a11y/useAriaPropsSupportedByRole: the role of a cell is rowheader or gridcell, and both have them
import { useSignal } from "@preact/signals";
import { useEffect, useLayoutEffect, useMemo, useRef } from "preact/hooks";
import { visibleText } from "../../report/visible-text.ts";
import { canGrow, type LiveColumn } from "../model/live-sheet.ts";
import { asideReasons, changedTexts } from "../model/workbook.ts";
import { copyBlock, pasteBlock } from "./grid-block-edits.ts";
import { handleGridKey } from "./grid-keys.ts";
import type { GridModel } from "./grid-model.ts";
import { GridRow } from "./grid-row.tsx";
import { GridTools } from "./grid-tools.tsx";

/** rows drawn beyond what is in sight */
const beyond = 6;

/** Letters a column needs, from its head and its longest cells in the saved book. */
const ownWidth = (model: GridModel, column: LiveColumn, at: number): number =>
  model.sheet.rows
    .slice(0, 400)
    .reduce(
      (most, cells) => Math.max(most, model.shown(cells[at] ?? "", column).length + 3.5),
      Math.ceil(column.label.length * 0.75) + column.unit.length + 4,
    );

/** Widths of the columns in sight, with room for what a changed cell said before. */
function widths(model: GridModel, own: ReadonlyArray<number>): number[] {
  const most = new Map<number, number>();
  for (const key of changedTexts[model.sheet.name].value.keys()) {
    const [row, column] = key.split("/").slice(1).map(Number) as [number, number];
    const letters = model.text(row, column).length + model.savedText(row, column).length + 5;
    most.set(column, Math.max(most.get(column) ?? 0, letters));
  }
  for (const reason of asideReasons.value.values()) {
    const at = model.sheet.columns.length;
    most.set(at, Math.max(most.get(at) ?? 0, reason.length + 4));
  }
  return model.shownColumns.value.map(({ column, at }, index) => {
    const letters = Math.max(own[index]!, most.get(at) ?? 0, 6);
    return Math.min(letters, column.key === "meaning" || column.key === "note" ? 44 : 26);
  });
}

function Head({ model }: { model: GridModel }) {
  const { sort, filters } = model.view.value;
  const active = model.active.value;
  return (
    <div role="row" class="grid-head" aria-rowindex={1}>
      {model.shownColumns.value.map(({ column: { label, unit }, at }, column) => {
        const isSorted = sort?.column === at;
        return (
          <div
            key={at}
            role="columnheader"
            aria-colindex={column + 1}
            aria-sort={isSorted ? (sort.isDown ? "descending" : "ascending") : "none"}
            tabIndex={active.row === -1 && active.column === column ? 0 : -1}
            data-column={column}
          >
            <span class="head-label">
              {visibleText(label, 60)}
              {unit === "" ? null : <span class="unit"> {unit}</span>}
              <span class="sort-mark" aria-hidden="true">
                {isSorted ? (sort.isDown ? " ▾" : " ▴") : ""}
              </span>
            </span>
            {model.isFiltering.value ? (
              <input
                class="filter-field"
                type="text"
                aria-label={`Show rows where ${label} holds`}
                placeholder="filter"
                defaultValue={filters.get(at) ?? ""}
                onInput={(event) => model.filterBy(at, event.currentTarget.value)}
                onKeyDown={(event) => event.stopPropagation()}
                onClick={(event) => event.stopPropagation()}
              />
            ) : null}
          </div>
        );
      })}
    </div>
  );
}

/** A sheet whose cells can be changed. Only rows in sight are in the page, whatever the length of the sheet. */
export function Grid({ model }: { model: GridModel }) {
  const box = useRef<HTMLDivElement>(null);
  const after = useRef<HTMLParagraphElement>(null);
  const scrolled = useSignal({ top: 0, height: 400 });
  const rem = useSignal(16);
  const drag = useRef(false);
  const { sheet } = model;
  const rows = model.rows.value;
  const rowHeight = Math.round(rem.value * 1.75);
  const headHeight = Math.round(rem.value * (model.isFiltering.value ? 4.6 : 2.6));
  const own = useMemo(
    () => model.shownColumns.value.map(({ column, at }) => ownWidth(model, column, at)),
    [model.shownColumns.value],
  );
  const template = widths(model, own)
    .map((letters, index) => (index === 0 ? `min(${letters}ch, 42vw)` : `${letters}ch`))
    .join(" ");
  const measure = () => {
    const element = box.current;
    if (element === null) return;
    rem.value = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
    if (scrolled.value.top !== element.scrollTop || scrolled.value.height !== element.clientHeight)
      scrolled.value = { top: element.scrollTop, height: element.clientHeight };
  };
  useEffect(() => {
    measure();
    const watcher = new ResizeObserver(measure);
    watcher.observe(box.current!);
    return () => watcher.disconnect();
  }, []);
  const active = model.active.value;
  const isTyping = model.editing.value !== undefined;
  useLayoutEffect(() => {
    const element = box.current;
    if (active.row >= rows.length) {
      // the row stood on is gone: an added row was undone, or a filter took it away
      model.wantsFocus ||= document.activeElement === document.body;
      model.active.value = { row: rows.length - 1, column: active.column };
      return;
    }
    if (element === null || !model.wantsFocus || isTyping) return;
    model.wantsFocus = false;
    const top = active.row * rowHeight;
    if (active.row >= 0) {
      if (top < element.scrollTop) element.scrollTop = top;
      const room = element.clientHeight - headHeight;
      if (top + rowHeight > element.scrollTop + room) element.scrollTop = top + rowHeight - room;
    }
    const cell = element.querySelector<HTMLElement>(
      active.row < 0
        ? `.grid-head [data-column="${active.column}"]`
        : `[data-row="${active.row}"] > [data-column="${active.column}"]`,
    );
    if (cell === null) return;
    cell.focus({ preventScroll: true });
    // the first column stays in sight and must not cover the cell
    const fixed = element.querySelector<HTMLElement>(".grid-head > :first-child")?.offsetWidth ?? 0;
    if (active.column > 0) {
      const isRightToLeft = getComputedStyle(element).direction === "rtl";
      const start = element.getBoundingClientRect().left + element.clientLeft;
      const [left, right] = [
        start + (isRightToLeft ? 0 : fixed),
        start + element.clientWidth - (isRightToLeft ? fixed : 0),
      ];
      const place = cell.getBoundingClientRect();
      if (place.left < left) element.scrollLeft -= left - place.left;
      else if (place.right > right) element.scrollLeft += Math.min(place.right - right, place.left - left);
    } else element.scrollLeft = 0;
  });
  const first = Math.max(0, Math.floor(scrolled.value.top / rowHeight) - beyond);
  const last = Math.min(rows.length - 1, Math.ceil((scrolled.value.top + scrolled.value.height) / rowHeight) + beyond);
  const drawn = new Set<number>();
  for (let index = first; index <= last; index++) drawn.add(index);
  // the cell with the focus stays in the page even when it is scrolled out of sight
  if (active.row >= 0 && active.row < rows.length) drawn.add(active.row);
  const placeOf = (target: EventTarget | null) => {
    const cell = target instanceof Element ? target.closest<HTMLElement>("[data-column]") : null;
    if (cell === null) return undefined;
    const row = cell.closest<HTMLElement>("[data-row]")?.dataset.row;
    return { row: row === undefined ? -1 : Number(row), column: Number(cell.dataset.column) };
  };
  const page = Math.max(1, Math.floor((scrolled.value.height - headHeight) / rowHeight) - 1);
  return (
    <div class="grid-block" data-grid={sheet.name}>
      <GridTools model={model} />
      <div
        ref={box}
        class="grid-box"
        role="grid"
        aria-label={`${sheet.title}, cells can be changed`}
        aria-rowcount={rows.length + 1}
        aria-colcount={model.shownColumns.value.length}
        aria-multiselectable="true"
        aria-describedby={`${sheet.name}-keys`}
        style={{ "--columns": template, "--head-height": `${headHeight}px` }}
        onScroll={measure}
        onKeyDown={(event) => {
          if (event.target instanceof HTMLInputElement) return;
          handleGridKey(event, model, page, () => after.current?.focus());
        }}
        onCopy={(event) => {
          event.preventDefault();
          event.clipboardData?.setData("text/plain", copyBlock(model));
        }}
        onPaste={(event) => {
          event.preventDefault();
          pasteBlock(model, event.clipboardData?.getData("text/plain") ?? "");
        }}
        onPointerDown={(event) => {
          const place = placeOf(event.target);
          if (place === undefined || event.target instanceof HTMLInputElement || event.button !== 0) return;
          const { row, column } = model.active.value;
          const isSame =
            place.row === row &&
            place.column === column &&
            document.activeElement?.closest(".grid-box") === box.current;
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
        }}
        onPointerOver={(event) => {
          const place = drag.current && event.buttons === 1 ? placeOf(event.target) : undefined;
          if (place !== undefined && place.row >= 0) model.goTo(place, true);
        }}
        onPointerUp={() => {
          drag.current = false;
        }}
      >
        <div class="grid-canvas" role="rowgroup" style={{ height: `${headHeight + rows.length * rowHeight}px` }}>
          <Head model={model} />
          {[...drawn]
            .sort((a, b) => a - b)
            .map((index) => (
              <GridRow
                key={rows[index]}
                model={model}
                row={rows[index]!}
                index={index}
                top={headHeight + index * rowHeight}
                height={rowHeight}
              />
            ))}
        </div>
      </div>
      {model.columns.map(({ column: { key, choices } }) =>
        choices === undefined ? null : (
          <datalist key={key} id={`${sheet.name}-${key}-choices`}>
            {choices.map((choice) => (
              <option key={choice} value={choice} />
            ))}
          </datalist>
        ),
      )}
      <ActiveFinding model={model} />
      <p class="note" id={`${sheet.name}-keys`} tabIndex={-1} ref={after}>
        Click a cell twice, type, or press Enter to change it; Escape takes it back, and once more leaves the sheet.
        Arrows and Tab move, Shift selects, Ctrl C, V and Z copy, paste and undo.
        {canGrow(sheet.name)
          ? " Ctrl Enter adds a row, as does pasting past the last one; Ctrl Delete deletes the selected rows and brings them back."
          : ""}
      </p>
    </div>
  );
}

/** What is said of the cell the reader stands on. */
function ActiveFinding({ model }: { model: GridModel }) {
  const cell = model.at(model.active.value);
  const finding = cell === undefined ? undefined : model.finding(cell.row, cell.column);
  if (finding === undefined || cell === undefined) return null;
  return (
    <p class={finding.kind === "bad" ? "finding bad-finding" : "finding"}>
      <strong>{cell.info.label}:</strong> {finding.text}
    </p>
  );
}
