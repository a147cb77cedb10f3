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
}

export const noEdits: Edits = { cells: [], aside: [] };

/** The name of a cell, unique in a book. */
export const cellKey = (sheet: SheetName, row: number, column: number): string => `${sheet}/${row}/${column}`;
