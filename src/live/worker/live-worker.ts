import { readBookData } from "../model/book-data.ts";
import { noEdits } from "../model/live-sheet.ts";
import { savedBook } from "../model/saved-book.ts";
import { AnswerAgain, type Worked } from "./answer-again.ts";
import type { LiveNews, LiveOrder } from "./worker-messages.ts";

const tell = (news: LiveNews): void => self.postMessage(news);

/** Lets messages that have come in the meantime be heard; a timer would wait 4 ms each time. */
const breathe = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(0);
  });

/** Answers orders, one question after the other; the newest order wins. */
export function startLiveWorker(): void {
  let work: AnswerAgain | undefined;
  const waiting: Exclude<LiveOrder, { kind: "open" }>[] = [];
  /** what the page was last told of each question */
  const told = new Map<string, Worked>();
  let isBusy = false;
  const isOvertaken = (): boolean => waiting.some(({ kind }) => kind === "edits");

  const marks = async ({ edits, question }: Extract<LiveOrder, { kind: "marks" }>, again: AnswerAgain) =>
    tell({ kind: "marks", live: await again.ask(question, edits).drawn() });

  /** Headline sentences first, then every answer with its charts. */
  const follow = async ({ turn, edits, questions }: Extract<LiveOrder, { kind: "edits" }>, again: AnswerAgain) => {
    for (const question of questions) {
      const worked = again.ask(question, edits);
      const { answer } = worked;
      if (answer.headline && told.get(question) !== worked) {
        tell({ kind: "sentence", turn, answer });
        // the page now shows something else than the answer it had, even if these changes are overtaken
        told.delete(question);
      }
      await breathe();
      if (isOvertaken()) return;
    }
    for (const question of questions) {
      const worked = again.ask(question, edits);
      if (told.get(question) === worked) tell({ kind: "same", turn, question });
      else tell({ kind: "answer", turn, live: await worked.drawn() });
      told.set(question, worked);
      await breathe();
      if (isOvertaken()) return;
    }
  };

  /** Asks the saved book's questions while there is nothing to do, so that the first change finds the work made quick. */
  const rehearse = async (questions: ReadonlyArray<string>, again: AnswerAgain): Promise<void> => {
    for (const question of questions) {
      await breathe();
      if (isBusy || waiting.length > 0) return;
      again.ask(question, noEdits);
    }
  };

  const next = async (): Promise<void> => {
    if (isBusy || work === undefined) return;
    isBusy = true;
    for (let order = waiting.shift(); order !== undefined; order = waiting.shift()) {
      if (order.kind === "marks") await marks(order, work);
      else await follow(order, work);
      tell({ kind: "done", turn: order.turn });
    }
    isBusy = false;
  };

  self.addEventListener("message", ({ data }: MessageEvent<LiveOrder>) => {
    if (data.kind === "open") work = new AnswerAgain(savedBook(readBookData(data.data)), data.full);
    else {
      if (data.kind === "edits") {
        // older edits need no answer any more
        for (let index = waiting.length - 1; index >= 0; index--)
          if (waiting[index]!.kind === "edits") waiting.splice(index, 1);
      }
      waiting.push(data);
    }
    const doing = data.kind === "open" ? rehearse(data.questions, work!) : next();
    doing.catch((error: unknown) => {
      isBusy = false;
      tell({ kind: "trouble", text: error instanceof Error ? `${error.name}: ${error.message}` : String(error) });
    });
  });
}
