import type { AnsweredQuestion } from "../../src/analysis.ts";
import { cleanBook } from "../../src/cleaning/clean-book.ts";
import { askInTurn } from "../../src/engine/run-book.ts";
import type { Book } from "../../src/records/book.ts";
import type { SheetSource } from "../../src/records/sheet.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { sheet } from "../cleaning/book-of.ts";
import { answerQuestions } from "../engine/answer-questions.ts";
import { growTrays } from "./grow-trays.ts";
import { nothingHappens } from "./scenarios.ts";
import { blockedInCooks } from "./trial-plans.ts";

/** A dose trial with a gain that is hardly to be separated from none. */
function weakTrial(seed: number): string {
  const truth = { ...nothingHappens, grams: (dose: number) => 18.4 + 0.27 * dose };
  const trays = growTrays(blockedInCooks(4, [3, 6, 9], 4), truth, seededRandom(seed));
  return [
    "tray,cook,dose mL,inoculated,colonised,harvested,outcome,dry g",
    ...trays.map((tray) =>
      [
        tray.trayId,
        tray.batch,
        tray.inoculumMillilitres,
        tray.inoculatedOn,
        tray.colonisedOn,
        tray.harvestedOn,
        tray.outcome,
        tray.dryGrams,
      ].join(","),
    ),
  ].join("\n");
}

export const certaintyOf = ({ outcome }: AnsweredQuestion): string =>
  outcome.kind === "answer" ? outcome.certainty : outcome.kind;

/** The answers of a book before they are allowed for how many tests there are. */
const answersAlone = (book: Book): AnsweredQuestion[] =>
  [...askInTurn(book)].flatMap((step) => (step.kind === "answered" ? [step.answer] : []));

/** A book in which an answer is clear taken alone and does not stand among all tests of the report. */
export async function bookWithFallenAnswer(): Promise<{
  source: SheetSource;
  book: Book;
  alone: AnsweredQuestion[];
  together: AnsweredQuestion[];
}> {
  for (let seed = 21; seed < 121; seed++) {
    const source = sheet("trial.csv", weakTrial(seed));
    const book = await cleanBook([source]);
    const [alone, together] = [answersAlone(book), answerQuestions(book)];
    if (together.some((answer, index) => certaintyOf(answer) !== certaintyOf(alone[index]!)))
      return { source, book, alone, together };
  }
  throw new Error("no book of the first hundred has such an answer");
}
