import { batch, computed, signal } from "@preact/signals";
import { counted } from "../../records/counted.ts";
import { type CellEdit, cellKey, type LiveColumn, type LiveSheet } from "../model/live-sheet.ts";
import {
  addedRowCount,
  asideReasons,
  cellText,
  change,
  changedTexts,
  current,
  deletedRows,
  picked,
  rowCount,
  said,
  typedText,
  workbook,
} from "../model/workbook.ts";
import type { CellFinding } from "./cell-finding.ts";
import { type RowView, rowsInView } from "./rows-in-view.ts";
import { shownCell } from "./shown-cell.ts";

/** The column in which a tray is set aside; it is not in the sheet. */
export const asideColumn: LiveColumn = {
  key: "set aside",
  label: "Set aside because",
  unit: "",
  isNumber: false,
  isExtra: true,
};

/** The place of a column's list of choices on the page: what separates words in an id is written otherwise. */
export const choicesId = (model: GridModel, { key }: LiveColumn): string =>
  `${model.sheet.name}-${encodeURIComponent(key)}-choices`;

/** A place in a grid as it is looked at: row -1 is the head. */
export interface Place {
  row: number;
  column: number;
}

/** How a cell was opened: with its text, or with what was typed over it. */
export interface Editing extends Place {
  text: string;
  isReplacing: boolean;
}

const filled = (sheet: LiveSheet, column: number): boolean => sheet.rows.some((cells) => cells[column] !== "");

/** One sheet as a grid: what is shown of it, where the reader stands, what is selected and being typed. */
export class GridModel {
  /** every column with its place in the sheet; the column for setting aside stands second and behind the sheet's own */
  readonly columns: { column: LiveColumn; at: number }[];
  readonly hidden = signal<ReadonlySet<number>>(new Set());
  readonly view = signal<RowView>({ sort: undefined, filters: new Map() });
  readonly isFiltering = signal(false);
  readonly active = signal<Place>({ row: 0, column: 0 });
  readonly anchor = signal<Place | undefined>(undefined);
  readonly editing = signal<Editing | undefined>(undefined);
  /** cells as they are shown, by their text */
  private readonly numbers = new Map<string, string>();
  private readonly texts = new Map<string, string>();
  /** set when focus has to follow the active cell */
  wantsFocus = false;

  readonly shownColumns = computed(() => this.columns.filter(({ at }) => !this.hidden.value.has(at)));
  readonly rows = computed((): number[] => {
    const own = this.sheet.rows.length;
    const rows = rowsInView(
      own,
      (row, column) => this.text(row, column),
      this.view.value,
      (column) => this.columns.find(({ at }) => at === column)?.column.isNumber ?? false,
    );
    const only = this.sheet.name === "trays" ? picked.value : undefined;
    const seen = only === undefined ? rows : rows.filter((row) => only.trays.has(this.sheet.rows[row]![0]!));
    // added rows stay in sight and in their order, so that none slips away while it is filled
    return [...seen, ...Array.from({ length: addedRowCount(this.sheet.name) }, (_, row) => own + row)];
  });

  constructor(readonly sheet: LiveSheet) {
    const own = sheet.columns.map((column, at) => ({ column, at }));
    this.columns = sheet.name === "trays" ? [own[0]!, { column: asideColumn, at: own.length }, ...own.slice(1)] : own;
    // what nobody filled in is put out of sight, and can be brought back
    this.hidden.value = new Set(
      own.filter(({ column, at }) => !column.fixed && !filled(sheet, at)).map(({ at }) => at),
    );
  }

  private isAside(column: number): boolean {
    return column === this.sheet.columns.length;
  }

  /** A cell's text by its place in the sheet. */
  text(row: number, column: number): string {
    if (this.isAside(column)) return asideReasons.value.get(this.nameOf(row)) ?? "";
    return cellText(this.sheet.name, row, column);
  }

  /** What a row is called: its first cell. */
  nameOf(row: number): string {
    return this.sheet.rows[row]?.[0] ?? cellText(this.sheet.name, row, 0);
  }

  isAdded(row: number): boolean {
    return row >= this.sheet.rows.length;
  }

  isDeleted(row: number): boolean {
    return deletedRows.value[this.sheet.name].has(row);
  }

  /** Why a cell cannot be changed here; undefined where it can. */
  fixedIn(row: number, { fixed }: LiveColumn): string | undefined {
    if (this.isDeleted(row)) return "the row is deleted; bring it back first";
    return this.isAdded(row) ? undefined : fixed;
  }

  /** What the saved book says in a cell. */
  savedText(row: number, column: number): string {
    return this.isAside(column) ? "" : (this.sheet.rows[row]?.[column] ?? "");
  }

  finding(row: number, column: number): CellFinding | undefined {
    const key = cellKey(this.sheet.name, row, column);
    return changedTexts[this.sheet.name].value.has(key) ? current.value.findings.get(key) : undefined;
  }

  shown(text: string, column: LiveColumn): string {
    if (text === "") return "";
    const known = column.isNumber ? this.numbers : this.texts;
    const before = known.get(text);
    if (before !== undefined) return before;
    const shown = shownCell(text, column, workbook().saved.book.settings);
    known.set(text, shown);
    return shown;
  }

  /** The cell at a place, as places in the sheet; undefined for the head and beyond the rows. */
  at({ row, column }: Place): { row: number; column: number; info: LiveColumn } | undefined {
    const [sheetRow, shown] = [this.rows.value[row], this.shownColumns.value[column]];
    return sheetRow === undefined || shown === undefined
      ? undefined
      : { row: sheetRow, column: shown.at, info: shown.column };
  }

  /** The block between anchor and active cell, ends included. */
  block(): { top: number; bottom: number; left: number; right: number } {
    const [a, b] = [this.active.value, this.anchor.value ?? this.active.value];
    return {
      top: Math.max(0, Math.min(a.row, b.row)),
      bottom: Math.max(a.row, b.row),
      left: Math.min(a.column, b.column),
      right: Math.max(a.column, b.column),
    };
  }

  /** Goes to a place, kept within the grid. */
  goTo({ row, column }: Place, isExtending = false): void {
    const before = this.active.value;
    batch(() => {
      this.anchor.value = isExtending ? (this.anchor.value ?? before) : undefined;
      this.active.value = {
        row: Math.min(Math.max(row, isExtending ? 0 : -1), this.rows.value.length - 1),
        column: Math.min(Math.max(column, 0), this.shownColumns.value.length - 1),
      };
      this.wantsFocus = true;
    });
  }

  /** Opens the active cell; typed text takes the place of what stands there. */
  open(typed?: string): void {
    const place = this.active.value;
    const cell = this.at(place);
    if (cell === undefined) return;
    const fixed = this.fixedIn(cell.row, cell.info);
    if (fixed !== undefined) {
      said.value = `Not changed here: ${fixed}.`;
      return;
    }
    const text = this.isAside(cell.column)
      ? this.text(cell.row, cell.column)
      : (typedText(this.sheet.name, cell.row, cell.column) ?? this.text(cell.row, cell.column));
    this.editing.value = { ...place, text: typed ?? text, isReplacing: typed !== undefined };
  }

  cancel(): void {
    this.editing.value = undefined;
    this.wantsFocus = true;
  }

  /** Takes what was typed and moves on. */
  commit(text: string, move: Place = { row: 0, column: 0 }): void {
    const place = this.editing.value;
    if (place === undefined) return;
    this.editing.value = undefined;
    this.write([{ place, text }]);
    this.goTo({ row: place.row + move.row, column: place.column + move.column });
  }

  /** Writes texts into places as one step, and says what became of the first. */
  write(texts: ReadonlyArray<{ place: Place; text: string }>, addedRows = 0): void {
    const { name } = this.sheet;
    const [count, inView] = [rowCount(name), this.rows.value.length];
    const cells: CellEdit[] = [];
    const aside: { tray: string; reason: string }[] = [];
    for (const { place, text } of texts) {
      const info = this.shownColumns.value[place.column];
      const row = this.rows.value[place.row] ?? count + place.row - inView;
      if (info === undefined || row >= count + addedRows || this.fixedIn(row, info.column) !== undefined) continue;
      if (text.trim() === this.text(row, info.at)) continue;
      if (!this.isAside(info.at)) cells.push({ sheet: name, row, column: info.at, text: text.trim() });
      else if (this.nameOf(row) !== "") aside.push({ tray: this.nameOf(row), reason: text });
    }
    if (cells.length + aside.length + addedRows === 0) return;
    const [first] = texts;
    const target = first === undefined ? undefined : this.at(first.place);
    change(cells, aside, addedRows === 0 ? undefined : { sheet: name, rows: addedRows });
    const changed = cells.length + aside.length;
    const more = addedRows === 0 ? "" : ` ${counted(addedRows, "row")} added.`;
    said.value =
      changed > 1 || target === undefined
        ? `${changed} cells changed.${more}`
        : this.sayChange(target.row, target.column, target.info);
  }

  private sayChange(row: number, column: number, info: LiveColumn): string {
    const finding = this.finding(row, column);
    const name = `${info.label}, ${this.nameOf(row) || "new row"}`;
    if (finding?.kind === "bad") return `${name}: ${finding.text}`;
    return `${name}: now ${this.text(row, column) || "empty"}, was ${this.savedText(row, column) || "empty"}.`;
  }

  /** Sorts by a column: upwards, downwards, as in the sheet. */
  sortBy(at: number): void {
    const { sort, filters } = this.view.value;
    const next =
      sort?.column !== at ? { column: at, isDown: false } : sort.isDown ? undefined : { column: at, isDown: true };
    this.view.value = { sort: next, filters };
    const label = this.columns.find((one) => one.at === at)!.column.label;
    said.value =
      next === undefined
        ? "In the order of the sheet."
        : `Sorted by ${label}, ${next.isDown ? "largest" : "smallest"} first.`;
  }

  filterBy(at: number, wanted: string): void {
    const filters = new Map(this.view.value.filters);
    if (wanted.trim() === "") filters.delete(at);
    else filters.set(at, wanted);
    this.view.value = { ...this.view.value, filters };
    said.value = `${this.rows.value.length} of ${rowCount(this.sheet.name)} rows.`;
  }

  /** Goes to a cell by its place in the sheet, bringing it into view. */
  find(row: number, column: number): void {
    batch(() => {
      if (this.hidden.value.has(column))
        this.hidden.value = new Set([...this.hidden.value].filter((at) => at !== column));
      if (!this.rows.value.includes(row)) {
        this.view.value = { sort: this.view.value.sort, filters: new Map() };
        if (this.sheet.name === "trays") picked.value = undefined;
      }
      this.goTo({
        row: this.rows.value.indexOf(row),
        column: this.shownColumns.value.findIndex(({ at }) => at === column),
      });
    });
  }
}
