import { analyses } from "../../../analyses/index.ts";
import { askQuestions } from "../engine.ts";
import { DrawingsAgain } from "./drawings-again.ts";
import { type EditedBook, editedBook } from "./edited-book.ts";
import { followedBook, type Looked, stateOf } from "./followed-book.ts";
import type { Edits } from "./live-sheet.ts";
import type { SavedBook } from "./saved-book.ts";
import type { LiveAnswer } from "./worker-messages.ts";

/** answers kept of one question, so that undoing costs nothing */
const mostKept = 6;

interface Kept {
  looked: Looked;
  state: string;
  live: LiveAnswer;
}

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
  private readonly drawings = new DrawingsAgain();
  private last: { edits: Edits; edited: EditedBook } | undefined;

  constructor(private readonly saved: SavedBook) {}

  /** One question's answer with its charts; the very same object while nothing it hangs on has changed. */
  async answer(question: string, edits: Edits): Promise<LiveAnswer> {
    const analysis = analyses.find(({ id }) => id === question);
    if (analysis === undefined) throw new RangeError(`answer: there is no question ${JSON.stringify(question)}`);
    const edited = this.last?.edits === edits ? this.last.edited : editedBook(this.saved, edits);
    this.last = { edits, edited };
    const names = partNames(edits, edited);
    const known = this.kept.get(question) ?? [];
    const before = known.find(({ looked, state }) => stateOf(edited.book, names, looked) === state);
    if (before !== undefined) return before.live;
    const { book, looked } = followedBook(edited.book);
    const [answer] = askQuestions(book, [analysis]);
    const drawings = await this.drawings.draw(question, answer!.outcome.charts, edited.book.settings);
    // numbers are written in the book's own format, whatever the question looked at
    for (const property of ["locale", "displayUnits", "currency", "currencyDecimals"]) looked.settings.add(property);
    const live = { answer: answer!, drawings };
    this.kept.set(
      question,
      [{ looked, state: stateOf(edited.book, names, looked), live }, ...known].slice(0, mostKept),
    );
    return live;
  }
}
