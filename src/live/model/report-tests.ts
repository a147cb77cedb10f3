import type { AnsweredQuestion } from "../../analysis.ts";
import { allowForTests } from "../../engine/allow-for-tests.ts";
import { type ReportTest, testsOf } from "../../report-test.ts";
import type { LiveAnswer } from "../worker/worker-messages.ts";

/** The tests each question's section was saved with. */
export function savedTests(page: Document): Map<string, ReportTest[]> {
  const tests = new Map<string, ReportTest[]>();
  for (const { dataset } of page.querySelectorAll<HTMLElement>(".question[data-tests]")) {
    const id = dataset.question ?? "";
    tests.set(id, JSON.parse(dataset.tests!) as ReportTest[]);
  }
  return tests;
}

/**
 * Holds every answer that is worked out again against all tests of the report, as the saved ones were: a worker answers one
 * question and does not know the others.
 */
export class ReportTests {
  private readonly shown = new Map<string, { alone: LiveAnswer; certainty: string }>();

  /** @param tests of the saved report, by question */
  constructor(private readonly tests: Map<string, ReportTest[]>) {}

  private allowed(alone: LiveAnswer, rate: number): LiveAnswer {
    const [answer] = allowForTests([alone.answer], [...this.tests.values()].flat(), rate);
    return answer === alone.answer ? alone : { ...alone, answer: answer! };
  }

  /** One question's new answer as it will be reported, before its charts are there. */
  ahead(answer: AnsweredQuestion, rate: number): AnsweredQuestion {
    this.tests.set(answer.id, testsOf(answer));
    return allowForTests([answer], [...this.tests.values()].flat(), rate)[0]!;
  }

  /**
   * Takes in one question's new answer.
   * @param rate accepted share of false findings
   * @returns what is to be shown: this answer first, then others of this visit that stand or fall with it
   */
  hear(live: LiveAnswer, rate: number): LiveAnswer[] {
    const { id } = live.answer;
    this.tests.set(id, testsOf(live.answer));
    this.shown.delete(id);
    const show: LiveAnswer[] = [];
    for (const { alone, before } of [
      { alone: live, before: undefined },
      ...[...this.shown.values()].map((one) => ({ alone: one.alone, before: one.certainty })),
    ]) {
      const now = this.allowed(alone, rate);
      const certainty = now.answer.outcome.kind === "answer" ? now.answer.outcome.certainty : now.answer.outcome.kind;
      this.shown.set(alone.answer.id, { alone, certainty });
      if (certainty !== before) show.push(now);
    }
    return show;
  }
}
