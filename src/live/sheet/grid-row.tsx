// biome-ignore-all lint/a11y/useSemanticElements: a table of the browser's own needs every row in the page
// biome-ignore-all lint/a11y/useFocusableInteractive: the cells take the focus, one at a time
// biome-ignore-all lint/a11y/useAriaPropsSupportedByRole: the role of a cell is rowheader or gridcell, and both have them
import { memo } from "preact/compat";
import { useLayoutEffect, useRef } from "preact/hooks";
import { visibleText } from "../../report/visible-text.ts";
import type { LiveColumn } from "../model/live-sheet.ts";
import { asideReasons } from "../model/workbook.ts";
import { handleEditorKey } from "./grid-keys.ts";
import { asideColumn, choicesId, type GridModel } from "./grid-model.ts";

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
  /** said before the name of a row that was added or deleted; "" for others */
  mark: string;
  isFixed: boolean;
  column: number;
}

/** One cell at rest: what it says, what it said before, and whether it could be used. */
const Cell = memo(function Cell(props: CellProps) {
  const { text, was, isChanged, isBad, finding, info, isActive, isSelected, isName, mark, isFixed, column } = props;
  const look = [
    info.isNumber ? "number" : "",
    isChanged ? "changed" : "",
    isBad ? "bad" : "",
    isSelected ? "selected" : "",
    isFixed ? "fixed-cell" : "",
  ];
  return (
    <div
      role={isName ? "rowheader" : "gridcell"}
      class={look.filter((part) => part !== "").join(" ") || undefined}
      aria-colindex={column + 1}
      aria-selected={isSelected || isActive ? "true" : undefined}
      aria-readonly={isFixed ? "true" : undefined}
      aria-invalid={isBad ? "true" : undefined}
      title={finding || (isFixed ? text : undefined) || undefined}
      tabIndex={isActive ? 0 : -1}
      data-column={column}
    >
      {isBad ? (
        <span class="mark" aria-hidden="true">
          !
        </span>
      ) : null}
      {mark === "" ? null : (
        <>
          <span class="row-mark">{mark}</span>{" "}
        </>
      )}
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
  // a date that is typed over, or is none, is typed as a text
  const isDate = info.isDate === true && !editing.isReplacing && /^(?:\d{4}-\d{2}-\d{2})?$/.test(editing.text);
  useLayoutEffect(() => {
    const input = field.current!;
    input.focus();
    if (isDate) return;
    if (editing.isReplacing) input.setSelectionRange(input.value.length, input.value.length);
    else input.select();
  }, []);
  return (
    <input
      ref={field}
      type={isDate ? "date" : "text"}
      class="cell-field"
      aria-label={label}
      autocomplete="off"
      spellcheck={false}
      defaultValue={editing.text}
      list={info.choices === undefined ? undefined : choicesId(model, info)}
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

function rowLook(model: GridModel, row: number): string {
  const isAside = model.sheet.name === "trays" && asideReasons.value.has(model.nameOf(row));
  const marks = { aside: isAside, added: model.isAdded(row), deleted: model.isDeleted(row) };
  return ["grid-row", ...Object.entries(marks).flatMap(([mark, is]) => (is ? [mark] : []))].join(" ");
}

/** One row in sight. */
export function GridRow({
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
  const name = visibleText(model.nameOf(row), 60);
  const [isAdded, isDeleted] = [model.isAdded(row), model.isDeleted(row)];
  return (
    <div
      role="row"
      class={rowLook(model, row)}
      aria-rowindex={index + 2}
      style={{ top: `${top}px`, height: `${height}px` }}
      data-row={index}
    >
      {model.shownColumns.value.map(({ column: info, at }, column) => {
        const isActive = active.row === index && active.column === column;
        if (editing !== undefined && editing.row === index && editing.column === column) {
          return (
            <div role="gridcell" class="open" key={at} aria-colindex={column + 1} data-column={column}>
              <Editor model={model} label={`${info.label}, ${name || "new row"}`} info={info} />
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
            isChanged={text !== was && !isAdded}
            isBad={finding?.kind === "bad"}
            finding={finding?.text ?? ""}
            info={info}
            isActive={isActive}
            isSelected={hasBlock && index >= first && index <= bottom && column >= left && column <= right}
            isName={column === 0}
            mark={column !== 0 ? "" : isDeleted ? "deleted" : isAdded ? "new" : ""}
            isFixed={model.fixedIn(row, info) !== undefined}
            column={column}
          />
        );
      })}
    </div>
  );
}
