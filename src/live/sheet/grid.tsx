// biome-ignore-all lint/a11y/useSemanticElements: a table of the browser's own needs every row in the page
// biome-ignore-all lint/a11y/useFocusableInteractive: the cells take the focus, one at a time
// biome-ignore-all lint/a11y/useAriaPropsSupportedByRole: the role of a cell is rowheader or gridcell, and both have them
import { useSignal } from "@preact/signals";
import { useEffect, useLayoutEffect, useMemo, useRef } from "preact/hooks";
import { visibleText } from "../../report/visible-text.ts";
import { canGrow, type LiveColumn, type SheetName } from "../model/live-sheet.ts";
import { asideReasons, changedTexts } from "../model/workbook.ts";
import { focusActiveCell } from "./focus-active-cell.ts";
import { copyBlock, pasteBlock } from "./grid-block-edits.ts";
import { handleGridKey } from "./grid-keys.ts";
import { choicesId, type GridModel } from "./grid-model.ts";
import { gridPointer } from "./grid-pointer.ts";
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

/** The part of a grid's box that is in sight, in pixels, and the height of its letters; `measure` looks again. */
function useBoxInSight(box: { current: HTMLDivElement | null }) {
  const scrolled = useSignal({ top: 0, height: 400 });
  const rem = useSignal(16);
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
  return { ...scrolled.value, rem: rem.value, measure };
}

/** The widths of the columns in sight, as a style. */
function useColumnTemplate(model: GridModel): string {
  const own = useMemo(
    () => model.shownColumns.value.map(({ column, at }) => ownWidth(model, column, at)),
    [model.shownColumns.value],
  );
  return widths(model, own)
    .map((letters, index) => (index === 0 ? `min(${letters}ch, 42vw)` : `${letters}ch`))
    .join(" ");
}

/** Places of the rows to draw, in order. */
function rowsToDraw(model: GridModel, { top, height }: { top: number; height: number }, rowHeight: number): number[] {
  const count = model.rows.value.length;
  const { row: active } = model.active.value;
  const first = Math.max(0, Math.floor(top / rowHeight) - beyond);
  const last = Math.min(count - 1, Math.ceil((top + height) / rowHeight) + beyond);
  const drawn = new Set<number>();
  for (let index = first; index <= last; index++) drawn.add(index);
  // the cell with the focus stays in the page even when it is scrolled out of sight
  if (active >= 0 && active < count) drawn.add(active);
  return [...drawn].sort((a, b) => a - b);
}

/** What may be chosen in a column, for the browser to offer. */
function Choices({ model }: { model: GridModel }) {
  return model.columns.map(({ column }) =>
    column.choices === undefined ? null : (
      <datalist key={column.key} id={choicesId(model, column)}>
        {column.choices.map((choice) => (
          <option key={choice} value={choice} />
        ))}
      </datalist>
    ),
  );
}

/** A sheet whose cells can be changed. Only rows in sight are in the page, whatever the length of the sheet. */
export function Grid({ model }: { model: GridModel }) {
  const box = useRef<HTMLDivElement>(null);
  const after = useRef<HTMLParagraphElement>(null);
  const drag = useRef(false);
  const { sheet } = model;
  const rows = model.rows.value;
  const inSight = useBoxInSight(box);
  const heights = {
    row: Math.round(inSight.rem * 1.75),
    head: Math.round(inSight.rem * (model.isFiltering.value ? 4.6 : 2.6)),
  };
  const template = useColumnTemplate(model);
  // read while drawing, so that the grid is drawn again, and its cell given the focus, once typing ends
  const isTyping = model.editing.value !== undefined;
  useLayoutEffect(() => focusActiveCell(model, box.current, heights, isTyping));
  const page = Math.max(1, Math.floor((inSight.height - heights.head) / heights.row) - 1);
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
        style={{ "--columns": template, "--head-height": `${heights.head}px` }}
        onScroll={inSight.measure}
        onKeyDown={(event) => {
          if (event.target instanceof HTMLInputElement) return;
          handleGridKey(event, model, page, () => after.current?.focus());
        }}
        {...clipboard(model)}
        {...gridPointer(model, box, drag)}
      >
        <div class="grid-canvas" role="rowgroup" style={{ height: `${heights.head + rows.length * heights.row}px` }}>
          <Head model={model} />
          {rowsToDraw(model, inSight, heights.row).map((index) => {
            const place = { index, top: heights.head + index * heights.row, height: heights.row };
            return <GridRow key={rows[index]} model={model} row={rows[index]!} {...place} />;
          })}
        </div>
      </div>
      <Choices model={model} />
      <ActiveFinding model={model} />
      <p class="note" id={`${sheet.name}-keys`} tabIndex={-1} ref={after}>
        {keysNote(sheet.name)}
      </p>
    </div>
  );
}

const clipboard = (model: GridModel) => ({
  onCopy: (event: ClipboardEvent): void => {
    event.preventDefault();
    event.clipboardData?.setData("text/plain", copyBlock(model));
  },
  onPaste: (event: ClipboardEvent): void => {
    event.preventDefault();
    pasteBlock(model, event.clipboardData?.getData("text/plain") ?? "");
  },
});

const keysNote = (sheet: SheetName): string =>
  `Click a cell twice, type, or press Enter to change it; Escape takes it back, and once more leaves the sheet. Arrows and Tab move, Shift selects, Ctrl C, V and Z copy, paste and undo.${
    canGrow(sheet)
      ? " Ctrl Enter adds a row, as does pasting past the last one; Ctrl Delete deletes the selected rows and brings them back."
      : ""
  }`;

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
