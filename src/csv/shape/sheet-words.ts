import type { SheetLayout } from "../../records/reading-plan.ts";
import type { ListRole } from "../../records/sheet.ts";

/**
 * What a column of a known name tells, as far as the shape of a sheet depends on it: the tray's name; something set before
 * the harvest (cook, dose, strain, a date of setting up); a result (weight, outcome, date of harvest); the flush's number.
 */
export type ColumnSort = "tray" | "set" | "result" | "flush" | "note";

/** What the reader of shapes knows of the trade's words. It is handed in, so that this room knows no field. */
export interface SheetWords {
  /** how much of a row's cells are known names of columns, 0 to 1 */
  looksLikeHeader(cells: string[]): number;
  /** whether a header is that of a list of no trays, such as costs or settings: it is read as it stands */
  isOtherList(names: ReadonlyArray<string>): boolean;
  /** for a title over things and their prices, such as "Costs": what the list is for, and names for its columns */
  listUnder(title: string): { role: ListRole; names: ReadonlyArray<string> } | undefined;
  /**
   * what a column of that name tells; undefined where nobody is known to write it
   * @param asWritten without putting right what may be a misspelling
   */
  columnSort(name: string, asWritten?: boolean): ColumnSort | undefined;
  /** the name of the column for the day on which a thing was weighed or done: of a fresh weight the day of harvest */
  dateOf(name: string): string | undefined;
  /** whether a header is of names this program itself writes, all of them: such a sheet leaves no cell to the one above */
  isTidy(names: ReadonlyArray<string>): boolean;
  /** the mass unit a header states, and what is left of it: "Fresh lb" is Fresh and lb */
  massUnit(name: string): { name: string; unit: string } | undefined;
  /** the name of the column of doses in a unit of volume: "Dose (mL)"; undefined for any other unit */
  doseName(unit: string): string | undefined;
  /** whether a name speaks of a price or a cost, as no column of trays does */
  isMoney(name: string): boolean;
  /** whether a text is nothing but a unit of a weight, volume or temperature */
  isUnit(text: string): boolean;
}

/** What a book's settings say of the shape of its sheets; "" leaves it to the sheet. */
export interface ShapeSettings {
  layout: "" | SheetLayout;
  tables: "" | "several" | "one";
  sectionTitles: "" | "use" | "ignore";
  fillDown: "" | "yes" | "no";
  summaryRows: "" | "leave out" | "keep";
  joinedCells: "" | "use" | "ignore";
}

/** Everything left to the sheet. */
export const openShape: ShapeSettings = {
  layout: "",
  tables: "",
  sectionTitles: "",
  fillDown: "",
  summaryRows: "",
  joinedCells: "",
};
