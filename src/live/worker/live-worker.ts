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
class LiveWorker {
  private work: AnswerAgain | undefined;
  private readonly waiting: Exclude<LiveOrder, { kind: "open" }>[] = [];
  /** what the page last heard of each question */
  private readonly heard = new Map<string, Worked>();
  private isBusy = false;

  async take(order: LiveOrder): Promise<void> {
    try {
      if (order.kind === "open") {
        this.work = new AnswerAgain(savedBook(readBookData(order.data)), order.full);
        await this.rehearse(order.questions, this.work);
        return;
      }
      // older edits need no answer any more
      if (order.kind === "edits")
        for (let index = this.waiting.length - 1; index >= 0; index--)
          if (this.waiting[index]!.kind === "edits") this.waiting.splice(index, 1);
      this.waiting.push(order);
      await this.next();
    } catch (error) {
      this.isBusy = false;
      tell({ kind: "trouble", text: error instanceof Error ? `${error.name}: ${error.message}` : String(error) });
    }
  }

  private isOvertaken(): boolean {
    return this.waiting.some(({ kind }) => kind === "edits");
  }

  private async next(): Promise<void> {
    if (this.isBusy || this.work === undefined) return;
    this.isBusy = true;
    for (let order = this.waiting.shift(); order !== undefined; order = this.waiting.shift()) {
      if (order.kind === "marks")
        tell({ kind: "marks", live: await this.work.ask(order.question, order.edits).drawn() });
      else await this.follow(order, this.work);
      tell({ kind: "done", turn: order.turn });
    }
    this.isBusy = false;
  }

  /** Headline sentences first, then every answer with its charts. */
  private async follow({ turn, edits, questions }: Extract<LiveOrder, { kind: "edits" }>, work: AnswerAgain) {
    for (const question of questions) {
      const worked = work.ask(question, edits);
      const { answer } = worked;
      if (answer.headline && this.heard.get(question) !== worked) {
        tell({ kind: "sentence", turn, answer });
        // the page now shows something else than the answer it had, even if these changes are overtaken
        this.heard.delete(question);
      }
      await breathe();
      if (this.isOvertaken()) return;
    }
    for (const question of questions) {
      const worked = work.ask(question, edits);
      if (this.heard.get(question) === worked) tell({ kind: "same", turn, question });
      else tell({ kind: "answer", turn, live: await worked.drawn() });
      this.heard.set(question, worked);
      await breathe();
      if (this.isOvertaken()) return;
    }
  }

  /** Asks the saved book's questions while there is nothing to do, so that the first change finds the work made quick. */
  private async rehearse(questions: ReadonlyArray<string>, work: AnswerAgain): Promise<void> {
    for (const question of questions) {
      await breathe();
      if (this.isBusy || this.waiting.length > 0) return;
      work.ask(question, noEdits);
    }
  }
}

/** Starts the worker of a live report. */
export function startLiveWorker(): void {
  const worker = new LiveWorker();
  self.addEventListener("message", ({ data }: MessageEvent<LiveOrder>) => void worker.take(data));
}
