import { batch, computed, signal } from "@preact/signals";
import type { Trial } from "../../analysis.ts";
import { trialOf } from "../../engine/trial-of.ts";
import { Memo } from "../../records/memo.ts";
import { readBookData } from "./book-data.ts";
import { type EditedBook, editedBook, mostCleaned } from "./edited-book.ts";
import { type FiguresNow, figuresNow } from "./figures-now.ts";
import { type CellEdit, cellKey, type Edits, isAnyEdit, noEdits, type RowPlace, type SheetName } from "./live-sheet.ts";
import { type SavedBook, savedBook } from "./saved-book.ts";

/** The report's book while it is being changed: one place for all that is shown of it. */
export interface Workbook {
  saved: SavedBook;
  figures: FiguresNow;
  /** keeps sheets cleaned before */
  cleaned: Memo;
}

const opened = signal<Workbook | undefined>(undefined);

/** The saved book. @throws Error before it was opened */
export function workbook(): Workbook {
  if (opened.value === undefined) throw new Error("workbook: no book was opened");
  return opened.value;
}

export const edits = signal<Edits>(noEdits);
const past = signal<ReadonlyArray<Edits>>([]);
const future = signal<ReadonlyArray<Edits>>([]);
/** said to screen readers */
export const said = signal("");
/** trays a chart asked to see, with why; only these are shown in the tray sheet */
export const picked = signal<{ trays: ReadonlySet<string>; what: string } | undefined>(undefined);

export const canUndo = computed(() => past.value.length > 0);
export const canRedo = computed(() => future.value.length > 0);
export const isChanged = computed(() => isAnyEdit(edits.value));

/** Opens the book that stands in the page. */
export function openWorkbook(data: string): void {
  const saved = savedBook(readBookData(data));
  opened.value = { saved, figures: figuresNow(saved.book), cleaned: new Memo(mostCleaned) };
}

/** The book with its changes, and what is said of them. */
export const current = computed((): EditedBook => editedBook(workbook().saved, edits.value, workbook().cleaned));
/** The same as questions see it; what they work out from it is kept with it. */
export const trial = computed((): Trial => trialOf(current.value.book));
export const figures = computed(
  (): FiguresNow => (isChanged.value ? figuresNow(current.value.book, trial.value) : workbook().figures),
);

/** Works out an edit that changes nothing and throws it away: the browser has made the work quick when a real one comes. */
export function rehearse(): void {
  const { saved } = workbook();
  const cells = (["costs", "products", "trays"] as const).flatMap((sheet): CellEdit[] => {
    const text = saved.sheets[sheet]?.rows[0]?.[0];
    return text === undefined ? [] : [{ sheet, row: 0, column: 0, text }];
  });
  figuresNow(editedBook(saved, { ...noEdits, cells }, new Memo()).book);
}

const noTexts: ReadonlyMap<string, string> = new Map();

/** Changed cells of one sheet by `cellKey`; the same map while nothing in that sheet is changed. */
const textsOf = (name: SheetName) => {
  let before = { edits: "", texts: noTexts };
  return computed((): ReadonlyMap<string, string> => {
    const own = edits.value.cells.filter(({ sheet }) => sheet === name);
    const now = JSON.stringify(own);
    if (now !== before.edits) {
      const texts = own.map(({ row, column, text }) => [cellKey(name, row, column), text] as const);
      before = { edits: now, texts: texts.length === 0 ? noTexts : new Map(texts) };
    }
    return before.texts;
  });
};
export const changedTexts = {
  costs: textsOf("costs"),
  products: textsOf("products"),
  settings: textsOf("settings"),
  trays: textsOf("trays"),
};

const asideNow = computed(() => edits.value.aside);
/** The reasons of trays set aside, by tray. */
export const asideReasons = computed(() => new Map(asideNow.value.map(({ tray, reason }) => [tray, reason])));

/** What a cell of a saved sheet says now: as it would be written where it could be read, otherwise as typed. */
export function cellText(sheet: SheetName, row: number, column: number): string {
  const key = cellKey(sheet, row, column);
  const typed = changedTexts[sheet].value.get(key);
  if (typed === undefined) return workbook().saved.sheets[sheet]?.rows[row]?.[column] ?? "";
  return current.value.written.get(key) ?? typed;
}

/** What was typed into a cell, as it was typed. */
export const typedText = (sheet: SheetName, row: number, column: number): string | undefined =>
  changedTexts[sheet].value.get(cellKey(sheet, row, column));

function step(next: Edits): void {
  batch(() => {
    past.value = [...past.value, edits.value].slice(-200);
    future.value = [];
    edits.value = next;
  });
}

const addedNow = computed(() => edits.value.added);
const deletedNow = computed(() => edits.value.deleted);
/** Deleted rows by sheet. */
export const deletedRows = computed(() => {
  const rows: Record<SheetName, Set<number>> = {
    costs: new Set(),
    products: new Set(),
    settings: new Set(),
    trays: new Set(),
  };
  for (const { sheet, row } of deletedNow.value) rows[sheet].add(row);
  return rows;
});

/** Rows of a sheet as it stands in the saved book; added ones come behind them. */
export const savedRowCount = (sheet: SheetName): number => workbook().saved.sheets[sheet]?.rows.length ?? 0;
export const addedRowCount = (sheet: SheetName): number => addedNow.value[sheet] ?? 0;
export const rowCount = (sheet: SheetName): number => savedRowCount(sheet) + addedRowCount(sheet);

/** Deletes rows or brings them back, as one step that can be undone. */
export function deleteRows(sheet: SheetName, rows: ReadonlyArray<number>, isGone: boolean): void {
  const others = edits.value.deleted.filter((place) => place.sheet !== sheet || !rows.includes(place.row));
  const deleted: ReadonlyArray<RowPlace> = isGone ? [...others, ...rows.map((row) => ({ sheet, row }))] : others;
  step({ ...edits.value, deleted });
}

/** Changes of cells, of trays set aside (an empty reason takes one back) and rows added, as one step that can be undone. */
export function change(
  cells: ReadonlyArray<CellEdit>,
  aside: ReadonlyArray<{ tray: string; reason: string }> = [],
  added?: { sheet: SheetName; rows: number },
): void {
  const now = new Map(edits.value.cells.map((cell) => [cellKey(cell.sheet, cell.row, cell.column), cell]));
  const { sheets } = workbook().saved;
  for (const cell of cells) {
    const key = cellKey(cell.sheet, cell.row, cell.column);
    // what the saved book says is no change
    if ((sheets[cell.sheet]?.rows[cell.row]?.[cell.column] ?? "") === cell.text.trim()) now.delete(key);
    else now.set(key, cell);
  }
  const reasons = new Map(asideReasons.value);
  for (const { tray, reason } of aside) {
    if (reason.trim() === "") reasons.delete(tray);
    else reasons.set(tray, reason.trim());
  }
  const isSame = aside.length === 0;
  step({
    cells: [...now.values()],
    aside: isSame ? edits.value.aside : [...reasons].map(([tray, reason]) => ({ tray, reason })),
    added:
      added === undefined
        ? edits.value.added
        : { ...edits.value.added, [added.sheet]: addedRowCount(added.sheet) + added.rows },
    deleted: edits.value.deleted,
  });
}

/** Takes the last step back. */
export function undo(): void {
  const before = past.value.at(-1);
  if (before === undefined) return;
  batch(() => {
    future.value = [...future.value, edits.value];
    past.value = past.value.slice(0, -1);
    edits.value = before;
    said.value = "Undone.";
  });
}

/** Takes the last undone step again. */
export function redo(): void {
  const after = future.value.at(-1);
  if (after === undefined) return;
  batch(() => {
    past.value = [...past.value, edits.value];
    future.value = future.value.slice(0, -1);
    edits.value = after;
    said.value = "Done again.";
  });
}

/** Back to the saved book; a step like any other, so that it can be undone. */
export function backToSaved(): void {
  step(noEdits);
  said.value = "Back to the saved book. Undo brings your changes back.";
}

/** Takes up changes kept from an earlier visit. */
export function resume(kept: Edits): void {
  edits.value = kept;
}
