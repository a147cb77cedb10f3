import { expect, test } from "vitest";
import { normalLoss } from "../../src/costing/trays/normal-loss.ts";
import { expectAgreement } from "../agreement.ts";

/**
 * One job of 50 parts, 5 spoiled, 2,000 on each up to the inspection, 600 got back for each spoiled one: 45 good parts.
 * Source: Horngren's Cost Accounting, A Managerial Emphasis, 16th edition 2018, chapter 18, job costing and spoilage,
 * pages 750 and 751.
 */
const job = { costOfGood: 90_000, costOfLost: 10_000, good: 45, lost: 5, recoveredPerLost: 600 };

const agrees = (dataset: string, ours: number, printed: number): void =>
  expectAgreement(
    { method: "normal and abnormal loss", dataset, statistic: "cost of a good unit", source: "Horngren 2018" },
    [[ours, printed]],
    12,
  );

const answered = (input: Parameters<typeof normalLoss>[0]) => {
  const loss = normalLoss(input);
  if (loss.kind === "cannot-tell") throw new Error(loss.reason);
  return loss;
};

test("normal spoilage of the specific job: 97,000 over 45 good parts, 2,155.56 each; Horngren 2018, page 750", () => {
  const loss = answered({ ...job, normalRate: 0.1, normalBase: "starts" });
  agrees("spoilage of a specific job", loss.costPerGood, 97_000 / 45);
  expect(loss.abnormalCost).toBe(0);
  expect(loss.recovered).toBe(3000);
});

test("normal spoilage common to all jobs: 7,000 over 140 good parts of the month makes 2,050 each; Horngren 2018, page 751", () => {
  const loss = answered({ ...job, costOfGood: 140 * 2000, good: 140, normalRate: 0.1, normalBase: "starts" });
  agrees("spoilage common to all jobs", loss.costPerGood, 2050);
  expect(loss.normalCost).toBe(7000);
});

test("abnormal spoilage: good parts stay at 2,000 and 7,000 are a loss of the period; Horngren 2018, page 751", () => {
  const loss = answered({ ...job, normalRate: 0, normalBase: "starts" });
  agrees("abnormal spoilage", loss.costPerGood, 2000);
  expect(loss.abnormalCost).toBe(7000);
});

test("40 started, 5 spoiled at 1,000, 200 back for each: 1,114.29, or 1,000 and a loss of 4,000; Horngren 2013 edition, problem 18-35", () => {
  const shop = {
    costOfGood: 35_000,
    costOfLost: 5000,
    good: 35,
    lost: 5,
    recoveredPerLost: 200,
    normalBase: "good" as const,
  };
  const normal = answered({ ...shop, normalRate: 5 / 35 });
  agrees("spoilage of a specific job, problem", normal.costPerGood, 39_000 / 35);
  const abnormal = answered({ ...shop, normalRate: 0 });
  expect([abnormal.costPerGood, abnormal.abnormalCost]).toEqual([1000, 4000]);
});
