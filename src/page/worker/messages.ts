import type { DueList } from "../../../analyses/due/due-list.ts";
import type { BuiltLive } from "../../live/model/book-parts.ts";
import type { CertaintyWord } from "../../report/front/verdict-mark.tsx";
import type { CleanedSummary } from "./cleaned-summary.ts";

/** A sheet as it was dropped: its name inside the book and its bytes, which stay as they were at that moment. */
export interface SheetInHand {
  /** with forward slashes: "harvests/spring.csv" */
  path: string;
  bytes: Blob;
}

/** What the page asks of the worker: one book, from sheets to report. */
export interface WorkOrder {
  /** bytes and not blobs: WebKit lets no worker of a page opened from disk read a blob */
  sheets: { path: string; bytes: ArrayBuffer }[];
  /** settings answered by the reader, by their keys; they win over the settings sheet */
  answers: [key: string, value: string][];
  /** the dropped folder's name, where there was one */
  name?: string;
  /** what makes the report live */
  live: BuiltLive;
  /** how the reader's browser writes numbers, a language tag */
  locale: string;
  /** the reader's day, ISO 8601 */
  today: string;
}

/** One question answered, in the words of the report's front. */
export interface AnswerLine {
  question: string;
  /** what it is about, in a few words */
  name: string;
  /** its one large number; "" where it has none */
  figure: string;
  certainty: CertaintyWord;
  text: string;
  /** what would settle it; "" for an answer */
  wouldSettle: string;
  headline: boolean;
}

/** Sheets written after cleaning, as text to be saved. */
export interface CleanedFiles {
  cleaned: string;
  log: string;
  settings: string;
  /** what columns and single cells hold, where it was answered */
  columns?: string;
  cells?: string;
}

/** What the worker tells the page, in this order; "stage" in between. */
export type WorkNews =
  /** `share`: how much of the stage is done, 0 to 1, where that is known */
  | { kind: "stage"; text: string; share?: number }
  | { kind: "cleaned"; summary: CleanedSummary; files: CleanedFiles }
  /** what is due: today, and on the sheets' last day where that is some days ago */
  | { kind: "due"; lists: DueList[] }
  /** a question answered before is reported again where its answer does not stand among all */
  | { kind: "answer"; line: AnswerLine }
  /** `isLive`: its sheets can be changed where scripts may run */
  | { kind: "report"; report: string; isLive: boolean }
  /** nothing can be answered; says why in one sentence */
  | { kind: "nothing"; text: string }
  | { kind: "trouble"; text: string };
