import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import { isNothing } from "./cell-kind.ts";
import { FillSurvey, type FillVerdict } from "./fill-down.ts";
import type { FoundHeader } from "./find-header.ts";
import type { ForEachRecord } from "./grid.ts";
import { LeftRows, shortened } from "./left-rows.ts";
import { LoneRows } from "./lone-rows.ts";
import { isExampleRow, isPriced, isPrintLine, leaveExample, titleOfList } from "./no-tray-rows.ts";
import { RaggedRows } from "./ragged-rows.ts";
import { isBlank, repeatsHeader } from "./row-role.ts";
import type { SectionTitle } from "./section-title.ts";
import type { ShapeSettings, SheetWords } from "./sheet-words.ts";
import { SummaryRows } from "./summary-rows.ts";
import { headsPrices, SuspectRows, type TableColumns, whyNoTray } from "./table-columns.ts";
import { isLabelLike } from "./value-like.ts";

/** What a whole table holds besides its data rows. */
export interface Survey {
  issues: Issue[];
  leftOut: LeftOutRow[];
  /** first and last row number of each stretch that is not data, in order */
  notData: [first: number, last: number][];
  /** cells of a data row: the header's, and unnamed ones after it that most rows have */
  width: number;
  /** per column, whether any data row has something in it; named columns count as used */
  used: boolean[];
  dataRows: number;
  titles: SectionTitle[];
  fills: FillVerdict[];
  /** summary rows found, first of them, and how */
  summaries: { row: number; example: string; byArithmetic: boolean }[];
  /** row number where another table begins, with other names; the survey ends above it */
  nextTable?: number;
}

/** What a survey needs to know of its table. */
export interface SurveyOptions {
  file: string;
  header: FoundHeader;
  columns: TableColumns;
  words: SheetWords | undefined;
  settings: ShapeSettings;
  /** look for further tables below */
  further: boolean;
  delimited: boolean;
  /** cells that the rows at the top of the table have */
  usualLength: number;
}

/** Entries of one rule in one file; what is beyond is counted in a last one, so that the log stays readable. */
const mostEntries = 1000;

/** Looks at every record of a table once. */
class RowSurvey {
  readonly left: LeftRows;
  readonly summaries: Survey["summaries"] = [];
  nextTable: number | undefined;
  private dataRows = 0;
  private readonly lone: LoneRows | undefined;
  private readonly suspects: SuspectRows;
  private readonly sums: SummaryRows;
  private readonly fill: FillSurvey;
  private readonly ragged: RaggedRows;
  private readonly used: boolean[];
  private readonly unnamed: number[];
  private readonly named: number;
  /** written by this program: no cell leaves anything to the one above, no row sums up */
  private readonly isTidy: boolean;
  private lastRow = 0;
  /** a title such as "Costs" whose list may begin in the next row */
  private held: { cells: string[]; row: number } | undefined;
  private afterSummary = false;
  private afterBlank = false;
  private longCount = 0;
  private widest: number;

  constructor(private readonly options: SurveyOptions) {
    const { file, header, columns, words, settings, usualLength } = options;
    this.left = new LeftRows(file);
    this.named = header.names.length;
    this.widest = this.named;
    this.isTidy = words?.isTidy(header.names.filter((name) => name !== "")) ?? false;
    this.lone = words === undefined || this.named < 2 ? undefined : new LoneRows(columns, words, header.names);
    this.suspects = new SuspectRows(columns, mostEntries);
    this.sums = new SummaryRows(columns, settings.summaryRows !== "keep", words !== undefined);
    this.fill = new FillSurvey(columns.sorts, columns.tray, columns.flush);
    this.ragged = new RaggedRows(this.named, usualLength);
    this.used = header.names.map((name) => name !== "");
    this.unnamed = [...this.used.keys()].filter((column) => !this.used[column]);
  }

  readonly visit = (cells: string[], row: number, unclosedQuote: boolean): boolean => {
    const { header, words } = this.options;
    if (unclosedQuote) this.left.sayUnclosed(cells, row);
    // a workbook's blank rows are not stored
    if (row > this.lastRow + 1 && this.lastRow > 0) this.blanks(this.lastRow + 1, row - 1);
    this.lastRow = row;
    if (isBlank(cells)) {
      this.blanks(row, row);
      return true;
    }
    const isListed = this.held !== undefined && isPriced(cells);
    if (isListed || (row > header.lastRow && this.startsAnotherTable(cells))) {
      this.nextTable = this.held?.row ?? this.lone?.giveBack(row) ?? row;
      this.held = undefined;
      this.left.forgetBlanksFrom(this.nextTable);
      return false;
    }
    this.letGo();
    this.left.endBlanks(false);
    if (row > header.lastRow && words !== undefined && this.options.further && titleOfList(cells, words) !== undefined)
      this.held = { cells: [...cells], row };
    else this.record(cells, row);
    return true;
  };

  /** A title of a list that is none after all. */
  private letGo(): void {
    const { held } = this;
    this.held = undefined;
    if (held !== undefined) this.record(held.cells, held.row);
  }

  private record(cells: string[], row: number): void {
    const { header, words } = this.options;
    if (row < header.firstRow) this.left.leave(cells, row, "title-line", "it stands above the header");
    else if (row <= header.lastRow) this.left.leave(cells, row, "", "");
    else if (header.lines.some((line) => repeatsHeader(cells, line))) {
      this.left.leave(cells, row, "repeated-header", "it repeats the header");
      this.fill.separate();
    } else if (words !== undefined && cells.every(isNothing))
      this.left.leave(cells, row, "marks-only", "it has no letter and no digit");
    else if (words !== undefined && isExampleRow(cells)) leaveExample(this.left, cells, row);
    else if (words !== undefined && isPrintLine(cells))
      this.left.leave(cells, row, "print-line", "it was printed with the sheet and is not one of its rows");
    else if (this.lone?.take(cells, row)) {
      this.fill.separate();
      // a title keeps what stands below it apart as the gap above it does
      return;
    } else this.body(cells, row);
    this.afterBlank = false;
  }

  private body(cells: string[], row: number): void {
    const found = this.sums.look(cells, this.afterSummary, this.dataRows);
    if (found === undefined) this.data(cells, row);
    else this.summary(cells, row, found.label);
  }

  private summary(cells: string[], row: number, label: string | undefined): void {
    const reason = label === undefined ? "its numbers sum up the rows above it" : "it sums up other rows";
    this.left.leave(cells, row, "totals-row", reason);
    this.sums.close();
    this.afterSummary = true;
    this.lone?.follow();
    this.fill.separate();
    const example =
      label ??
      cells
        .filter((cell) => !isNothing(cell))
        .slice(0, 6)
        .join(" | ");
    if (this.summaries.length < mostEntries) {
      this.summaries.push({ row, example, byArithmetic: label === undefined });
    }
  }

  private data(cells: string[], row: number): void {
    const { words, delimited } = this.options;
    this.afterSummary = false;
    this.dataRows++;
    this.lone?.follow();
    if (words !== undefined) {
      this.sums.add();
      this.fill.add(cells);
      this.suspects.look(cells, row);
    }
    for (let index = this.unnamed.length - 1; index >= 0; index--) {
      const column = this.unnamed[index]!;
      if ((cells[column] ?? "").trim() !== "") {
        this.used[column] = true;
        this.unnamed.splice(index, 1);
      }
    }
    let end = cells.length;
    while (end > this.named && cells[end - 1]!.trim() === "") end--;
    if (end > this.named) {
      this.longCount++;
      this.widest = Math.max(this.widest, end);
    }
    // a workbook stores no cells behind the last one of a row
    if (delimited || end > this.named) this.ragged.add(cells, row, end > this.named);
  }

  private blanks(from: number, to: number): void {
    this.left.blanks(from, to);
    this.afterSummary = true;
    this.afterBlank = true;
    this.fill.separate();
  }

  /** Whether a row is the header of another table: known names, and not those of this one. */
  private startsAnotherTable(cells: string[]): boolean {
    const { words, further, header } = this.options;
    if (words === undefined || !further) return false;
    for (const cell of cells) {
      const code = cell.charCodeAt(0);
      if (code >= 48 && code <= 57) return false;
    }
    // below names of ours only names of ours: an outcome may be called as a column is elsewhere
    if (this.isTidy && !words.isTidy(cells.filter((cell) => cell !== ""))) return false;
    let filled = 0;
    for (const cell of cells) {
      if (cell === "") continue;
      if (!isLabelLike(cell.trim()) && cell.trim() !== "") return false;
      filled++;
    }
    const enough = this.afterBlank ? filled >= 2 : filled >= 3;
    if (!enough || header.lines.some((line) => repeatsHeader(cells, line))) return false;
    if (words.looksLikeHeader(cells) >= (this.afterBlank ? 0.6 : 0.75)) return true;
    if (this.afterBlank && headsPrices(cells, header.names, words)) return true;
    return this.afterBlank && this.sums.isOtherHeader(cells);
  }

  /** Rows without a tray's name or a dose are not taken for trays. */
  private settleSuspects(fills: ReadonlyArray<FillVerdict>): void {
    const { columns, settings, file } = this.options;
    const filled = ({ column, because }: FillVerdict): boolean =>
      because !== undefined && (column === columns.tray || columns.sorts[column] === "set");
    // as many rows as trays, or more: further picks of the tray above, whose own number would be only a part
    const arePicks = fills.some(({ column, because }) => column === columns.tray && because === undefined);
    if (settings.summaryRows === "keep" || this.isTidy || (!arePicks && fills.some(filled))) return;
    for (const { row, cells, isNameless } of this.suspects.found()) {
      this.dataRows--;
      const reason = isNameless
        ? "it has a weight or a date and names neither a tray nor anything set for one"
        : "it is named unlike the trays and has nothing set for one";
      this.left.leave(cells, row, "row-without-tray", reason);
      this.left.issues.push(
        logEntry({
          file,
          row,
          rule: "row-without-tray",
          severity: arePicks ? "error" : "warning",
          raw: shortened(cells.filter((cell) => !isNothing(cell)).join(" | ")),
          ...whyNoTray(isNameless, arePicks),
        }),
      );
    }
  }

  private fillVerdicts(): FillVerdict[] {
    const { words, settings } = this.options;
    if (words === undefined || settings.fillDown === "no") return [];
    const verdicts = this.fill.verdicts(!this.isTidy);
    return settings.fillDown === ""
      ? verdicts
      : verdicts.map((verdict) => ({ ...verdict, because: verdict.because ?? "settings.csv says so" }));
  }

  finish(): Survey {
    const { words, header, settings } = this.options;
    this.letGo();
    this.left.endBlanks(true);
    const { titles, trays } = this.lone?.settle(this.left) ?? { titles: [], trays: 0 };
    this.dataRows += trays;
    const fills = this.fillVerdicts();
    this.settleSuspects(fills);
    // most rows have it: then it is a column whose name is missing, not a slip
    const widen = this.longCount >= 2 && this.longCount > this.dataRows / 2;
    this.dataRows -= this.ragged.settle(this.left, header.names, words, widen);
    const width = widen ? this.widest : this.named;
    return {
      notData: this.left.inOrder(),
      issues: this.left.issues,
      leftOut: this.left.rows,
      width,
      used: Array.from({ length: width }, (_, column) => this.used[column] ?? true),
      dataRows: this.dataRows,
      titles: settings.sectionTitles === "ignore" ? [] : titles,
      fills,
      summaries: this.summaries,
      ...(this.nextTable === undefined ? {} : { nextTable: this.nextTable }),
    };
  }
}

/** Looks at every record of a table once: what is data, what is left out and why, and which rows are ragged. */
export function surveyRows(forEachRecord: ForEachRecord, options: SurveyOptions): Survey {
  const survey = new RowSurvey(options);
  forEachRecord(survey.visit);
  return survey.finish();
}
