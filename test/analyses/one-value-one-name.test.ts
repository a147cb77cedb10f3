import { expect, test } from "vitest";
import { whatDoesAGoodGramCost } from "../../analyses/costs/what-does-a-good-gram-cost.ts";
import { whichCostMattersMost } from "../../analyses/costs/which-cost-matters-most.ts";
import { freshOrDriedAnalysis } from "../../analyses/prices/fresh-or-dried.ts";
import { whatPriceToAsk } from "../../analyses/prices/what-price-to-ask.ts";
import { whatToMakeAnalysis } from "../../analyses/prices/what-to-make.ts";
import type { Analysis, Answer, Outcome, Table, Trial } from "../../src/analysis.ts";
import { outcomeOf } from "../../src/engine/ask-question.ts";
import { wordsOf } from "./money-books.ts";
import { randomMoneyBook } from "./random-money-books.ts";

const descriptions = [whatDoesAGoodGramCost, whichCostMattersMost];
const questions: Analysis[] = [...descriptions, whatPriceToAsk, whatToMakeAnalysis, freshOrDriedAnalysis];

/** A value with the name it is shown under and where it is. */
interface Named {
  name: string;
  value: number;
  at: string;
  /** half of the last digit it is rounded to where it is; 0 where it is not rounded */
  rounded?: number;
}

const column = ({ columns }: Table, label: string): number => columns.findIndex((one) => one.label === label);

/** A column of a table by the product and channel of each row. */
function byProduct({ tables }: Outcome, caption: string, label: string, name: string, rounded = 0): Named[] {
  const table = tables.find((one) => one.caption === caption);
  if (table === undefined) return [];
  const place = column(table, label);
  if (place < 0) throw new Error(`${caption} has no column ${label}`);
  const hasChannel = column(table, "Channel") === 1;
  return table.rows.flatMap((row) => {
    const value = row[place];
    const product = hasChannel && row[1] !== "" ? `${row[0]}, ${row[1]}` : `${row[0]}`;
    return typeof value === "number"
      ? [{ name: `${name}, ${product}`, value, at: `${caption}: ${label}`, rounded }]
      : [];
  });
}

/** Every figure that more than one answer, table or chart shows, under the name of what it is. */
function figuresOf(answers: Map<Analysis, Answer>): Named[] {
  const of = (analysis: Analysis): Answer | undefined => answers.get(analysis);
  const found: Named[] = [];
  const [gram, which, price, make] = [
    of(whatDoesAGoodGramCost),
    of(whichCostMattersMost),
    of(whatPriceToAsk),
    of(whatToMakeAnalysis),
  ];
  for (const { estimates } of answers.values()) {
    for (const { label, value } of estimates) found.push({ name: label, value, at: "estimate" });
  }
  const dry = gram?.tables.find(({ caption }) => caption.startsWith("What a good gram cost"));
  for (const row of dry?.rows ?? []) {
    const name =
      row[0] === "dry, as weighed" ? "good dry gram" : row[0] === "fresh, as picked" ? "good fresh gram" : "";
    if (name !== "") found.push({ name, value: Number(row[column(dry!, "cost, all losses in it")]), at: dry!.caption });
  }
  for (const chart of which?.charts ?? []) {
    if (chart.kind !== "tornado") continue;
    const name = chart.title.includes("dry gram") ? "good dry gram" : "good fresh gram";
    found.push({ name, value: chart.centre, at: chart.title });
  }
  if (gram?.figure !== undefined && "value" in gram.figure) {
    const word = gram.figure.label.includes("dry") ? "dry" : "fresh";
    found.push({ name: `good ${word} gram`, value: gram.figure.value, at: "front" });
  }
  if (which !== undefined) found.push(...byProduct(which, "How margins may turn out", "profit of a unit", "profit"));
  if (price !== undefined) {
    // the margin simulated is at the price now where there is one, else at the price to ask, which has another column
    found.push(...byProduct(price, "What the prices now earn", "margin", "margin"));
    found.push(...byProduct(price, "What the prices now earn", "earned per unit", "profit"));
    found.push(...byProduct(price, "Price list", "full cost", "full cost"));
    found.push(...byProduct(price, "What one sold unit costs, by part", "together", "full cost", 0.005));
    for (const { name, now } of price.strip?.kind === "margins" ? price.strip.products : []) {
      if (now !== undefined) found.push({ name: `margin, ${name}`, value: now, at: "front" });
    }
    for (const sentence of price.caveats) {
      const place = sentence.indexOf("A month costs ");
      const cost = sentence[place + 1];
      if (place >= 0 && typeof cost === "object" && "value" in cost) {
        found.push({ name: "fixed month", value: cost.value, at: "prices, caveat" });
      }
    }
  }
  const fixed = make?.tables.find(({ caption }) => caption === "What a month costs whatever is made");
  if (fixed !== undefined) found.push({ name: "fixed month", value: Number(fixed.rows.at(-1)![1]), at: fixed.caption });
  const month = make?.tables.find(({ caption }) => caption === "The month in three cases");
  if (month !== undefined) {
    const usual = month.rows[1]!;
    const cell = (label: string): number | undefined => {
      const value = usual[column(month, label)];
      return typeof value === "number" ? value : undefined;
    };
    const profit = cell("profit before your own time");
    if (profit !== undefined) {
      found.push({ name: "profit of the month, before pay for your own time", value: profit, at: month.caption });
      found.push({
        name: "profit of the month, before pay for your own time",
        value: cell("units bring")! - cell("growing and drying")! - cell("paid anyway")!,
        at: `${month.caption}, taken off by hand`,
      });
    }
  }
  return found;
}

/** Names with two different values. */
function contradictions(figures: ReadonlyArray<Named>): string[] {
  const first = new Map<string, Named>();
  return figures.flatMap((figure) => {
    const before = first.get(figure.name);
    if (before === undefined) {
      first.set(figure.name, figure);
      return [];
    }
    const room = 1e-9 * Math.max(1, Math.abs(before.value)) + (figure.rounded ?? 0) + (before.rounded ?? 0);
    return Math.abs(figure.value - before.value) <= room
      ? []
      : [`${figure.name}: ${before.value} (${before.at}), ${figure.value} (${figure.at})`];
  });
}

const answersOf = (trial: Trial): { answers: Map<Analysis, Answer>; failures: string[] } => {
  const answers = new Map<Analysis, Answer>();
  const failures: string[] = [];
  for (const analysis of questions) {
    const outcome = outcomeOf(analysis, trial);
    if (outcome.kind === "answer") answers.set(analysis, outcome);
    else if (outcome.failure !== undefined) failures.push(outcome.failure.what);
  }
  return { answers, failures };
};

const books = Array.from({ length: 80 }, (_, index) => {
  const trial = randomMoneyBook(index + 1);
  return { seed: index + 1, trial, ...answersOf(trial) };
});

test("80 random books: no name has two values, no description carries a verdict, what is missing is named", () => {
  let [compared, described] = [0, 0];
  for (const { seed, trial, answers, failures } of books) {
    expect(failures, `book ${seed}`).toEqual([]);
    const figures = figuresOf(answers);
    compared += figures.length - new Set(figures.map(({ name }) => name)).size;
    expect(contradictions(figures), `book ${seed}`).toEqual([]);
    for (const analysis of descriptions) {
      const answer = answers.get(analysis);
      if (answer === undefined) continue;
      described++;
      expect(answer.certainty, `book ${seed}, ${analysis.id}`).toBe("measured");
      const said = [answer.sentence, ...answer.caveats].map(wordsOf).join(" ");
      expect(said, `book ${seed}, ${analysis.id}`).not.toMatch(/\b(settled|leaning|significant|proven|certainly)\b/i);
    }
    const missing = trial.unread!.length > 0;
    for (const [analysis, answer] of answers) {
      if (missing) expect(wordsOf(answer.sentence), `book ${seed}, ${analysis.id}`).toContain("Without: rent");
      if (missing) expect(answer.certainty).not.toBe("settled");
    }
  }
  expect(compared).toBeGreaterThan(600);
  expect(described).toBeGreaterThan(100);
});

test("a chance of nearly one is never given with a margin that is below nothing at the dear end of a gram's interval", () => {
  let looked = 0;
  for (const { seed, answers } of books) {
    const [which, price] = [answers.get(whichCostMattersMost), answers.get(whatPriceToAsk)];
    if (which === undefined || price === undefined) continue;
    const lowest = new Map(
      byProduct(price, "What the prices now earn", "margin, gram at its dearest", "margin").map(({ name, value }) => [
        name,
        value,
      ]),
    );
    for (const { name, value } of byProduct(which, "How margins may turn out", "chance it covers cost", "margin")) {
      const low = lowest.get(name);
      if (low === undefined) continue;
      looked++;
      if (value > 0.99) expect(low, `book ${seed}, ${name}`).toBeGreaterThan(0);
    }
  }
  expect(looked).toBeGreaterThan(80);
});
