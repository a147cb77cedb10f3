import { expect, test } from "vitest";
import { isTheNextStepWorthTrying } from "../../analyses/planning/is-the-next-step-worth-trying.ts";
import { line, product } from "../costing/sample-records.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { answerOf } from "./money-books.ts";
import { renderedSentence } from "./rendered-sentence.ts";
import { type SimulatedBook, simulateBook } from "./simulated-book.ts";

const trialOf = (seed: number, mean: (dose: number) => number, given: Partial<SimulatedBook> = {}) =>
  trialOfTrays(
    simulateBook({ seed, cooks: 6, traysPerDose: 4, doses: [3, 6, 9], cookSd: 2, traySd: 1.5, mean, ...given }),
  );
const book = (...given: Parameters<typeof trialOf>) => answerOf(isTheNextStepWorthTrying.run(trialOf(...given)));
const said = ({ sentence }: ReturnType<typeof book>): string => renderedSentence(sentence).replaceAll("\u00a0", " ");
const dosesOf = ({ tables }: ReturnType<typeof book>): unknown[] => tables[0]!.rows.map(([dose]) => dose);

test("still climbing at the highest dose: the next one up is worth trying, and it is said to be beyond the data", () => {
  const outcome = book(1, (dose) => 10 + 1.5 * dose);
  expect(said(outcome)).toMatch(/^Try 12 mL next: .* beyond your data/);
  expect(outcome.next![0]!.rank).toBe("trial");
});

test("a clear top inside the doses: nothing beyond them is tried", () => {
  const outcome = book(2, (dose) => 30 - (dose - 6) ** 2);
  expect(said(outcome)).not.toMatch(/Try (12|13|2|1) mL/);
  expect(dosesOf(outcome)).not.toContain(12);
});

test("what was tried is never proposed, whatever the trays say", () => {
  for (let seed = 1; seed <= 12; seed++) {
    const outcome = book(seed, (dose) => 20 + (seed % 3) * (dose / 4), { doses: [3, 5, 6, 9], cooks: 2, traySd: 5 });
    for (const dose of dosesOf(outcome)) expect([3, 5, 6, 9], `book ${seed}`).not.toContain(dose);
  }
});

test("doses in steps of the syringe: where every step was tried there is nothing between to try", () => {
  const outcome = book(3, (dose) => 30 - (dose - 6) ** 2, { doses: [5, 6, 7] });
  expect(said(outcome)).toContain("no untried dose beside 6 mL");
  expect(outcome.tables).toEqual([]);
});

test("liquid that costs more than it gives: less is tried next, not more", () => {
  const trial = {
    ...trialOf(4, (dose) => 20 + dose / 10, { doses: [4, 6, 8], cookSd: 1, traySd: 1 }),
    costLines: [line({ item: "culture", kind: "culture", per: "inoculum mL", packUnit: "mL", packPrice: 2 })],
    products: [product({ grams: 10, currentPrice: 5 })],
  };
  expect(said(answerOf(isTheNextStepWorthTrying.run(trial)))).toMatch(/^Try [23] mL next/);
});

test("thin and odd books: cannot tell", () => {
  const one = trayRecord({ trayId: "1", inoculumMillilitres: 5, dryGrams: 20 });
  const lost = [5, 10].flatMap((dose) =>
    Array.from({ length: 6 }, (_, k) =>
      trayRecord({ trayId: `${dose}-${k}`, inoculumMillilitres: dose, outcome: "contaminated" }),
    ),
  );
  const equal = lost.map((tray) => ({ ...tray, outcome: "good" as const, dryGrams: 20 }));
  for (const trays of [[], [one], lost, equal]) {
    expect(isTheNextStepWorthTrying.run(trialOfTrays(trays)).kind).toBe("cannot-tell");
  }
});
