import { signal } from "@preact/signals";
import type { AnsweredQuestion } from "../../analysis.ts";
import { type Edits, noEdits } from "../model/live-sheet.ts";
import type { LiveAnswer, LiveNews, LiveOrder } from "./worker-messages.ts";

/** a worker that was silent for so long on something no longer wanted is ended and started again, in milliseconds */
const patience = 400;

/** A worker that is ended and started again when what it works on is no longer wanted. */
class Lane {
  private worker: Worker | undefined;
  isBusy = false;
  /** when it was last heard, or given something to do while it had nothing */
  private lastSign = 0;

  constructor(
    private readonly make: () => Worker,
    private readonly data: string,
    readonly questions: ReadonlyArray<string>,
    private readonly full: ReadonlyArray<string>,
    private readonly hear: (news: LiveNews, lane: Lane) => void,
  ) {}

  /** Starts the worker where there is none, with the book open in it. */
  ready(): Worker {
    if (this.worker !== undefined) return this.worker;
    const worker = this.make();
    this.worker = worker;
    worker.addEventListener("message", ({ data }: MessageEvent<LiveNews>) => {
      this.lastSign = performance.now();
      this.hear(data, this);
    });
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      this.isBusy = false;
      this.hear({ kind: "trouble", text: event.message || "the worker could not be started" }, this);
    });
    worker.postMessage({
      kind: "open",
      data: this.data,
      questions: this.questions,
      full: this.full,
    } satisfies LiveOrder);
    return worker;
  }

  /** Ends a worker that is stuck in one long fit. @returns whether it did */
  endIfStuck(): boolean {
    if (!this.isBusy || performance.now() - this.lastSign < patience) return false;
    this.worker?.terminate();
    this.worker = undefined;
    this.isBusy = false;
    return true;
  }

  send(order: LiveOrder): void {
    if (!this.isBusy) this.lastSign = performance.now();
    this.isBusy = true;
    this.ready().postMessage(order);
  }
}

/** What is being worked out: answers still to come, what went wrong, and the changes that every answer follows. */
export const working = signal<{ left: number; trouble: string; followed?: Edits }>({ left: 0, trouble: "" });

/**
 * Keeps the answers in step with the changes. Every question goes to the same worker each time, so that what the
 * questions of one worker have in common is worked out once, and what was reported before is known.
 */
export class Answering {
  private turn = 0;
  /** the changes of that turn */
  private edits = noEdits;
  /** when the last change was made, on the page's clock */
  private since = 0;
  private readonly lanes: ReadonlyArray<Lane>;
  private waiting = new Set<string>();
  private readonly marksAsked = new Map<string, (live: LiveAnswer) => void>();

  /**
   * @param shared questions by worker, in the order wanted
   * @param full questions that are open in full
   * @param show.sentence called with a headline answer ahead of its charts
   * @param show.answer called with an answer and its charts
   */
  constructor(
    makeWorker: () => Worker,
    data: string,
    shared: ReadonlyArray<ReadonlyArray<string>>,
    full: ReadonlyArray<string>,
    private readonly show: { sentence(answer: AnsweredQuestion): void; answer(live: LiveAnswer): void },
  ) {
    this.lanes = shared.map(
      (questions) => new Lane(makeWorker, data, questions, full, (news, from) => this.hear(news, from)),
    );
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
    if (news.kind === "sentence") {
      if (news.turn !== this.turn) return;
      this.show.sentence(news.answer);
      this.measure("sentence", news.answer.id);
      return;
    }
    if (news.kind === "answer") {
      const { id } = news.live.answer;
      this.marksAsked.get(id)?.(news.live);
      this.marksAsked.delete(id);
      // shown even where it is overtaken: the worker counts it as heard, and sends nothing where the next one is the same
      this.show.answer(news.live);
      if (news.turn !== this.turn) return;
      this.waiting.delete(id);
      this.measure("answer", id);
      this.tellLeft();
      return;
    }
    if (news.turn !== this.turn) return;
    if (news.kind === "same") {
      this.waiting.delete(news.question);
      this.tellLeft();
    } else lane.isBusy = false;
  }

  private tellLeft(): void {
    const left = this.waiting.size;
    working.value = { left, trouble: "", ...(left === 0 ? { followed: this.edits } : {}) };
  }

  /** How long after the last change something was shown, for the browser's own record of times. */
  private measure(what: "sentence" | "answer", id: string): void {
    performance.measure(`gramwright ${what} ${id}`, { start: this.since, end: performance.now() });
  }

  /** Starts the workers before anything is asked of them. */
  prepare(): void {
    for (const lane of this.lanes) lane.ready();
  }

  /** Works out every question that depends on what was changed at a time of the page's clock. */
  follow(edits: Edits, since: number): void {
    this.turn += 1;
    this.since = since;
    this.edits = edits;
    const { turn } = this;
    this.waiting = new Set(this.lanes.flatMap(({ questions }) => questions));
    working.value = { left: this.waiting.size, trouble: "" };
    for (const lane of this.lanes) {
      const { questions } = lane;
      // a worker that is ended tells no marks: they can be asked for again
      if (lane.endIfStuck()) for (const id of questions) this.marksAsked.delete(id);
      lane.send({ kind: "edits", turn, edits, questions: [...questions] });
    }
  }

  /** One question's charts with the places of their marks. */
  marks(question: string, edits: Edits, then: (live: LiveAnswer) => void): void {
    const isAsked = this.marksAsked.has(question);
    this.marksAsked.set(question, then);
    if (isAsked) return;
    const own = this.lanes.find(({ questions }) => questions.includes(question));
    own?.send({ kind: "marks", turn: this.turn, edits, question });
  }
}
