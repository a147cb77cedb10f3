import type { AnswerFront, Missing } from "./answer-front.ts";
import type { Chart } from "./chart.ts";
import type { Reading, TestedQuestion } from "./decisions/verdict/index.ts";
import type { CostLine } from "./records/cost-line.ts";
import type { HarvestFieldKey } from "./records/harvest-field.ts";
import type { Issue } from "./records/issue.ts";
import type { Memo } from "./records/memo.ts";
import type { Product } from "./records/product.ts";
import type { Settings } from "./records/setting.ts";
import type { TemperatureReading } from "./records/sheet.ts";
import type { Tray } from "./records/tray.ts";
import type { UnreadMoney } from "./records/unread-money.ts";
import type { Sentence, Unit } from "./sentence.ts";

export type { AnswerFront, Figure, Missing, NextRank, NextStep, Strip } from "./answer-front.ts";
export type {
  BreakdownChart,
  Chart,
  ControlChart,
  CurveChart,
  DosesChart,
  IntervalsChart,
  PriceListChart,
  SurfaceChart,
  TornadoChart,
  TraysByGroupChart,
} from "./chart.ts";
export type { Quantity, QuantityRange, Sentence, SentencePart, Unit } from "./sentence.ts";

/** A number with the range it plausibly lies in. */
export interface Estimate {
  label: string;
  value: number;
  /** ends of the interval; absent where there is none */
  low?: number;
  high?: number;
  /** interval level, 0 to 1 */
  level: number;
  unit: Unit;
  n: number;
  /** what was counted: "trays", "cooks" */
  nUnit: string;
  /** two-sided p where a test belongs to it */
  p?: number;
  /** in the textbook's words */
  method: string;
}

/** One column of a table in an answer. */
export interface TableColumn {
  label: string;
  /** absent for a column of text */
  unit?: Unit;
  digits?: number;
}

/** A table that reads like a sheet; null is a cell with nothing to say. */
export interface Table {
  caption: string;
  columns: TableColumn[];
  rows: (string | number | null)[][];
  /** rows, counted from the end, that are totals */
  totalRows?: number;
  /** of a question's first table: rows that stand open, the first ones; all unless stated, none where 0 */
  open?: number;
  note?: string;
}

/** Trays that took no part in an answer, and why. */
export interface Excluded {
  trays: string[];
  reason: string;
}

/** How far a comparison can be leaned on: "settled" needs an interval clear of no effect; "leaning" points one way; "open" does not. */
export type Verdict = "settled" | "leaning" | "open";

/** The verdict of an answer; "measured" is for a description that compares nothing: a gram's cost, prices, rows to check. */
export type Certainty = Verdict | "measured";

interface OutcomeBase extends AnswerFront {
  /** the question and its name in this book's own words, where what it is about depends on the book */
  asked?: { question: string; name: string };
  tables: Table[];
  charts: Chart[];
  excluded: Excluded[];
  /** what was done, in the textbook's words, one sentence each: model, why this one, experimental unit */
  method: Sentence[];
  /** what a reader could get wrong, and checks of assumptions reported as consequences */
  caveats: Sentence[];
  /** what is missing from its money or doubtful in it, said once for all answers: "without: shed rent" */
  withoutMoney?: string;
  /** which way that moves what everything seems to cost, as a sentence; absent where it moves no cost, or may */
  moneyLooks?: string;
}

/** What the data say. */
export interface Answer extends OutcomeBase {
  kind: "answer";
  /** the answer in one plain sentence */
  sentence: Sentence;
  certainty: Certainty;
  /** its deciding test, which is weighed against the other tests of the report */
  test?: TestedQuestion;
  /**
   * All that a settled answer says otherwise once the whole report's tests, or money that is missing, lower it: to leaning where
   * no `certainty` is stated, `next` in words that advise "meanwhile". An answer that makes a test and can settle has to have it.
   * @example { sentence: ["Leaning to ", { value: 9, unit: "mL" }, ": ..."], short: ["More liquid culture seems to give more."] }
   */
  lowered?: { sentence: Sentence } & AnswerFront &
    Partial<Pick<Answer, "certainty" | "estimates" | "tables" | "charts">>;
  estimates: Estimate[];
}

/** What the data cannot say, and what would settle it. */
export interface CannotTell extends OutcomeBase {
  kind: "cannot-tell";
  /** starts with what cannot be answered: "Cannot tell whether ..., because ..." */
  reason: Sentence;
  wouldSettle: Sentence;
  /** what it waits for, so that questions waiting for one thing are listed together */
  missing?: Missing;
  estimates: Estimate[];
  /** there where the program itself failed at the question: a code to report it by, and the error's own words */
  failure?: { code: string; what: string };
}

export type Outcome = Answer | CannotTell;

/** What an analysis gets to see: the cleaned book, nothing formatted. */
export interface Trial {
  trays: ReadonlyArray<Tray>;
  costLines?: ReadonlyArray<CostLine>;
  products?: ReadonlyArray<Product>;
  /** rows of the cost and product sheets that are left out or doubtful */
  unread?: ReadonlyArray<UnreadMoney>;
  settings: Readonly<Settings>;
  temperatureLog: ReadonlyArray<TemperatureReading>;
  issues: ReadonlyArray<Issue>;
  /** what questions share, worked out once */
  memo: Memo;
  /** which reading of the book this is, as the record beside the last report has it; absent where there is no record */
  reading?: Reading;
  /** finished cooks at each recorded reading, this one last; absent where there is no record */
  readings?: ReadonlyArray<ReadonlyArray<string>>;
}

/** The part of the report a question belongs to: what happened in the trays, or what it cost and earned. */
export type Topic = "growing" | "money";

/** One question a grower asks, answered from the records alone. */
export interface Analysis {
  /** the file's name without extension */
  id: string;
  /** the question in at most four words, for lists and rows: "Dose and yield" */
  name: string;
  question: string;
  /** canonical columns without which there is nothing to look at */
  needs: ReadonlyArray<HarvestFieldKey>;
  assumes: ReadonlyArray<string>;
  topic: Topic;
  /** true for a question about money that what is sold does not move */
  costsOnly?: true;
  /** whether its sentence stands at the top of the report */
  headline: boolean;
  /** true for the one question whose test comes before all others of the report */
  main?: true;
  /** @returns an answer, or why there is none; never throws on thin or odd data */
  run(trial: Trial): Outcome;
}

/** An analysis's outcome beside its question. */
export interface AnsweredQuestion {
  id: string;
  /** the question in at most four words */
  name: string;
  question: string;
  assumes: ReadonlyArray<string>;
  topic: Topic;
  headline: boolean;
  /** true for the one whose test comes before all others of the report */
  main?: true;
  outcome: Outcome;
  /** what happens to the answer when every tray with a flagged cell is left out; absent when no tray is flagged */
  withoutFlagged?: { trays: string[]; sentence: Sentence; changes: boolean };
}
