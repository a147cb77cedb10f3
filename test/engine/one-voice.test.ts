import { expect, test } from "vitest";
import { trialOf } from "../../src/engine/trial-of.ts";
import { contradictionsOf } from "../simulation/contradictions.ts";
import { mixedBook } from "../simulation/mixed-books.ts";
import { readMixed } from "../simulation/mixed-rates.ts";
import { answerQuestions } from "./answer-questions.ts";

/** Books here; `npm run bench -- mixed-books` reads 1,000. */
const books = 15;

test("mixed books, read from their sheets: no answer speaks against another", async () => {
  let compared = 0;
  for (let seed = 1; seed <= books; seed++) {
    const simulated = mixedBook(seed);
    const book = await readMixed(simulated);
    const answers = answerQuestions(book);
    expect(contradictionsOf(trialOf(book), answers), simulated.name).toEqual([]);
    compared += answers.filter(({ outcome }) => outcome.kind === "answer").length;
  }
  expect(compared).toBeGreaterThan(6 * books);
});

test("the scan sees an answer that speaks against another", async () => {
  const book = await readMixed(mixedBook(4, { layout: 3, fault: "none", gain: 9, plain: true }));
  const answers = answerQuestions(book);
  const trial = trialOf(book);
  expect(contradictionsOf(trial, answers)).toEqual([]);
  const changed = answers.map((one) =>
    one.id === "what-changed-the-yield" && one.outcome.kind === "answer"
      ? { ...one, outcome: { ...one.outcome, certainty: "open" as const } }
      : one,
  );
  expect(contradictionsOf(trial, changed).join("\n")).toMatch(/what-changed-the-yield, open/);
  expect(contradictionsOf(trial, changed).join("\n")).toMatch(/more trays: Already decided/);
});
