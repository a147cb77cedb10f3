import { expect, test } from "vitest";
import type { Analysis, Answer, Trial } from "../../src/analysis.ts";
import type { Book } from "../../src/records/book.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import { trayRecord } from "../analyses/demo-records.ts";
import { answerQuestions } from "./answer-questions.ts";

const bookOf = (trays = [trayRecord({ trayId: "1" })]): Book => ({
  name: "test",
  settings: { ...defaultSettings },
  trays,
  temperatureLog: [],
  columns: [],
  issues: [],
  leftOut: [],
  harvestFiles: [],
});

const question = (id: string, of: (trays: number) => Partial<Answer> & { p?: number }, headline = true): Analysis => ({
  id,
  name: id,
  question: id,
  needs: [],
  assumes: [],
  topic: "growing",
  headline,
  run: ({ trays }) => {
    const { p, ...given } = of(trays.length);
    const estimate = { label: id, value: trays.length, level: 0.95, unit: "g", n: 1, nUnit: "trays", method: "t" };
    return {
      kind: "answer",
      sentence: [id],
      certainty: "settled",
      estimates: [p === undefined ? estimate : { ...estimate, p }],
      tables: [],
      charts: [],
      excluded: [],
      method: [],
      caveats: [],
      ...given,
    };
  },
});

const certaintyOf = (answers: ReturnType<typeof answerQuestions>, id: string) => {
  const outcome = answers.find((answer) => answer.id === id)!.outcome;
  return outcome.kind === "answer" ? outcome.certainty : outcome.kind;
};

// Benjamini and Hochberg 1995, worked by hand: beside the main question, 0.04 among eight of 0.5 adjusts to 0.04 x 9 = 0.36
test("a finding that does not stand among all the tests of the report is reported as leaning", () => {
  const noise = Array.from({ length: 8 }, (_, index) =>
    question(`noise ${index}`, () => ({ p: 0.5, certainty: "open" })),
  );
  const answers = answerQuestions(bookOf(), [
    { ...question("clear", () => ({ p: 0.001 })), main: true },
    question("lucky", () => ({ p: 0.04 })),
    ...noise,
  ]);
  expect(certaintyOf(answers, "clear")).toBe("settled");
  expect(certaintyOf(answers, "lucky")).toBe("leaning");
  expect(answers.find(({ id }) => id === "lucky")!.outcome.caveats[0]!.join("")).toContain("10 tests");
});

test("the main question keeps nearly the whole level, another question a tenth while the main one is open", () => {
  const lucky = question("lucky", () => ({ p: 0.04 }));
  expect(certaintyOf(answerQuestions(bookOf(), [{ ...lucky, main: true }]), "lucky")).toBe("settled");
  expect(certaintyOf(answerQuestions(bookOf(), [lucky]), "lucky")).toBe("leaning");
});

test("headline answers are asked again without flagged trays, and a change is reported", () => {
  const flagged = [trayRecord({ trayId: "1" }), trayRecord({ trayId: "2", flags: ["dry-over-fresh"] })];
  const [answer, quiet] = answerQuestions(bookOf(flagged), [
    question("turns", (trays) => ({ certainty: trays === 2 ? "settled" : "open" })),
    question("not a headline", () => ({}), false),
  ]);
  expect(answer!.withoutFlagged).toMatchObject({ trays: ["2"], changes: true });
  expect(quiet!.withoutFlagged).toBeUndefined();
  expect(answerQuestions(bookOf(), [question("clean", () => ({}))])[0]!.withoutFlagged).toBeUndefined();
});

test("a question that fails takes no other answer down, and has a code of its own", () => {
  const broken: Analysis = {
    ...question("breaks", () => ({})),
    run: () => {
      throw new TypeError("x is undefined");
    },
  };
  const [failed, fine] = answerQuestions(bookOf(), [broken, question("fine", () => ({}))]);
  expect(certaintyOf([fine!], "fine")).toBe("settled");
  expect(failed!.outcome).toMatchObject({
    kind: "cannot-tell",
    failure: { code: expect.stringMatching(/^breaks-[0-9a-f]{8}$/), what: "TypeError: x is undefined" },
  });
  expect(failed!.outcome.kind === "cannot-tell" && failed!.outcome.reason.join("")).toMatch(
    /could not be worked out.*code breaks-/,
  );
});

test("a question that fails only without the flagged trays keeps its answer", () => {
  const trays = [trayRecord({ trayId: "1" }), trayRecord({ trayId: "2", flags: ["dry-over-fresh"] })];
  const [answer] = answerQuestions(bookOf(trays), [
    question("picky", (count) => {
      if (count === 1) throw new RangeError("one tray");
      return {};
    }),
  ]);
  expect(answer!.outcome.kind).toBe("answer");
  expect(answer!.withoutFlagged).toMatchObject({ trays: ["2"], changes: true });
});

test("all questions of one pass see the same trial", () => {
  const seen: Trial[] = [];
  const looker = (id: string): Analysis => ({
    ...question(id, () => ({})),
    run: (trial) => {
      seen.push(trial);
      return question(id, () => ({})).run(trial);
    },
  });
  answerQuestions(bookOf(), [looker("one"), looker("two")]);
  expect(seen[1]).toBe(seen[0]);
});
