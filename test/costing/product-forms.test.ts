import { expect, test } from "vitest";
import { freshOrDried, rankForms } from "../../src/costing/products/product-forms.ts";
import { assertClose } from "../agreement.ts";

const offer = { freshPerKg: 30, driedPerKg: 260, dryingRatio: 9, dryingCostPerKgFresh: 1.2 };

test("fresh at 30 against dried at 260, ratio 9, drying 1.20: 27.69, so fresh; break-even ratio 8.33; arithmetic", () => {
  const choice = freshOrDried(offer);
  assertClose(choice.dried, 27.69, 0.005);
  expect(choice.better).toBe("fresh");
  assertClose(choice.breakEvenRatio.kind === "ratio" ? choice.breakEvenRatio.ratio : 0, 8.33, 0.005);
  assertClose(
    choice.breakEvenSellThrough.kind === "share" ? choice.breakEvenSellThrough.share : 0,
    27.68889 / 30,
    1e-5,
  );
});

test("unsold fresh turns the answer, and at the break-even points both bring the same", () => {
  expect(freshOrDried({ ...offer, freshSellThrough: 0.8 }).better).toBe("dried");
  const { breakEvenRatio, breakEvenSellThrough } = freshOrDried({
    ...offer,
    unsoldFreshPerKg: 2,
    driedSellThrough: 0.95,
  });
  if (breakEvenRatio.kind !== "ratio" || breakEvenSellThrough.kind !== "share") throw new Error("both exist here");
  expect(freshOrDried({ ...offer, driedSellThrough: 0.95, dryingRatio: breakEvenRatio.ratio }).better).toBe("equal");
  expect(
    freshOrDried({
      ...offer,
      unsoldFreshPerKg: 2,
      driedSellThrough: 0.95,
      freshSellThrough: breakEvenSellThrough.share,
    }).better,
  ).toBe("equal");
  expect(freshOrDried({ ...offer, freshPerKg: -2, dryingCostPerKgFresh: 1 }).breakEvenRatio.kind).toBe("cannot-tell");
  expect(freshOrDried({ ...offer, driedPerKg: 0 }).breakEvenRatio.kind).toBe("cannot-tell");
  expect(freshOrDried({ ...offer, freshPerKg: 2, unsoldFreshPerKg: 2 }).breakEvenSellThrough.kind).toBe("cannot-tell");
});

test("forms ranked per kg of fresh, powder with its milling loss; arithmetic", () => {
  const common = { processingLoss: 0, processingCostPerKgFresh: 1.2, sellThrough: 1, freshPerKg: 9 };
  const ranked = rankForms([
    { ...common, name: "dried", netPricePerKg: 260 },
    { ...common, name: "powder", netPricePerKg: 320, processingLoss: 0.04, processingCostPerKgFresh: 1.5 },
    { ...common, name: "fresh", netPricePerKg: 30, freshPerKg: 1, processingCostPerKgFresh: 0 },
  ]);
  expect(ranked.map(({ name }) => name)).toEqual(["powder", "fresh", "dried"]);
  assertClose(ranked[0]!.perKgFresh, (320 * 0.96) / 9 - 1.5, 1e-12);
  assertClose(ranked[2]!.perKgFresh, 27.69, 0.005);
});

test("wrong numbers are named", () => {
  expect(() => freshOrDried({ ...offer, dryingRatio: 0 })).toThrow("dryingRatio");
  expect(() => freshOrDried({ ...offer, freshSellThrough: 80 })).toThrow(
    "freshSellThrough must be a share from 0 to 1; received 80",
  );
  expect(() =>
    rankForms([
      { name: "x", netPricePerKg: 1, freshPerKg: 1, processingLoss: 1, processingCostPerKgFresh: 0, sellThrough: 1 },
    ]),
  ).toThrow("processingLoss");
});
