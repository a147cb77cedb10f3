import type { AnsweredQuestion } from "../../analysis.ts";
import type { DrawnChart } from "../../report/charts/draw-chart.ts";
import type { Edits } from "../model/live-sheet.ts";

/** What the page asks of a worker. */
export type LiveOrder =
  /** comes first, once: the book as it stands in the page, the questions this worker will be asked, and those open in full */
  | { kind: "open"; data: string; questions: ReadonlyArray<string>; full: ReadonlyArray<string> }
  /** work out these questions again, in this order; a later order replaces one that is not finished */
  | { kind: "edits"; turn: number; edits: Edits; questions: string[] }
  /** one question's charts as they are, with the places of their marks */
  | { kind: "marks"; turn: number; edits: Edits; question: string };

/** A question answered of a changed book. */
export interface LiveAnswer {
  answer: AnsweredQuestion;
  /** its chart; absent where it has none */
  drawn: DrawnChart | undefined;
}

/** What a worker tells the page. */
export type LiveNews =
  /** a headline question's answer, ahead of its charts */
  | { kind: "sentence"; turn: number; answer: AnsweredQuestion }
  | { kind: "answer"; turn: number; live: LiveAnswer }
  /** what was asked for its marks; the page shows this answer already */
  | { kind: "marks"; live: LiveAnswer }
  /** this question does not depend on what was changed since it was last answered */
  | { kind: "same"; turn: number; question: string }
  | { kind: "done"; turn: number }
  | { kind: "trouble"; text: string };
