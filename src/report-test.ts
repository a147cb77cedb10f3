import type { Answer, AnsweredQuestion } from "./analysis.ts";
import type { TestedQuestion } from "./decisions/verdict/index.ts";

/** The deciding test of one question of a report. */
export interface ReportTest extends TestedQuestion {
  id: string;
  /** comes before all others */
  isMain: boolean;
}

/** The test an answer makes: the one it says decides, else the first of its estimates that has a p; none where none does. */
export function testsOf({ id, main, outcome }: Pick<AnsweredQuestion, "id" | "main" | "outcome">): ReportTest[] {
  const isMain = main === true;
  if (outcome.kind === "answer" && outcome.test !== undefined) {
    const { p, settleable, caps, settledBefore } = outcome.test;
    return p === undefined ? [] : [{ id, isMain, p, settleable, caps, settledBefore }];
  }
  const p = outcome.estimates.find((estimate) => estimate.p !== undefined)?.p;
  return p === undefined ? [] : [{ id, isMain, p }];
}

/** A settled answer in the words of what is left of it once something outside it lowers it; any other as it is. */
export function loweredAnswer(answer: Answer): Answer {
  if (answer.certainty !== "settled") return answer;
  const { lowered = {}, ...said } = answer;
  return { ...said, certainty: "leaning", ...lowered };
}
