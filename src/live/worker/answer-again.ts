import { analyses } from "../../../analyses/index.ts";
import type { AnsweredQuestion } from "../../analysis.ts";
import { KeptAnswers } from "../../engine/kept-answers.ts";
import type { Book } from "../../records/book.ts";
import { Memo } from "../../records/memo.ts";
import { editedBook, mostCleaned } from "../model/edited-book.ts";
import type { Edits } from "../model/live-sheet.ts";
import type { SavedBook } from "../model/saved-book.ts";
import { DrawingsAgain } from "./drawings-again.ts";
import type { LiveAnswer } from "./worker-messages.ts";

/** A question worked out; its charts are drawn when they are wanted, once. */
export interface Worked {
  answer: AnsweredQuestion;
  drawn(): Promise<LiveAnswer>;
}

/** Works out questions of a changed book; one that nothing it looked at was changed for is the very same object. */
export class AnswerAgain {
  private readonly answers = new KeptAnswers();
  private readonly drawings: DrawingsAgain;
  private readonly cleaned = new Memo(mostCleaned);
  private readonly worked = new WeakMap<AnsweredQuestion, Worked>();
  private last: { edits: Edits; book: Book } | undefined;

  constructor(
    private readonly saved: SavedBook,
    full: ReadonlyArray<string> = [],
  ) {
    this.drawings = new DrawingsAgain(new Set(full));
  }

  private bookWith(edits: Edits): Book {
    if (this.last?.edits !== edits) this.last = { edits, book: editedBook(this.saved, edits, this.cleaned).book };
    return this.last.book;
  }

  private workedOf(answer: AnsweredQuestion, book: Book): Worked {
    let drawn: Promise<LiveAnswer> | undefined;
    const draw = async (): Promise<LiveAnswer> => ({
      answer,
      drawn: await this.drawings.draw(answer, book),
    });
    return {
      answer,
      drawn: () => {
        drawn ??= draw();
        return drawn;
      },
    };
  }

  /** @throws RangeError if there is no such question */
  ask(question: string, edits: Edits): Worked {
    const analysis = analyses.find(({ id }) => id === question);
    if (analysis === undefined) throw new RangeError(`ask: there is no question ${JSON.stringify(question)}`);
    const book = this.bookWith(edits);
    const answer = this.answers.ask(analysis, book);
    const worked = this.worked.get(answer) ?? this.workedOf(answer, book);
    this.worked.set(answer, worked);
    return worked;
  }
}
