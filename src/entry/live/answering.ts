import { signal } from "@preact/signals";
import type { Edits } from "./live-sheet.ts";
import type { LiveAnswer, LiveNews, LiveOrder } from "./worker-messages.ts";

/** questions that took longer than this are asked of a worker of their own, in milliseconds */
const slow = 400;

/** A worker that is ended and started afresh when what it works on is no longer wanted. */
class Lane {
  private worker: Worker | undefined;
  isBusy = false;

  constructor(
    private readonly make: () => Worker,
    private readonly data: string,
    private readonly hear: (news: LiveNews, lane: Lane) => void,
  ) {}

  /** Starts the worker where there is none, with the book open in it. */
  ready(): Worker {
    if (this.worker !== undefined) return this.worker;
    const worker = this.make();
    this.worker = worker;
    worker.addEventListener("message", ({ data }: MessageEvent<LiveNews>) => this.hear(data, this));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      this.isBusy = false;
      this.hear({ kind: "trouble", text: event.message || "the worker could not be started" }, this);
    });
    worker.postMessage({ kind: "open", data: this.data } satisfies LiveOrder);
    return worker;
  }

  send(order: LiveOrder, isReplacing: boolean): void {
    if (this.isBusy && isReplacing) {
      this.worker?.terminate();
      this.worker = undefined;
    }
    this.isBusy = true;
    this.ready().postMessage(order);
  }
}

/** What is being worked out. */
export const working = signal<{ left: number; trouble: string }>({ left: 0, trouble: "" });

/**
 * Keeps the answers in step with the changes: quick questions in one worker, slow ones in another, so that neither the
 * page nor a quick answer waits for a long fit.
 */
export class Answering {
  private turn = 0;
  /** when the last change was made, on the page's clock */
  private since = 0;
  private readonly lanes: { quick: Lane; slow: Lane };
  private readonly times = new Map<string, number>();
  private waiting = new Set<string>();
  private readonly marksAsked = new Map<string, (live: LiveAnswer) => void>();
  /** what a fresh slow worker is asked first of a question never timed */
  private readonly slowGuess: ReadonlySet<string>;

  constructor(
    makeWorker: () => Worker,
    data: string,
    private readonly questions: ReadonlyArray<string>,
    private readonly show: (live: LiveAnswer) => void,
    slowGuess: ReadonlyArray<string>,
  ) {
    this.slowGuess = new Set(slowGuess);
    const lane = () => new Lane(makeWorker, data, (news, from) => this.hear(news, from));
    this.lanes = { quick: lane(), slow: lane() };
  }

  private isSlow(question: string): boolean {
    const time = this.times.get(question);
    return time === undefined ? this.slowGuess.has(question) : time > slow;
  }

  private hear(news: LiveNews, lane: Lane): void {
    if (news.kind === "trouble") {
      lane.isBusy = false;
      this.waiting.clear();
      working.value = { left: 0, trouble: news.text };
      return;
    }
    if (news.kind === "marks") {
      const { id } = news.live.answer;
      this.marksAsked.get(id)?.(news.live);
      this.marksAsked.delete(id);
      return;
    }
    if (news.kind === "answer") {
      const { id } = news.live.answer;
      this.times.set(id, Math.max(news.milliseconds, (this.times.get(id) ?? 0) / 2));
      if (news.turn !== this.turn) return;
      this.marksAsked.get(id)?.(news.live);
      this.marksAsked.delete(id);
      this.waiting.delete(id);
      this.show(news.live);
      performance.measure(`gramwright answer ${id}`, { start: this.since, end: performance.now() });
      working.value = { left: this.waiting.size, trouble: "" };
      return;
    }
    if (news.turn !== this.turn) return;
    if (news.kind === "same") {
      this.waiting.delete(news.question);
      working.value = { left: this.waiting.size, trouble: "" };
    } else lane.isBusy = false;
  }

  /** Starts the workers before anything is asked of them. */
  prepare(): void {
    for (const lane of Object.values(this.lanes)) lane.ready();
  }

  /** Works out every question that hangs on what was changed at a time of the page's clock; quickest first. */
  follow(edits: Edits, since: number): void {
    this.turn += 1;
    this.since = since;
    const { turn } = this;
    // a question never timed that is guessed to be slow comes last
    const timeOf = (id: string): number => this.times.get(id) ?? (this.slowGuess.has(id) ? Number.MAX_VALUE : 0);
    const inOrder = [...this.questions].sort((a, b) => timeOf(a) - timeOf(b));
    // a worker that is ended tells no marks: they can be asked for again
    if (this.lanes.slow.isBusy)
      for (const id of this.marksAsked.keys()) if (this.isSlow(id)) this.marksAsked.delete(id);
    const [quick, late] = [inOrder.filter((id) => !this.isSlow(id)), inOrder.filter((id) => this.isSlow(id))];
    this.waiting = new Set(inOrder);
    working.value = { left: this.waiting.size, trouble: "" };
    if (quick.length > 0) this.lanes.quick.send({ kind: "edits", turn, edits, questions: quick }, false);
    if (late.length > 0) this.lanes.slow.send({ kind: "edits", turn, edits, questions: late }, true);
  }

  /** One question's charts with the places of their marks. */
  marks(question: string, edits: Edits, then: (live: LiveAnswer) => void): void {
    if (this.marksAsked.has(question)) {
      this.marksAsked.set(question, then);
      return;
    }
    this.marksAsked.set(question, then);
    const lane = this.isSlow(question) ? this.lanes.slow : this.lanes.quick;
    lane.send({ kind: "marks", turn: this.turn, edits, question }, false);
  }
}
