import { expect, test } from "vitest";
import { demoFiles } from "../../data-samples/demo-book.ts";
import type { AnsweredQuestion } from "../../src/analysis.ts";
import { type BookRun, runBook } from "../../src/engine/run-book.ts";
import { snapshotOf } from "../../src/engine/run-snapshot.ts";
import { sentenceText } from "../../src/report/format-quantity.ts";
import { nextThings } from "../../src/report/front/choose-front.ts";
import { renderReport } from "../../src/report/render-report.tsx";
import { sheet } from "../cleaning/book-of.ts";

/** The demo book with one text in one sheet typed otherwise. */
async function runWith(file: string, typed: string, instead: string): Promise<BookRun> {
  const files = demoFiles();
  const paths = ["costs.csv", "products.csv", "settings.csv", "harvests/2026-spring.csv", "harvests/2026-summer.csv"];
  const sources = paths.map((path) => {
    const text = files[`demo-book/${path}`]!;
    if (path === file && !text.includes(typed)) throw new Error(`${file} has no ${typed}`);
    return sheet(path, path === file ? text.replace(typed, instead) : text);
  });
  return runBook(sources, { name: "demo" });
}

const text = ({ outcome }: AnsweredQuestion, { book }: BookRun): string =>
  sentenceText(outcome.kind === "answer" ? outcome.sentence : outcome.reason, book.settings);
const named = (run: BookRun, id: string): AnsweredQuestion => run.answers.find((answer) => answer.id === id)!;

test("rent typed 6O is missing from every answer about money, and none of them is settled", async () => {
  const run = await runWith("costs.csv", "shed rent,space,60,", "shed rent,space,6O,");
  expect(run.book.unread).toMatchObject([{ sheet: "costs", name: "shed rent", inUse: false }]);
  const money = run.answers.filter(({ topic, outcome }) => topic === "money" && outcome.kind === "answer");
  expect(money.length).toBeGreaterThanOrEqual(7);
  for (const answer of money) {
    const { outcome } = answer;
    expect(text(answer, run), answer.id).toContain("Without: shed rent.");
    expect(outcome.kind === "answer" && outcome.certainty, answer.id).not.toBe("settled");
    expect(outcome.withoutMoney, answer.id).toBe("without: shed rent");
    for (const { note, caption } of outcome.tables) expect(note, caption).toContain("Without: shed rent.");
    expect(outcome.caveats.some((one) => sentenceText(one, run.book.settings).includes("costs.csv, row 18"))).toBe(
      true,
    );
  }
  expect(text(named(run, "what-does-a-good-gram-cost"), run)).toContain("cost at least €0.257");
  // the front says it once, for all of them
  const page = await renderReport({ ...run, generator: { version: "1.2.3" } });
  const front = page.slice(page.indexOf('id="answers"'), page.indexOf('id="next-title"'));
  expect(front.match(/without: shed rent/gi)).toHaveLength(1);
  const toDo = nextThings(run.answers).map(({ act }) => sentenceText(act, run.book.settings));
  expect(toDo).toContain("Correct shed rent: costs.csv, row 18.");
  for (const { topic, outcome } of run.answers) {
    if (topic === "growing") expect(JSON.stringify(outcome)).not.toContain("Without: shed rent");
  }
});

test("a line that cannot be read is counted beside as it could be, and a price that would turn is said to", async () => {
  const later = "shed rent,space,6O,1200,day,1,day,shelf day,,,,,,,,,,,,,,2026-01-01,,,,\n";
  const run = await runWith("costs.csv", "insurance and phone", `${later}insurance and phone`);
  const cost = text(named(run, "what-does-a-good-gram-cost"), run);
  // the price before stands in for the one from January on, so the guess is what the book says anyway
  expect(cost).toContain("With what could not be read counted as it could be: €0.326.");
  const broken = await runWith("costs.csv", ",0,1 %", ",0,100 %");
  const prices = text(named(broken, "what-price-to-ask"), broken);
  expect(prices).toContain("dried slices 50 g, web shop covers less than cost");
  expect(prices).toContain("Without: tray frame.");
});

test("money of another currency is not added up; a book that states none takes the one its sheets are marked in", async () => {
  const run = await runWith("costs.csv", "filter bag,consumable,46", "filter bag,consumable,$46");
  expect(run.book.unread).toMatchObject([{ name: "filter bag", inUse: false }]);
  expect(text(named(run, "what-does-a-good-gram-cost"), run)).toContain("Without: filter bag.");
  const dollars = await runWith("settings.csv", "currency,EUR,,\n", "");
  expect(dollars.book.settings.currency).toBe("EUR");
  const costs = "item,kind,pack_price,pack_size,amount,per\nbag,consumable,$46,100,1,tray\n";
  const book = (products: string) =>
    runBook([
      sheet("harvests/a.csv", "tray_id,inoculum_ml,outcome,dry_g\nA,3,good,30\n"),
      sheet("costs.csv", costs),
      sheet("products.csv", `product,form,grams,current_price\nslices,dried,50,${products}\n`),
    ]);
  const marked = (await book("$20")).book;
  expect([marked.settings.currency, marked.costLines!.length, marked.products!.length]).toEqual(["USD", 1, 1]);
  // marks that do not agree leave the default, and what is not in it is not added up
  const both = (await book("€20")).book;
  expect([both.settings.currency, both.costLines!.length, both.products!.length]).toEqual(["EUR", 0, 1]);
});

test("a costs.csv of which nothing can be read is said to be unread, not absent", async () => {
  const run = await runWith("costs.csv", "item,kind,pack_price", "thing one,sort,paid to whom");
  const cost = named(run, "what-does-a-good-gram-cost").outcome;
  if (cost.kind === "answer") throw new Error("an answer");
  expect(sentenceText(cost.reason, run.book.settings)).toContain("no line of costs.csv could be used");
});

test("a rate or size in the settings that cannot be read makes nothing cheaper without a word", async () => {
  const rate = await runWith("settings.csv", "owner_labour_rate,16,", "owner_labour_rate,16O,");
  expect(rate.book.unread).toMatchObject([{ sheet: "settings", name: "owner_labour_rate", inUse: false }]);
  expect(text(named(rate, "what-price-to-ask"), rate)).toContain("Without: owner_labour_rate.");
  const dollars = await runWith("settings.csv", "owner_labour_rate,16,", "owner_labour_rate,$16,");
  expect(dollars.book.settings.ownerLabourRate).toBe(0);
  expect(text(named(dollars, "what-price-to-ask"), dollars)).toContain("Without: owner_labour_rate.");
  const jar = await runWith("settings.csv", "jar_ml,250,", "jar_ml,a pint,");
  expect(text(named(jar, "what-does-a-good-gram-cost"), jar)).toContain("Doubtful: jar_ml.");
});

test("a refund that is left out makes costs look higher, and a cost beside it leaves the way open", async () => {
  const said = async (more: string): Promise<string> => {
    const run = await runWith("costs.csv", "insurance and phone", `${more}\ninsurance and phone`);
    return JSON.stringify(snapshotOf(run.book, run.answers));
  };
  const refund = "refund for bags,consumable,6,100,each,1,each,tray";
  const refunded = await said(refund);
  expect(refunded).toContain("It is left out, so costs look higher than they are.");
  expect(refunded).toContain("A good dry gram cost at most ");
  expect(refunded).not.toContain("at least €");
  const mixed = await said(`${refund}\nlabels,consumable,6O,100,each,1,each,tray`);
  expect(mixed).toContain("It and 1 more are left out, so costs look other than they are.");
  expect(mixed).toContain("Correct labels: ");
  expect(mixed).not.toMatch(/cost at (?:most|least) €/);
});
