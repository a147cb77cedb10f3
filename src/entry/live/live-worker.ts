import { AnswerAgain } from "./answer-again.ts";
import { readBookData } from "./book-data.ts";
import { savedBook } from "./saved-book.ts";
import type { LiveAnswer, LiveNews, LiveOrder } from "./worker-messages.ts";

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
  const told = new Map<string, LiveAnswer>();
  let isBusy = false;

  const next = async (): Promise<void> => {
    if (isBusy || work === undefined) return;
    isBusy = true;
    for (let order = waiting.shift(); order !== undefined; order = waiting.shift()) {
      const questions = order.kind === "edits" ? order.questions : [order.question];
      for (const question of questions) {
        const start = performance.now();
        const live = await work.answer(question, order.edits);
        const milliseconds = performance.now() - start;
        if (order.kind === "marks") tell({ kind: "marks", live });
        else if (told.get(question) === live) tell({ kind: "same", turn: order.turn, question });
        else tell({ kind: "answer", turn: order.turn, live, milliseconds });
        if (order.kind === "edits") told.set(question, live);
        await breathe();
        if (order.kind === "edits" && waiting.some(({ kind }) => kind === "edits")) break;
      }
      tell({ kind: "done", turn: order.turn });
    }
    isBusy = false;
  };

  self.addEventListener("message", ({ data }: MessageEvent<LiveOrder>) => {
    if (data.kind === "open") work = new AnswerAgain(savedBook(readBookData(data.data)));
    else {
      if (data.kind === "edits") {
        // older edits need no answer any more
        for (let index = waiting.length - 1; index >= 0; index--)
          if (waiting[index]!.kind === "edits") waiting.splice(index, 1);
      }
      waiting.push(data);
    }
    next().catch((error: unknown) => {
      isBusy = false;
      tell({ kind: "trouble", text: error instanceof Error ? `${error.name}: ${error.message}` : String(error) });
    });
  });
}
