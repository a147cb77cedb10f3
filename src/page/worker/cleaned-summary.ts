import { roleByName } from "../../cleaning/sort-sources.ts";
import { columnAnswerKey, sheetAnswerKey } from "../../engine/answered-settings.ts";
import { cellQuestionKey, type SheetQuestion, sheetQuestions } from "../../engine/sheet-questions.ts";
import type { Book, ColumnReading } from "../../records/book.ts";
import type { Severity } from "../../records/issue.ts";
import { groupSentence, type IssueGroup, issueGroups } from "../../records/issue-groups.ts";
import type { SheetSource } from "../../records/sheet.ts";
import { visibleText } from "../../report/visible-text.ts";

/** Like entries of the log, as a page shows them. */
export interface LogGroup {
  severity: Severity;
  count: number;
  file: string;
  text: string;
  /** rows with what was typed */
  examples: string[];
  action: string;
}

/** What a cleaning found, small enough to be sent to a page whatever the size of the book. */
export interface CleanedSummary {
  name: string;
  trays: number;
  flaggedTrays: number;
  /** what each sheet was taken for */
  sheets: { path: string; use: string; isTrouble: boolean }[];
  counts: Record<Severity, number>;
  groups: LogGroup[];
  /** groups that are not among them */
  groupsLeftAway: number;
  leftOut: { count: number; shown: string[] };
  questions: SheetQuestion[];
}

const most = { groups: 300, leftOut: 100, letters: 80, sentence: 400 };

type Counted = (count: number, one: string) => string;

const countedIn =
  (locale: string): Counted =>
  (count, one) =>
    `${count.toLocaleString(locale)} ${one}${count === 1 ? "" : "s"}`;

/** The file of a table: a workbook's sheet belongs to its workbook. */
const fileOf = (table: string): string => table.split(" > ")[0]!;

/** What a sheet was used for, in words. */
function useOf(path: string, book: Book, counted: Counted): { use: string; isTrouble: boolean } {
  const unknown = book.issues.find(({ file, rule }) => fileOf(file) === path && rule === "no-known-column");
  if (unknown !== undefined) return { use: visibleText(unknown.reason, most.sentence), isTrouble: true };
  const harvests = book.harvestFiles.filter(({ file }) => fileOf(file) === path);
  if (harvests.length > 0) {
    const rows = harvests.reduce((sum, { rows }) => sum + rows, 0);
    return { use: `harvest sheet, ${counted(rows, "row")}`, isTrouble: false };
  }
  const lines = book.costLines?.filter(({ source }) => fileOf(source.file) === path).length ?? 0;
  if (lines > 0) return { use: `cost sheet, ${counted(lines, "line")}`, isTrouble: false };
  const products = book.products?.filter(({ source }) => fileOf(source.file) === path).length ?? 0;
  if (products > 0) return { use: `product sheet, ${counted(products, "product")}`, isTrouble: false };
  const trouble = book.issues.find(({ file, severity, rule }) => {
    return fileOf(file) === path && (severity === "error" || rule === "unknown-sheet" || rule === "second-settings");
  });
  if (trouble !== undefined) return { use: `not used: ${visibleText(trouble.reason, most.sentence)}`, isTrouble: true };
  const named = roleByName({ path });
  return {
    use:
      named === undefined
        ? "read"
        : `${named === "columns" ? "column names" : named === "cells" ? "answers" : named} sheet`,
    isTrouble: false,
  };
}

const there = "under “Questions to you”";

/** What to do about entries of the log: on the page what a question asks is answered there by a click. */
function actionOnPage(
  { severity, files, columns: named, action, setting = "", examples }: IssueGroup,
  questions: ReadonlyArray<SheetQuestion>,
  columns: ReadonlyArray<ColumnReading>,
): string {
  const keys = new Set([
    setting,
    ...files.flatMap((file) => [
      sheetAnswerKey(setting, file),
      ...named.map((column) => columnAnswerKey(file, column)),
    ]),
    ...examples.map((issue) => cellQuestionKey(issue, columns)),
  ]);
  const asked = questions.filter(({ key }) => keys.has(key));
  const namesColumns = action.includes("columns.csv") && named.length === 0;
  const isOpen = ({ state }: SheetQuestion): boolean => state === "open";
  if (asked.some(isOpen) || (namesColumns && questions.some((one) => isOpen(one) && one.key.startsWith("column:"))))
    return `Answer it ${there}`;
  if (asked.length === 0) return action;
  return severity === "note" ? `Change it ${there} if it is wrong` : action.replace("in settings.csv", there);
}

/**
 * What the page shows of a cleaned book: counts, like entries together, what the reader could settle.
 * @param locale how counts are written
 */
export function summariseCleaning(book: Book, sources: ReadonlyArray<SheetSource>, locale = "en"): CleanedSummary {
  const counted = countedIn(locale);
  const counts: Record<Severity, number> = { error: 0, warning: 0, note: 0, change: 0 };
  for (const { severity } of book.issues) counts[severity]++;
  const groups = issueGroups(book.issues);
  const questions = sheetQuestions(book.issues, book.columns, book.unread);
  return {
    name: book.name,
    trays: book.trays.length,
    flaggedTrays: book.trays.filter(({ flags }) => flags.length > 0).length,
    sheets: sources.map(({ path }) => ({ path, ...useOf(path, book, counted) })),
    counts,
    groups: groups.slice(0, most.groups).map((group) => ({
      severity: group.severity,
      count: group.count,
      file: visibleText(group.files.join(", "), most.letters),
      text: visibleText(groupSentence(group), most.sentence),
      examples: group.examples
        .filter(({ row }) => row > 0)
        .map(({ row, raw }) => `row ${row}${raw === "" ? "" : `: ${visibleText(raw, most.letters)}`}`),
      action: visibleText(actionOnPage(group, questions, book.columns), most.sentence),
    })),
    groupsLeftAway: Math.max(0, groups.length - most.groups),
    leftOut: {
      count: book.leftOut.length,
      shown: book.leftOut
        .slice(0, most.leftOut)
        .map(({ file, row, reason }) => `${visibleText(file, most.letters)}, row ${row}: ${visibleText(reason)}`),
    },
    questions,
  };
}
