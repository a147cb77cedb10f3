import { type DueList, dueList, isStale } from "../../../analyses/due/due-list.ts";
import type { AnsweredQuestion, Outcome } from "../../analysis.ts";
import { cleanedHarvestCsv } from "../../cleaning/cleaned-harvest-csv.ts";
import { issuesCsv } from "../../cleaning/issues-csv.ts";
import { type AnsweredSheets, withAnsweredSettings } from "../../engine/answered-settings.ts";
import { sentenceOf } from "../../engine/ask-question.ts";
import { runBook } from "../../engine/run-book.ts";
import { trialOf } from "../../engine/trial-of.ts";
import { version } from "../../engine/version.ts";
import { type BuiltLive, livePartsOf } from "../../live/model/book-parts.ts";
import type { Book } from "../../records/book.ts";
import { defaultSettings } from "../../records/setting-definitions.ts";
import type { SheetSource } from "../../records/sheet.ts";
import { sentenceText } from "../../report/format-quantity.ts";
import { figureText } from "../../report/front/figure-text.ts";
import { certaintyOf } from "../../report/front/verdict-mark.tsx";
import { renderReport } from "../../report/render-report.tsx";
import { visibleText } from "../../report/visible-text.ts";
import { summariseCleaning } from "./cleaned-summary.ts";
import type { AnswerLine, CleanedFiles, WorkNews } from "./messages.ts";
import { writeNumbersFor } from "./readers-locale.ts";

const longestSentence = 1200;

const cleanedFiles = (book: Book, { settingsCsv, answered }: AnsweredSheets): CleanedFiles => ({
  cleaned: cleanedHarvestCsv(book),
  log: issuesCsv(book.issues),
  settings: settingsCsv,
  ...(answered.columns === undefined ? {} : { columns: answered.columns }),
  ...(answered.cells === undefined ? {} : { cells: answered.cells }),
});

/** An answered question as one line, numbers written in the book's units. */
export function answerLine(
  { question, name, headline, outcome }: AnsweredQuestion,
  settings: Book["settings"],
): AnswerLine {
  return {
    question,
    name,
    headline,
    certainty: certaintyOf(outcome),
    text: visibleText(sentenceText(outcome.short ?? sentenceOf(outcome), settings), longestSentence),
    figure: outcome.figure === undefined ? "" : figureText(outcome.figure, settings).large,
    wouldSettle:
      outcome.kind === "cannot-tell" ? visibleText(sentenceText(outcome.wouldSettle, settings), longestSentence) : "",
  };
}

/** What is due today, and as it stood on the sheets' last day where that is some days ago. */
function dueLists(book: Book, today: string): DueList[] {
  const trial = trialOf(book);
  const listOn = (day: string) => dueList(trial, book.name, day, (says) => sentenceText(says, book.settings));
  const list = listOn(today);
  return isStale(list) ? [list, listOn(list.known)] : [list];
}

/** Why a book without trays answers nothing. */
function whyNothing(book: Book): string {
  const worst = book.issues.find(({ severity }) => severity === "error");
  if (worst !== undefined) {
    const place = `${worst.file}${worst.row > 0 ? `, row ${worst.row}` : ""}`;
    return visibleText(`${place}: ${worst.reason}${worst.action === "" ? "" : `. ${worst.action}`}`, longestSentence);
  }
  if ((book.planned?.length ?? 0) > 0) return "The trays of these sheets are planned, and none is started yet.";
  return book.harvestFiles.length === 0
    ? "No harvest sheet was found among these. Add one, with one row per started tray."
    : "The harvest sheets hold no trays yet. Type one row per started tray, then add the sheet again.";
}

/**
 * The whole path in a browser: sheets are cleaned, questions answered one by one, the report drawn; each piece is reported as
 * soon as it is there, and an answer that does not stand among all of them is reported a second time. Runs in a worker or in a page; touches neither network nor disk.
 * @param answers settings answered by the reader, by key
 * @param tell called with every piece of news, in order
 * @param options.built makes the report's sheets live, as those of the command line are
 * @param options.today the reader's day, for what is due
 * @param options.locale how numbers are written that the page tells, and in a book that states no format of its own
 */
export async function workOnBook(
  sources: ReadonlyArray<SheetSource>,
  answers: ReadonlyArray<readonly [key: string, value: string]>,
  name: string | undefined,
  tell: (news: WorkNews) => void,
  { built, locale, today }: { built?: BuiltLive; locale?: string; today?: string } = {},
): Promise<void> {
  tell({ kind: "stage", text: "Reading the sheets" });
  const settled = await withAnsweredSettings(sources, answers);
  const reported = new Map<string, Outcome>();
  let settings: Book["settings"] = defaultSettings;
  const { book, answers: answered } = await runBook(settled.sources, {
    ...(name === undefined ? {} : { name }),
    ...(today === undefined ? {} : { today }),
    onProgress: ({ file, rows }) =>
      tell({ kind: "stage", text: `Reading ${visibleText(file, 60)}: ${rows.toLocaleString(locale ?? "en")} rows` }),
    cleaned: (cleaned) => {
      if (locale !== undefined && !settled.statesLocale) writeNumbersFor(cleaned, locale);
      const summary = summariseCleaning(cleaned, settled.sources, locale);
      tell({ kind: "cleaned", summary, files: cleanedFiles(cleaned, settled) });
      settings = cleaned.settings;
      if (today !== undefined && cleaned.trays.length > 0) tell({ kind: "due", lists: dueLists(cleaned, today) });
    },
    step: (step) => {
      if (step.kind === "asking") tell({ kind: "stage", text: step.question, share: step.done / step.of });
      else {
        reported.set(step.answer.id, step.answer.outcome);
        tell({ kind: "answer", line: answerLine(step.answer, settings) });
      }
    },
  });
  if (book.trays.length === 0) {
    tell({ kind: "nothing", text: whyNothing(book) });
    return;
  }
  for (const answer of answered) {
    if (answer.outcome !== reported.get(answer.id)) tell({ kind: "answer", line: answerLine(answer, book.settings) });
  }
  tell({ kind: "stage", text: "Drawing the report", share: 1 });
  const live = built === undefined ? undefined : livePartsOf(book, built);
  const report = { book, answers: answered, generator: { version } };
  const html = await renderReport(live === undefined ? report : { ...report, live });
  tell({ kind: "report", report: html, isLive: live !== undefined });
}
