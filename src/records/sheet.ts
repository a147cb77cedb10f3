import type { ReadingPlan } from "./reading-plan.ts";

/** A sheet as the outside world hands it over: bytes that can be read more than once. */
export interface SheetSource {
  /** the path inside the book, with forward slashes: "harvests/spring.csv" */
  path: string;
  /** size in bytes */
  size: number;
  /** the bytes from the start, in pieces; each call starts again. Synchronous, so that a column can be read twice without holding it. */
  chunks(): Iterable<Uint8Array>;
}

/** A line above, between or under the rows of a table that is none of them. */
export interface Remark {
  row: number;
  /** those with something in them, trimmed */
  cells: string[];
  /** why it was set aside */
  rule: "title-line" | "section-title" | "footnote";
}

/** What lines beside a table's rows say of them all. */
export interface RemarksSay {
  /** its weights are others than they stand there: something was weighed along, or each is of several trays */
  weights?: { text: string; says: "container" | "several trays" | "dry weights" | "scale" };
  /** something of all its rows is not sure, or not all there is */
  doubt?: { text: string; says: "amounts" | "colours" | "one flush" | "diluted" | "days" };
  /** trays were lost */
  losses?: string;
}

/** What a list of things and their prices is for. */
export type ListRole = "costs" | "products";

/** A rectangle of text under one header, read lazily. */
export interface RawTable {
  /** the source's path, with the workbook's sheet name after " > " where there is one */
  file: string;
  /** headers as typed, trimmed; two-line headers joined with a space; "" for a column without one */
  header: string[];
  /** the names as typed where `header` holds others that say more; a column beyond it is not in the sheet */
  typedHeader?: ReadonlyArray<string>;
  /** the row number of the (last) header line as a spreadsheet shows it */
  headerRow: number;
  /** how the table lies in the sheet and what was assumed of it; absent for tables made otherwise */
  plan?: ReadingPlan;
  /** rows of the sheet that hold something, counted before anything is made of them; absent where its rows are no rows of trays */
  filledRows?: number;
  /** rows of the sheet that went into the row of another, in a table of one thing a row */
  joinedRows?: number;
  /** lines beside its rows, which may say what the rows mean; absent where there are none */
  remarks?: ReadonlyArray<Remark>;
  remarksSay?: RemarksSay;
  /** what a title over it says it is for */
  listRole?: ListRole;
  /** nothing says that its rows are trays, and it is asked whether they are */
  isInDoubt?: boolean;
  /**
   * Calls `visit` once per data row, top to bottom; can be called again. Every row has exactly header.length cells
   * (missing ones are ""; the array is the visitor's to keep). Title lines, blank rows, repeated headers and
   * totals rows do not come; they are in the sheet's `leftOut`.
   */
  forEachRow(visit: (cells: string[], row: number) => void): void;
}

/** One row of a temperature log. */
export interface TemperatureReading {
  /** ISO 8601 local date and time without zone: "2026-03-04T13:30" */
  at: string;
  celsius: number;
  chamber?: string;
}
