import { computed, signal } from "@preact/signals";
import { visibleText } from "../../report/visible-text.ts";
import { shownCell } from "../sheet/shown-cell.ts";
import { type LiveColumn, type SheetName, sheetNames } from "./live-sheet.ts";
import { cellText, current, edits, rowCount, savedRowCount, workbook } from "./workbook.ts";

/** One change against the saved book, in words. */
export interface ChangeSaid {
  key: string;
  /** "cracked sorghum, price of a pack" */
  what: string;
  from: string;
  to: string;
  /** what is wrong with it, and what counts then; absent where it was read well */
  trouble?: string;
}

const named: Readonly<Record<SheetName, string>> = {
  costs: "cost line",
  products: "product",
  settings: "setting",
  trays: "tray",
};

/** What a row is called: its first cell. */
const rowName = (sheet: SheetName, row: number): string =>
  visibleText(cellText(sheet, row, 0), 40) || `row ${row + 1} of ${sheet}`;

const shown = (text: string, column: LiveColumn | undefined): string =>
  text === ""
    ? "empty"
    : visibleText(column === undefined ? text : shownCell(text, column, current.value.book.settings), 30);

/** A setting that is not read keeps its saved value; any other cell is taken as the log of a new run would say. */
const troubleOf = (sheet: SheetName, text: string): string =>
  sheet === "settings" ? `not read, the saved value counts. ${text}` : `in doubt. ${text}`;

/** Every change, the latest first. */
export const changesSaid = computed((): ChangeSaid[] => {
  const { cells, deleted, aside, added } = edits.value;
  const { sheets } = workbook().saved;
  const own = cells
    .filter(({ sheet, row, text }) => row < rowCount(sheet) && (text !== "" || row < savedRowCount(sheet)))
    .map(({ sheet, row, column, text }): ChangeSaid => {
      const key = `${sheet}/${row}/${column}`;
      const of = sheets[sheet]?.columns[column];
      const { label = "", isNumber = false } = of ?? {};
      const finding = current.value.findings.get(key);
      return {
        key,
        what:
          sheet === "settings"
            ? rowName(sheet, row).replaceAll("_", " ")
            : `${rowName(sheet, row)}, ${label.toLowerCase()}`,
        from: shown(sheets[sheet]?.rows[row]?.[column] ?? "", of),
        to: shown(isNumber ? cellText(sheet, row, column) : text, of),
        ...(finding?.kind === "bad" ? { trouble: troubleOf(sheet, finding.text) } : {}),
      };
    });
  return [
    ...own.toReversed(),
    ...deleted.map(({ sheet, row }) => ({
      key: `deleted/${sheet}/${row}`,
      what: `${named[sheet]} ${rowName(sheet, row)}`,
      from: "in the sheet",
      to: "deleted",
    })),
    ...aside.map(({ tray, reason }) => ({
      key: `aside/${tray}`,
      what: `tray ${visibleText(tray, 40)}`,
      from: "counted",
      to: `set aside: ${visibleText(reason, 40)}`,
    })),
    ...sheetNames
      .filter((sheet) => (added[sheet] ?? 0) > 0)
      .map((sheet) => ({ key: `added/${sheet}`, what: sheet, from: "", to: `rows added: ${added[sheet]}` })),
  ];
});

/** An answer that says something else than in the saved book. */
export interface MovedAnswer {
  id: string;
  name: string;
  /** large number or verdict before and now; the same where only the sentence moved */
  was: string;
  now: string;
}

/** The answers that say something else than in the saved book. */
export const movedAnswers = signal<ReadonlyArray<MovedAnswer>>([]);
