import { analyses } from "../../../analyses/index.ts";
import type { AnsweredQuestion } from "../../analysis.ts";
import { askQuestion } from "../../engine/ask-question.ts";
import { trialOf, unflaggedTrays } from "../../engine/trial-of.ts";
import { Memo } from "../../records/memo.ts";
import { type EditedBook, editedBook } from "../model/edited-book.ts";
import { FollowedBook, type Looked, stateOf } from "../model/followed-book.ts";
import type { Edits } from "../model/live-sheet.ts";
import type { SavedBook } from "../model/saved-book.ts";
import { DrawingsAgain } from "./drawings-again.ts";
import type { LiveAnswer } from "./worker-messages.ts";

/** answers kept of one question, so that undoing costs nothing */
const mostKept = 6;

/** A question worked out; its charts are drawn when they are wanted, once. */
export interface Worked {
  answer: AnsweredQuestion;
  drawn(): Promise<LiveAnswer>;
}

interface Kept {
  looked: Looked;
  state: string;
  worked: Worked;
}

/** Numbers are written in the book's own format, whatever a question looked at. */
const format = ["locale", "displayUnits", "currency", "currencyDecimals"];

/** The parts of the edits that the parts of a book follow from. */
function partNames({ cells, aside, deleted }: Edits, { book }: EditedBook) {
  const of = (name: string) =>
    JSON.stringify([cells, deleted].map((places) => places.filter(({ sheet }) => sheet === name)));
  return {
    trays: JSON.stringify([
      of("trays"),
      aside,
      book.issues.length,
      book.trays.map(({ flags }) => flags.length).join(""),
    ]),
    costs: JSON.stringify([of("costs"), book.settings.ownerLabourRate]),
    products: of("products"),
  };
}

/** Works out questions of a changed book, remembering the last answers and what they hang on. */
export class AnswerAgain {
  private readonly kept = new Map<string, Kept[]>();
  private last:
    | { edits: Edits; edited: EditedBook; names: ReturnType<typeof partNames>; followed: FollowedBook }
    | undefined;

  private readonly drawings = new DrawingsAgain();
  private readonly memo = new Memo();

  constructor(private readonly saved: SavedBook) {}

  private stateAt(edits: Edits) {
    if (this.last?.edits === edits) return this.last;
    const edited = editedBook(this.saved, edits);
    const followed = new FollowedBook(edited.book, this.last?.followed);
    this.last = { edits, edited, names: partNames(edits, edited), followed };
    return this.last;
  }

  private workedOf(answer: AnsweredQuestion, { settings }: EditedBook["book"]): Worked {
    let drawn: Promise<LiveAnswer> | undefined;
    const draw = async (): Promise<LiveAnswer> => ({
      answer,
      drawings: await this.drawings.draw(answer.id, answer.outcome.charts, settings),
    });
    return {
      answer,
      drawn: () => {
        drawn ??= draw();
        return drawn;
      },
    };
  }

  /** One question's answer; the very same object while nothing it hangs on has changed. */
  ask(question: string, edits: Edits): Worked {
    const analysis = analyses.find(({ id }) => id === question);
    if (analysis === undefined) throw new RangeError(`ask: there is no question ${JSON.stringify(question)}`);
    const { edited, names, followed } = this.stateAt(edits);
    const known = this.kept.get(question) ?? [];
    const before = known.find(({ looked, state }) => stateOf(edited.book, names, looked) === state);
    if (before !== undefined) return before.worked;
    const { found, looked } = followed.let((book) =>
      askQuestion(analysis, trialOf(book, book.trays, this.memo), () =>
        trialOf(book, unflaggedTrays(book.trays, this.memo), this.memo),
      ),
    );
    for (const property of format) looked.settings.add(property);
    const worked = this.workedOf(found, edited.book);
    const state = stateOf(edited.book, names, looked);
    this.kept.set(question, [{ looked, state, worked }, ...known].slice(0, mostKept));
    return worked;
  }
}
