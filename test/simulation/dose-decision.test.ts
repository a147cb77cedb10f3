import { beforeAll, describe, expect, test } from "vitest";
import { doseTruths } from "./dose-truths.ts";
import { type MeasuredDose, measureDose, summariseDose } from "./measure-dose.ts";

/** Books per truth here; `npm run bench -- dose-decision` reads 150 of each. */
const books = 15;

// Expected rates: Gramwright's own specification of the dose decision, sections 7 and 10.13, measured on other books.
describe("dose decision on books of known truth", () => {
  let all: MeasuredDose[];
  let mean: ReturnType<typeof summariseDose>;
  beforeAll(() => {
    all = doseTruths.map((truth) => measureDose(truth, books, 70_001));
    mean = summariseDose(all);
  });

  test("gives up less money than the dose with the best mean, and no more than a plain quadratic does", () => {
    expect(mean.decision).toBeLessThan(0.75 * mean.bestMean);
    expect(mean.decision).toBeLessThan(1.1 * mean.quadratic);
    // the specification's own figure, on books as noisy as its own
    expect(mean.decision).toBeLessThan(1.1 * 0.125 + 0.03);
  });

  test("the range not ruled out holds the best dose as often as is said", () => {
    // 240 books at 96.5 % have a standard error of 1.2 %
    expect(mean.covered).toBeGreaterThan(0.93);
    expect(mean.width).toBeLessThan(0.8);
  });

  test("expected losses are not smaller than true ones, and settled is right", () => {
    expect(mean.decision).toBeLessThan(1.25 * mean.said);
    expect(mean.aboveHigh).toBeLessThan(0.08);
    expect(mean.asGoodWrong).toBeLessThan(0.05);
    for (const { settled, settledRight } of all) expect(settled - settledRight).toBeLessThanOrEqual(1);
  });

  test("chances come true as often as they are said", () => {
    for (const { said, true: came, count } of mean.chances) {
      if (count < 100) continue;
      // neighbouring doses of one book are right or wrong together: about one in four counts by itself
      const error = Math.sqrt((said * (1 - said)) / (count / 4));
      expect(Math.abs(came - said), `${said.toFixed(2)} said, ${came.toFixed(2)} true`).toBeLessThan(0.08 + 2 * error);
    }
  });
});
