import { counted } from "../../records/counted.ts";
import { visibleText } from "../../report/visible-text.ts";
import { canGrow } from "../model/live-sheet.ts";
import { addedRowCount, changedTexts, deletedRows, picked, rowCount } from "../model/workbook.ts";
import type { GridModel } from "./grid-model.ts";
import { addRow, selectedRows, toggleDeleted } from "./grid-row-edits.ts";

/** Which columns are in sight. */
function ColumnChoice({ model }: { model: GridModel }) {
  const { hidden } = model;
  const toggle = (at: number, isShown: boolean) => {
    const next = new Set(hidden.value);
    if (isShown) next.delete(at);
    else next.add(at);
    hidden.value = next;
  };
  return (
    <details class="column-choice">
      <summary>Columns{hidden.value.size > 0 ? ` (${hidden.value.size} hidden)` : ""}</summary>
      <ul>
        {model.columns.slice(1).map(({ column: { label }, at }) => (
          <li key={at}>
            <label>
              <input
                type="checkbox"
                checked={!hidden.value.has(at)}
                onChange={(event) => toggle(at, event.currentTarget.checked)}
              />{" "}
              {visibleText(label, 60)}
            </label>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Cells of this sheet that could not be used, each one click away. */
function BadCells({ model }: { model: GridModel }) {
  const { name } = model.sheet;
  const cells = [...changedTexts[name].value.keys()].map(
    (key) => key.split("/").slice(1).map(Number) as [number, number],
  );
  const bad = cells
    .filter(([row, column]) => model.finding(row, column)?.kind === "bad")
    .map(([row, column]) => ({ row, column }));
  if (bad.length === 0) return null;
  return (
    <ul class="bad-cells" aria-label="Cells to look at">
      {bad.slice(0, 8).map(({ row, column }) => (
        <li key={`${row}/${column}`}>
          <button type="button" onClick={() => model.find(row, column)}>
            {visibleText(model.nameOf(row) || "new row", 40)}, {visibleText(model.sheet.columns[column]!.label, 40)}
          </button>{" "}
          {model.finding(row, column)!.text}
        </li>
      ))}
      {bad.length > 8 ? <li>and {bad.length - 8} more</li> : null}
    </ul>
  );
}

/** Adds a row, and deletes the selected ones or brings them back. */
function RowButtons({ model }: { model: GridModel }) {
  const { rows, areDeleted } = selectedRows(model);
  const what = rows.length === 1 ? "row" : `${rows.length} rows`;
  return (
    <>
      <button type="button" onClick={() => addRow(model)}>
        Add row
      </button>
      <button type="button" disabled={rows.length === 0} onClick={() => toggleDeleted(model)}>
        {areDeleted ? `Bring back ${what}` : `Delete ${what}`}
      </button>
    </>
  );
}

/** Above a grid: its name, how many rows are shown, filters and columns. */
export function GridTools({ model }: { model: GridModel }) {
  const { sheet, view } = model;
  const shown = model.rows.value.length;
  const only = sheet.name === "trays" ? picked.value : undefined;
  const isNarrowed = view.value.filters.size > 0 || only !== undefined;
  const [count, added] = [rowCount(sheet.name), addedRowCount(sheet.name)];
  const deleted = deletedRows.value[sheet.name].size;
  const asOf = changedTexts[sheet.name].value.size;
  return (
    <div class="grid-tools">
      <h3 class="grid-title">{sheet.title}</h3>
      <span class="grid-count">
        {shown === count ? `${shown} rows` : `${shown} of ${count} rows`}
        {only === undefined ? "" : `: ${visibleText(only.what, 80)}`}
        {asOf === 0 ? "" : `, ${counted(asOf, "cell")} changed`}
        {added === 0 ? "" : `, ${added} added`}
        {deleted === 0 ? "" : `, ${deleted} deleted`}
      </span>
      {canGrow(sheet.name) ? <RowButtons model={model} /> : null}
      <button
        type="button"
        aria-pressed={model.isFiltering.value}
        onClick={() => {
          model.isFiltering.value = !model.isFiltering.value;
          if (!model.isFiltering.value) view.value = { sort: view.value.sort, filters: new Map() };
        }}
      >
        Filter
      </button>
      {isNarrowed ? (
        <button
          type="button"
          onClick={() => {
            view.value = { sort: view.value.sort, filters: new Map() };
            model.isFiltering.value = false;
            if (only !== undefined) picked.value = undefined;
          }}
        >
          Show all rows
        </button>
      ) : null}
      <ColumnChoice model={model} />
      {asOf > 0 ? <BadCells model={model} /> : null}
    </div>
  );
}
