// biome-ignore-all lint/a11y/useSemanticElements: a table of the browser's own needs every row in the page
// biome-ignore-all lint/a11y/useFocusableInteractive: the cells take the focus, one at a time
// biome-ignore-all lint/a11y/useAriaPropsSupportedByRole: the role of a cell is rowheader or gridcell, and both have them
import { useSignal } from "@preact/signals";
import { memo } from "preact/compat";
import { useEffect, useLayoutEffect, useMemo, useRef } from "preact/hooks";
import { visibleText } from "../../report/visible-text.ts";
import { handleEditorKey, handleGridKey } from "./grid-keys.ts";
import { asideColumn, type GridModel } from "./grid-model.ts";
import { GridTools } from "./grid-tools.tsx";
import type { LiveColumn } from "./live-sheet.ts";
import { asideReasons, changedTexts } from "./workbook.ts";

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

interface CellProps {
  text: string;
  was: string;
  isChanged: boolean;
  isBad: boolean;
  finding: string;
  info: LiveColumn;
  isActive: boolean;
  isSelected: boolean;
  isName: boolean;
  column: number;
}

/** One cell at rest: what it says, what it said before, and whether it could be used. */
const Cell = memo(function Cell(props: CellProps) {
  const { text, was, isChanged, isBad, finding, info, isActive, isSelected, isName, column } = props;
  const look = [
    info.isNumber ? "number" : "",
    isChanged ? "changed" : "",
    isBad ? "bad" : "",
    isSelected ? "selected" : "",
    info.fixed === undefined ? "" : "fixed-cell",
  ];
  return (
    <div
      role={isName ? "rowheader" : "gridcell"}
      class={look.filter((part) => part !== "").join(" ") || undefined}
      aria-colindex={column + 1}
      aria-selected={isSelected || isActive ? "true" : undefined}
      aria-readonly={info.fixed === undefined ? undefined : "true"}
      aria-invalid={isBad ? "true" : undefined}
      title={finding || undefined}
      tabIndex={isActive ? 0 : -1}
      data-column={column}
    >
      {isBad ? (
        <span class="mark" aria-hidden="true">
          !
        </span>
      ) : null}
      {isChanged ? <>{info.key === asideColumn.key ? null : <s>{was === "" ? "empty" : was}</s>} </> : null}
      {text}
      {isChanged && text === "" ? "empty" : ""}
    </div>
  );
});

/** The field in which a cell is typed. */
function Editor({ model, label, info }: { model: GridModel; label: string; info: LiveColumn }) {
  const field = useRef<HTMLInputElement>(null);
  const isDone = useRef(false);
  const editing = model.editing.value!;
  useLayoutEffect(() => {
    const input = field.current!;
    input.focus();
    if (editing.isReplacing) input.setSelectionRange(input.value.length, input.value.length);
    else input.select();
  }, []);
  return (
    <input
      ref={field}
      type="text"
      class="cell-field"
      aria-label={label}
      autocomplete="off"
      spellcheck={false}
      defaultValue={editing.text}
      list={info.choices === undefined ? undefined : `${model.sheet.name}-${info.key}-choices`}
      onKeyDown={(event) => {
        handleEditorKey(event, model, event.currentTarget.value);
        if (model.editing.value === undefined) isDone.current = true;
      }}
      onCopy={(event) => event.stopPropagation()}
      onPaste={(event) => event.stopPropagation()}
      onBlur={(event) => {
        if (!isDone.current && model.editing.value !== undefined) {
          model.commit(event.currentTarget.value);
          model.wantsFocus = false;
        }
      }}
    />
  );
}

function Row({
  model,
  row,
  index,
  top,
  height,
}: {
  model: GridModel;
  row: number;
  index: number;
  top: number;
  height: number;
}) {
  const active = model.active.value;
  const { top: first, bottom, left, right } = model.block();
  const hasBlock = model.anchor.value !== undefined;
  const editing = model.editing.value;
  const isAside = model.sheet.name === "trays" && asideReasons.value.has(model.sheet.rows[row]![0]!);
  const name = visibleText(model.sheet.rows[row]![0] ?? "", 60);
  return (
    <div
      role="row"
      class={isAside ? "grid-row aside" : "grid-row"}
      aria-rowindex={index + 2}
      style={{ top: `${top}px`, height: `${height}px` }}
      data-row={index}
    >
      {model.shownColumns.value.map(({ column: info, at }, column) => {
        const isActive = active.row === index && active.column === column;
        if (editing !== undefined && editing.row === index && editing.column === column) {
          return (
            <div role="gridcell" class="open" key={at} aria-colindex={column + 1} data-column={column}>
              <Editor model={model} label={`${info.label}, ${name}`} info={info} />
            </div>
          );
        }
        const [text, was] = [model.text(row, at), model.savedText(row, at)];
        const finding = model.finding(row, at);
        return (
          <Cell
            key={at}
            text={model.shown(text, info)}
            was={model.shown(was, info)}
            isChanged={text !== was}
            isBad={finding?.kind === "bad"}
            finding={finding?.text ?? ""}
            info={info}
            isActive={isActive}
            isSelected={hasBlock && index >= first && index <= bottom && column >= left && column <= right}
            isName={column === 0}
            column={column}
          />
        );
      })}
    </div>
  );
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
      if (cell.offsetLeft - fixed < element.scrollLeft) element.scrollLeft = cell.offsetLeft - fixed;
      const end = cell.offsetLeft + cell.offsetWidth - element.clientWidth;
      if (end > element.scrollLeft) element.scrollLeft = end;
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
          event.clipboardData?.setData("text/plain", model.copy());
        }}
        onPaste={(event) => {
          event.preventDefault();
          model.paste(event.clipboardData?.getData("text/plain") ?? "");
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
              <Row
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
