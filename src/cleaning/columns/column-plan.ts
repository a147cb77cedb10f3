import type { FieldKind, HarvestFieldKey } from "../../records/harvest-field.ts";
import type { Issue } from "../../records/issue.ts";
import type { DateConventions } from "../dates/parse-date.ts";
import type { Conventions, QuantityKind } from "../values/quantity-reading.ts";

/** What one line of columns.csv says about a column. */
export interface ColumnPin {
  /** the sheet it is about; "" for every sheet */
  file: string;
  /** as typed */
  header: string;
  field: HarvestFieldKey | "factor" | "unread";
  /** of numbers typed without one; "" leaves it to the sheet */
  unit: string;
  /** where it stands; absent where no line of a sheet says it */
  line?: { file: string; row: number };
}

/** One way to take a column. */
export interface ColumnMeaning {
  field: HarvestFieldKey;
  /** what decided, for the log: "canonical name", "synonym", "spelling", "pinned in columns.csv" */
  because: string;
  /** how sure: a canonical name or pin 3, a synonym or its misspelling 2, a word that says little 1 */
  rank: number;
  /** unit stated in the header, by name; "" when none */
  unit: string;
  /** for a weight or date of one flush in a column of its own */
  flush?: number;
}

/** Puts an entry about a column into the log. */
export type Say = (column: string, entry: Pick<Issue, "rule" | "severity" | "reason"> & Partial<Issue>) => void;

/** Why a column is not read until the grower says what it is. */
export type ColumnDoubt =
  | { kind: "several fields"; fields: HarvestFieldKey[] }
  | { kind: "one field twice"; field: HarvestFieldKey; columns: number[] }
  /** its name, or a line beside the table, makes its weights others than they stand there */
  | { kind: "weights"; field: HarvestFieldKey; rule: string; reason: string; raw?: string }
  /** numbers beside the names of trays: of trays, or of mushrooms, clusters, anything */
  | { kind: "count"; field: HarvestFieldKey };

/** How one column of a table will be read. */
export interface ColumnPlan {
  /** place in the row */
  index: number;
  /** as typed */
  header: string;
  field: HarvestFieldKey | "factor" | "unread";
  /** of the field; "text" for a factor */
  kind: FieldKind;
  /** what decided on the field */
  because: string;
  /** the header is the canonical one or a pin named its unit, so that its numbers follow the canonical form */
  canonical: boolean;
  /** flush that the column is about, where flushes stand side by side */
  flush?: number;
  conventions: Conventions;
  dates: DateConventions;
  /** a column of temperatures in which some bare numbers can only be °C and others only °F */
  mixedTemperatures: boolean;
  /** a "+" stands in it, so that a dash is the other mark of two */
  hasPlus?: boolean;
  /** the field that another column has the better claim to */
  secondFor?: HarvestFieldKey;
  /** fields it may hold, where it is not read until the grower says which */
  mayBe?: ReadonlyArray<HarvestFieldKey>;
}

/** The kind of number a column holds; undefined for text, dates and outcomes. */
export const quantityKindOf = (kind: FieldKind): QuantityKind | undefined =>
  kind === "text" || kind === "date" || kind === "outcome" ? undefined : kind;
