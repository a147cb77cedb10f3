import { expect, test } from "vitest";
import type { AnsweredQuestion } from "../../src/analysis.ts";
import { sentenceText } from "../../src/report/format-quantity.ts";
import { frontAnswers } from "../../src/report/front/choose-front.ts";
import { demoAnswers } from "./demo-answers.ts";

const { book, answers } = await demoAnswers();

const words = (text: string): number => text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
const idsOf = (wanted: ReadonlyArray<AnsweredQuestion>): string[] => wanted.map(({ id }) => id).sort();

test("every answer gives the front its short sentence, figure and strip; what cannot be answered says what it waits for", () => {
  const reported = answers.filter(({ outcome }) => outcome.kind === "answer");
  const untold = answers.filter(({ outcome }) => outcome.kind === "cannot-tell");
  for (const part of ["short", "figure", "strip"] as const) {
    const without = idsOf(reported.filter(({ outcome }) => outcome[part] === undefined));
    expect(without, `without ${part}`).toEqual([]);
  }
  const without = idsOf(
    untold.filter(({ outcome }) => outcome.kind === "cannot-tell" && outcome.missing === undefined),
  );
  expect(without, "without missing").toEqual([]);
});

test("words are few, as they were set: 16 in a short sentence, 10 to act, 14 for why, 6 under the figure", () => {
  for (const { id, name, outcome } of answers) {
    const { short, figure, next = [] } = outcome;
    const most = (limit: number, text: string, what: string) =>
      expect(words(text), `${id}, ${what}: ${text}`).toBeLessThanOrEqual(limit);
    most(4, name, "name");
    if (short !== undefined) most(16, sentenceText(short, book.settings), "short");
    if (figure !== undefined) most(6, figure.label, "figure");
    for (const { act, because } of next) {
      most(10, sentenceText(act, book.settings), "act");
      if (because !== undefined) most(14, sentenceText(because, book.settings), "because");
    }
  }
});

test("figures and strips hold numbers, ranges hold their value", () => {
  for (const { id, outcome } of answers) {
    const { figure, strip } = outcome;
    for (const text of [figure, strip].map((part) => JSON.stringify(part) ?? ""))
      expect(text, id).not.toContain("null");
    if (figure === undefined || "text" in figure || figure.from === undefined) continue;
    expect(figure.to, id).toBeGreaterThanOrEqual(figure.from);
    expect(figure.value, id).toBeGreaterThanOrEqual(figure.from);
    expect(figure.value, id).toBeLessThanOrEqual(figure.to!);
  }
});

test("what a headline says with the same figure does not stand on the front twice", () => {
  const before = frontAnswers(answers);
  const headline = before.find((one) => one.headline)!;
  const others = answers.filter(({ headline: first, outcome }) => !first && outcome.strip !== undefined);
  const twin = {
    ...others[0]!,
    outcome: { ...others[0]!.outcome, ...headline.outcome, strip: headline.outcome.strip },
  };
  const ids = frontAnswers(answers.map((one) => (one === others[0] ? twin : one))).map(({ id }) => id);
  expect(ids).toContain(headline.id);
  expect(ids).not.toContain(twin.id);
});
