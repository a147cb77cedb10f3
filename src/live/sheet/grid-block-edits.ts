import { batch } from "@preact/signals";
import { counted } from "../../records/counted.ts";
import { canGrow, mostAddedRows } from "../model/live-sheet.ts";
import { addedRowCount, said } from "../model/workbook.ts";
import { blockText, cellsOfBlock } from "./block-text.ts";
import type { GridModel, Place } from "./grid-model.ts";

/** The selected block as text for the clipboard. */
export function copyBlock(model: GridModel): string {
  const { top, bottom, left, right } = model.block();
  const rows = model.rows.value.slice(top, bottom + 1);
  const columns = model.shownColumns.value.slice(left, right + 1);
  said.value = `${counted(rows.length * columns.length, "cell")} copied.`;
  return blockText(rows.map((row) => columns.map(({ at }) => model.text(row, at))));
}

/** Puts a block of text in from the top left of the selection; one cell fills the whole selection. */
export function pasteBlock(model: GridModel, text: string): void {
  const cells = cellsOfBlock(text);
  const { top, bottom, left, right } = model.block();
  const isOne = cells.length === 1 && cells[0]!.length === 1;
  const height = isOne ? bottom - top + 1 : cells.length;
  const width = isOne ? right - left + 1 : Math.max(0, ...cells.map((row) => row.length));
  const texts = Array.from({ length: height }, (_, row) =>
    Array.from({ length: width }, (_, column) => ({
      place: { row: top + row, column: left + column },
      text: isOne ? cells[0]![0]! : cells[row]![column],
    })),
  )
    .flat()
    .filter((one): one is { place: Place; text: string } => one.text !== undefined);
  const beyond = top + height - model.rows.value.length;
  const room = canGrow(model.sheet.name) ? mostAddedRows - addedRowCount(model.sheet.name) : 0;
  model.write(texts, Math.max(0, Math.min(beyond, room)));
  if (beyond > room) said.value += ` ${counted(beyond - room, "row")} of the block did not fit and were left.`;
  batch(() => {
    model.goTo({ row: top, column: left });
    model.goTo({ row: top + height - 1, column: left + width - 1 }, true);
  });
}

/** Empties the selected cells. */
export function clearBlock(model: GridModel): void {
  const { top, bottom, left, right } = model.block();
  const texts: { place: Place; text: string }[] = [];
  for (let row = top; row <= bottom; row++)
    for (let column = left; column <= right; column++) texts.push({ place: { row, column }, text: "" });
  model.write(texts);
}
