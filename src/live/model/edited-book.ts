import { inSheetOrder } from "../../cleaning/in-sheet-order.ts";
import type { Book } from "../../records/book.ts";
import { keepSame } from "../../records/is-same.ts";
import type { Issue, LeftOutRow } from "../../records/issue.ts";
import type { Memo } from "../../records/memo.ts";
import { sourcesOf, type Tray } from "../../records/tray.ts";
import type { CellFinding } from "../sheet/cell-finding.ts";
import { type EditFindings, noteFindings } from "./edit-findings.ts";
import {
  type CleanLines,
  cleanedCosts,
  cleanedProducts,
  cleanedSettings,
  lineSource,
  unreadNow,
} from "./edited-lines.ts";
import { editedSheet, isAsSaved, newlySaid } from "./edited-sheet.ts";
import { cleanedTrays, trayIssues } from "./edited-trays.ts";
import { type Edits, noEdits } from "./live-sheet.ts";
import type { SavedBook } from "./saved-book.ts";

/** A book with changes in it, cleaned by the rules every sheet is cleaned by. */
export interface EditedBook {
  book: Book;
  /** what is said of changed cells, by `cellKey` */
  findings: ReadonlyMap<string, CellFinding>;
  /** changed cells that were read well, as they would be written */
  written: ReadonlyMap<string, string>;
}

/** sheets that are kept cleaned with changes they had before, so that undoing costs nothing */
export const mostCleaned = 24;

/** The rows of trays set aside, with the reason given. */
function setAside(trays: ReadonlyArray<Tray>, { aside }: Edits): LeftOutRow[] {
  const reasons = new Map(aside.map(({ tray, reason }) => [tray, reason]));
  return trays.flatMap((tray) => {
    const { trayId } = tray;
    const reason = reasons.get(trayId);
    const [source] = sourcesOf(tray);
    if (reason === undefined || source === undefined) return [];
    return [{ ...source, cells: [trayId], rule: "set-aside", reason: `set aside in the report: ${reason}` }];
  });
}

/** The trays that are not set aside; the very same list each time. */
const notAside = (trays: Tray[], { aside }: Edits, memo: Memo): Tray[] =>
  aside.length === 0
    ? trays
    : memo.once([trays], `without ${JSON.stringify(aside)}`, () => {
        const gone = new Set(aside.map(({ tray }) => tray));
        return trays.filter(({ trayId }) => !gone.has(trayId));
      });

/**
 * A saved book with changes: every sheet that a change or a changed setting touches is cleaned again as it now stands, and
 * a row that cannot be used is left out, as it would be there. Records that say what they said stay the very same ones. No
 * edit gives the saved book.
 * @param memo keeps sheets cleaned before with the same changes
 */
export function editedBook(saved: SavedBook, edits: Edits, memo: Memo): EditedBook {
  const book: Book = { ...saved.book };
  const said: EditFindings = { findings: new Map(), written: new Map() };
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  let unread = saved.book.unread ?? [];

  const settings = editedSheet(saved, edits, "settings")!;
  if (!isAsSaved(settings)) {
    const now = memo.once([saved], `settings ${settings.key}`, () => cleanedSettings(saved, settings));
    book.settings = now.records;
    noteFindings(said, settings, now.issues, now.written);
  }
  const isSet = book.settings === saved.book.settings;
  const cleaned = <T>(name: "costs" | "products", clean: CleanLines<T>): T[] | undefined => {
    const edited = editedSheet(saved, edits, name);
    if (edited === undefined || (isAsSaved(edited) && isSet)) return undefined;
    const now = memo.once([saved, book.settings], `${name} ${edited.key}`, () => {
      const before = clean(saved, editedSheet(saved, noEdits, name)!, saved.book.settings);
      const lines = clean(saved, edited, book.settings);
      return {
        ...lines,
        issues: newlySaid(before.issues, lines.issues),
        unread: newlySaid(before.unread, lines.unread),
      };
    });
    const sourceAt = lineSource(edited, saved.book[name === "costs" ? "costLines" : "products"]);
    issues.push(...now.issues.map((issue) => (issue.row === 0 ? issue : { ...issue, ...sourceAt(issue.row) })));
    unread = unreadNow(unread, edited, now.unread, sourceAt);
    leftOut.push(...now.leftOut);
    noteFindings(said, edited, now.issues, now.written);
    return now.records;
  };
  const costLines = cleaned("costs", cleanedCosts);
  if (costLines !== undefined) book.costLines = costLines;
  const products = cleaned("products", cleanedProducts);
  if (products !== undefined) book.products = products;

  if (unread.length > 0) book.unread = keepSame(saved.book.unread, unread);
  else delete book.unread;

  const trays = editedSheet(saved, edits, "trays")!;
  if (!isAsSaved(trays) || !isSet) {
    const before = memo.once([saved, book.settings], "issues of the trays as saved", () =>
      trayIssues(editedSheet(saved, noEdits, "trays")!, book.settings),
    );
    const now = memo.once([saved, book.settings], `trays ${trays.key}`, () =>
      cleanedTrays(saved, trays, before, book.settings),
    );
    book.trays = now.trays;
    book.issues = now.log;
    leftOut.push(...now.leftOut);
    noteFindings(said, trays, now.issues);
  }
  const aside = setAside(book.trays, edits);
  book.trays = notAside(book.trays, edits, memo);
  book.issues = keepSame(saved.book.issues, inSheetOrder([...book.issues, ...issues], book.columns));
  if (leftOut.length + aside.length > 0) book.leftOut = [...saved.book.leftOut, ...leftOut, ...aside];
  return { book, ...said };
}
