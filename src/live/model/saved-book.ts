import type { Book } from "../../records/book.ts";
import { addTo } from "../../records/grouped.ts";
import { costSheet } from "./cost-sheet-text.ts";
import type { LiveSheet, SheetName } from "./live-sheet.ts";
import { productSheet } from "./product-sheet-text.ts";
import { settingsSheet } from "./settings-sheet-text.ts";
import { traySheet } from "./tray-sheet-text.ts";

/** The book as it was when the report was written, and its sheets as text. */
export interface SavedBook {
  book: Book;
  /** sheets the book does not have are absent */
  sheets: Partial<Record<SheetName, LiveSheet>>;
  /** each tray's rows in the tray sheet */
  rowsOfTray: ReadonlyMap<string, number[]>;
}

/** A book with its sheets laid out for changing. */
export function savedBook(book: Book): SavedBook {
  const trays = traySheet(book);
  const [costs, products] = [costSheet(book), productSheet(book)];
  const rowsOfTray = new Map<string, number[]>();
  trays.rows.forEach(([tray = ""], row) => {
    addTo(rowsOfTray, tray, row);
  });
  const sheets = {
    costs,
    products,
    settings: settingsSheet(book.settings),
    trays,
  };
  return { book, sheets, rowsOfTray };
}
