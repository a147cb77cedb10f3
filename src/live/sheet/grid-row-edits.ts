import { counted } from "../../records/counted.ts";
import { canGrow, mostAddedRows } from "../model/live-sheet.ts";
import { addedRowCount, change, deleteRows, said } from "../model/workbook.ts";
import type { GridModel } from "./grid-model.ts";

/** Puts an empty row behind the last one and goes to its name. */
export function addRow(model: GridModel): void {
  const { name } = model.sheet;
  if (!canGrow(name) || addedRowCount(name) >= mostAddedRows) {
    said.value = canGrow(name) ? `No more than ${mostAddedRows} rows can be added here.` : "Settings are a fixed list.";
    return;
  }
  change([], [], { sheet: name, rows: 1 });
  said.value = "Row added as the last one. It counts once something stands in it.";
  model.goTo({ row: model.rows.value.length - 1, column: 0 });
}

/** The selected rows by their place in the sheet, and whether all of them are deleted already. */
export function selectedRows(model: GridModel): { rows: number[]; areDeleted: boolean } {
  const { top, bottom } = model.block();
  const rows = model.active.value.row < 0 ? [] : model.rows.value.slice(top, bottom + 1);
  return { rows, areDeleted: rows.length > 0 && rows.every((row) => model.isDeleted(row)) };
}

/** Deletes the selected rows, or brings them back where all of them are deleted. They stay in sight, struck through. */
export function toggleDeleted(model: GridModel): void {
  const { rows, areDeleted } = selectedRows(model);
  if (rows.length === 0) return;
  if (!canGrow(model.sheet.name)) {
    said.value = "Settings are a fixed list.";
    return;
  }
  deleteRows(model.sheet.name, rows, !areDeleted);
  const isLoss = model.sheet.name === "trays" && !areDeleted;
  said.value = `${counted(rows.length, "row")} ${areDeleted ? "brought back" : "deleted: struck through here, left out of the saved sheet"}.${
    isLoss ? " A tray that was lost belongs in the sheet with its outcome: a deleted loss flatters the rest." : ""
  }`;
}
