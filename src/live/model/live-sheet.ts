/** The sheets of a book whose cells can be changed in the report. */
export type SheetName = "costs" | "products" | "settings" | "trays";

export const sheetNames: ReadonlyArray<SheetName> = ["costs", "products", "settings", "trays"];

/** One column of a sheet as it would be saved. */
export interface LiveColumn {
  /** the canonical header */
  key: string;
  /** how people call it */
  label: string;
  /** "" where none applies */
  unit: string;
  isNumber: boolean;
  /** what may be typed, where that is a short list */
  choices?: ReadonlyArray<string>;
  /** cells are dates, YYYY-MM-DD */
  isDate?: boolean;
  /** why its cells cannot be changed here; absent where they can */
  fixed?: string;
  /** a column for reading only: not in the saved file */
  isExtra?: boolean;
}

/** A sheet in its canonical form, all cells as text. */
export interface LiveSheet {
  name: SheetName;
  title: string;
  columns: LiveColumn[];
  rows: string[][];
}

/** One changed cell: its place in the saved sheet and what was typed. */
export interface CellEdit {
  sheet: SheetName;
  row: number;
  column: number;
  text: string;
}

/** Everything changed against the saved book. */
export interface Edits {
  cells: ReadonlyArray<CellEdit>;
  /** trays left out, with the reason given */
  aside: ReadonlyArray<{ tray: string; reason: string }>;
  /** how many rows were put behind each sheet's own; one without a filled cell counts for nothing */
  added: Readonly<Partial<Record<SheetName, number>>>;
  /** rows left out of every answer and of the saved sheet */
  deleted: ReadonlyArray<RowPlace>;
}

/** A row by its place in its sheet; rows that were added come behind the sheet's own. */
export interface RowPlace {
  sheet: SheetName;
  row: number;
}

export const noEdits: Edits = { cells: [], aside: [], added: {}, deleted: [] };

/** Whether anything differs from the saved book. */
export const isAnyEdit = ({ cells, aside, added, deleted }: Edits): boolean =>
  cells.length + aside.length + deleted.length > 0 || Object.values(added).some((count) => count > 0);

/** most rows that may be added to one sheet here */
export const mostAddedRows = 2000;

/** Whether rows can be added to a sheet and deleted from it; settings are a fixed list. */
export const canGrow = (sheet: SheetName): boolean => sheet !== "settings";

/** The name of a cell, unique in a book. */
export const cellKey = (sheet: SheetName, row: number, column: number): string => `${sheet}/${row}/${column}`;
