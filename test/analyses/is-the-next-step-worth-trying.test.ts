import { expect, test } from "vitest";
import { observe, yieldPerGoodTray } from "../../analyses/comparison/tray-response.ts";
import { stepCurve } from "../../analyses/dose/dose-steps.ts";
import { isTheNextStepWorthTrying } from "../../analyses/planning/is-the-next-step-worth-trying.ts";
import { batchFactor, doseFactor } from "../../src/design/factor.ts";
import { trayRecord, trialOfTrays } from "./demo-records.ts";
import { type SimulatedBook, simulateBook } from "./simulated-book.ts";

const text = (parts: ReadonlyArray<unknown>): string => parts.filter((part) => typeof part === "string").join("");
const book = (seed: number, mean: (dose: number) => number, given: Partial<SimulatedBook> = {}) =>
  isTheNextStepWorthTrying.run(
    trialOfTrays(
      simulateBook({ seed, cooks: 6, traysPerDose: 4, doses: [3, 6, 9], cookSd: 2, traySd: 1.5, mean, ...given }),
    ),
  );

test("still climbing at the highest dose: the edge is said, and the step beyond is worth trying", () => {
  const outcome = book(1, (dose) => 10 + 1.5 * dose);
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  expect(text(outcome.sentence)).toContain("Worth trying: the next step up");
  expect(text(outcome.sentence)).toContain("it may lie beyond");
  expect(outcome.sentence).toContainEqual({ value: 12, unit: "mL" });
  expect(outcome.estimates[0]!.low).toBeLessThan(4.5);
  expect(outcome.estimates[0]!.high).toBeGreaterThan(4.5);
});

test("a clear top inside the doses: stop", () => {
  const outcome = book(2, (dose) => 30 - (dose - 6) ** 2);
  expect(outcome.kind === "answer" && text(outcome.sentence)).toContain("Stop here");
  expect(outcome.kind === "answer" && outcome.certainty).toBe("settled");
});

test("steps far smaller than the noise are mostly told to be spaced wider", () => {
  const seeds = [1, 2, 3, 4, 5, 6, 7, 8];
  const told = seeds.filter((seed) => {
    const outcome = book(seed, (dose) => 20 + dose / 8, { doses: [5, 5.5], cooks: 3, traySd: 3 });
    return outcome.kind === "answer" && text(outcome.sentence).includes("smaller than the noise");
  });
  expect(told.length).toBeGreaterThanOrEqual(6);
});

test("the change that a step makes is covered at the stated level", () => {
  const books = 300;
  let covered = 0;
  const mean = (dose: number) => 30 - 0.2 * (dose - 8) ** 2;
  for (let seed = 1; seed <= books; seed++) {
    const trays = simulateBook({ seed, cooks: 4, traysPerDose: 3, doses: [3, 6, 9], cookSd: 2, traySd: 1.5, mean });
    const { observations } = observe(trays, doseFactor, yieldPerGoodTray("dry"), [batchFactor]);
    const { low, high } = stepCurve(observations, ["cook"], 0.95).change(9, 12);
    if (low <= mean(12) - mean(9) && high >= mean(12) - mean(9)) covered++;
  }
  expect(covered / books).toBeGreaterThanOrEqual(0.95 - 2 * Math.sqrt((0.05 * 0.95) / books));
});

test("money moves the answer: liquid that costs more than it gives stops the step", () => {
  const trays = simulateBook({
    seed: 4,
    cooks: 6,
    traysPerDose: 4,
    doses: [4, 6, 8],
    cookSd: 1,
    traySd: 1,
    mean: (dose) => 20 + dose / 10,
  });
  const source = { file: "costs.csv", row: 2 };
  const trial = {
    ...trialOfTrays(trays),
    costLines: [
      {
        item: "culture",
        kind: "culture" as const,
        packPrice: 2,
        packSize: 1,
        packUnit: "mL" as const,
        amount: 1,
        per: "inoculum mL" as const,
        ownerLabour: false,
        source,
      },
    ],
    products: [
      {
        product: "dried",
        form: "dried" as const,
        channel: "shop",
        grams: 10,
        processingLoss: 0,
        packagingCost: 0,
        minutes: 0,
        shippingCost: 0,
        shippingCharged: 0,
        feeFraction: 0,
        feeFixed: 0,
        feeBase: "price" as const,
        taxRate: 0,
        taxIncluded: false,
        currentPrice: 5,
        sellThrough: 1,
        priceEndings: [],
        source,
      },
    ],
  };
  const outcome = isTheNextStepWorthTrying.run(trial);
  if (outcome.kind !== "answer") throw new Error(JSON.stringify(outcome));
  // 2 mL cost 4 in money, 8 g at 0.50 each; the yield moves by a fraction of a gram
  expect(text(outcome.sentence)).toMatch(/Worth trying: the next step down/);
  expect(outcome.sentence).toContainEqual({ value: 2, unit: "mL" });
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
