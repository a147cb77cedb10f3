import { benjaminiHochbergAdjustment } from "../../statistics/comparisons/p-value-adjustments.ts";
import type { Reading } from "./compared-tray.ts";
import type { Cap } from "./decision.ts";
import { mostThat } from "./judge.ts";
import { othersShare, readingLevel } from "./reading-level.ts";

/** A question of the report as far as its significance goes; a `Decision` is one. */
export interface TestedQuestion {
  /** its deciding p; absent where no test decides */
  p?: number;
  /** false where p alone may not settle it */
  settleable?: boolean;
  caps?: ReadonlyArray<Cap>;
  /** settled at an earlier reading by the level of that one, and not contradicted since: it has spent its level */
  settledBefore?: boolean;
}

/** Significance of one question among all of the report. */
export interface QuestionLevel {
  /** the question is settled if its p is below this, and nothing else caps it; see `atSignificance` */
  significance: number;
  /** p adjusted for the questions it shares its level with */
  adjusted?: number;
  stands: boolean;
}

/** Significance of every question of a report. */
export interface WholeReport {
  main: QuestionLevel;
  /** in the order given */
  others: QuestionLevel[];
}

/**
 * Shares the significance level out over all questions of a report: the main question first, the others at a tenth of the
 * level until the main one is settled, then at the level; among the others the expected share of false ones is held. At a
 * reading beside the planned one the others get no more than what the main one leaves and their own tenth.
 * @param input `alpha` of the whole report, 0.05 unless stated; `reading`, "unknown" unless stated; the main question, absent
 *   where nothing was varied; the other questions
 * @throws RangeError if a p is not between 0 and 1
 * @source Benjamini and Hochberg 1995, Journal of the Royal Statistical Society B 57:289-300; after the idea of passing level
 *   on, Bretz, Maurer, Brannath and Posch 2009, Statistics in Medicine 28:586-604; the shares are the project's own (test/simulation)
 * @example wholeReport({ main: { p: 0.01 }, others: [{ p: 0.02 }, { p: 0.4 }] }).others[0].stands // true
 */
export function wholeReport(input: {
  alpha?: number;
  reading?: Reading;
  main?: TestedQuestion;
  others: ReadonlyArray<TestedQuestion>;
}): WholeReport {
  const { alpha = 0.05, reading = "unknown", main, others } = input;
  const mainLevel = readingLevel(alpha, reading);
  const mainStands = main !== undefined && stands(main, mainLevel);
  const passedOn = reading === "other" ? mainLevel + othersShare * alpha : alpha;
  const level = mainStands ? passedOn : othersShare * alpha;
  const tested = others.flatMap(({ p }, i) => (p === undefined ? [] : [{ p, i }]));
  const adjusted = benjaminiHochbergAdjustment(tested.map(({ p }) => p));
  const rejected = adjusted.filter((p) => p <= level).length;
  const significance = (Math.max(1, rejected) / Math.max(1, tested.length)) * level;
  const answers = others.map((): QuestionLevel => ({ significance, stands: false }));
  tested.forEach(({ i }, at) => {
    answers[i] = { significance, adjusted: adjusted[at]!, stands: stands(others[i]!, significance) };
  });
  return {
    main: {
      significance: mainLevel,
      ...(main?.p === undefined ? {} : { adjusted: main.p }),
      stands: mainStands,
    },
    others: answers,
  };
}

function stands(question: TestedQuestion, significance: number): boolean {
  const { p, settleable = true, caps = [], settledBefore = false } = question;
  return settledBefore || (p !== undefined && p < significance && settleable && mostThat(caps) === "settled");
}
