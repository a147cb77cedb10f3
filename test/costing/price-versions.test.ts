import { expect, test } from "vitest";
import { lineIssue, shortfallIssue, uncertainPrices } from "../../src/costing/lines/cost-issues.ts";
import { isInForce, priceVersions } from "../../src/costing/lines/price-versions.ts";
import { dayNumber } from "../../src/measures/day-number.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import { line } from "./sample-records.ts";

const [always, never] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
const grain = (facts: Partial<CostLine> = {}) => line({ item: "grain", ...facts });
const [february, march] = [dayNumber("2026-02-01"), dayNumber("2026-03-01")];
const spans = (...lines: CostLine[]) => priceVersions(lines).map(({ from, until }) => [from, until]);

test("a dated line holds until the next one of its item, in any order; two of one date both hold", () => {
  const dated = [grain(), grain({ fromDate: "2026-02-01" }), grain({ fromDate: "2026-03-01" })];
  const held = [
    [always, february],
    [february, march],
    [march, never],
  ];
  expect(spans(...dated)).toEqual(held);
  expect(spans(...dated.toReversed())).toEqual(held.toReversed());
  expect(priceVersions(dated).map(({ line: one, index }) => [one, index])).toEqual(dated.map((one, at) => [one, at]));
  expect(spans(dated[1]!, dated[1]!)).toEqual([
    [february, never],
    [february, never],
  ]);
  expect(() => priceVersions([grain({ fromDate: "2026-02-30" })])).toThrow("2026-02-30");
});

test.each<[string, Partial<CostLine>, number]>([
  ["the same item, trays and base", {}, february],
  ["the same item in other letters", { item: " Grain" }, february],
  ["another item", { item: "bran" }, never],
  ["other trays, by column", { onlyWhereColumn: "shelf" }, never],
  ["other trays, by value", { onlyWhereValue: "top" }, never],
  ["a new base, where the item had none of it before", { per: "cook" }, february],
])("a later line of %s", (_, facts, until) => {
  expect(spans(grain(), grain({ fromDate: "2026-02-01", ...facts }))[0]).toEqual([always, until]);
});

test("a later line of a base the item had before leaves those of other bases in force", () => {
  const later = grain({ per: "cook", fromDate: "2026-02-01" });
  expect(spans(grain(), grain({ per: "cook" }), later)).toEqual([
    [always, never],
    [always, february],
    [february, never],
  ]);
});

test("a price holds from its first day to the day before the next; of a day not known, the one that holds now", () => {
  const [first, last] = priceVersions([grain({ fromDate: "2026-02-01" }), grain({ fromDate: "2026-03-01" })]);
  expect([february - 1, february, march - 1, march].map((day) => isInForce(first!, day))).toEqual([
    false,
    true,
    true,
    false,
  ]);
  expect([march - 1, march, march + 900].map((day) => isInForce(last!, day))).toEqual([false, true, true]);
  expect([isInForce(first!, undefined), isInForce(last!, undefined)]).toEqual([false, true]);
});

test("trays older than an item's first price, and trays without a date, are counted out", () => {
  const said = (lines: CostLine[], days: (number | undefined)[]) =>
    uncertainPrices(priceVersions(lines), days).issues.map(({ rule, severity, result, raw }) => [
      rule,
      severity,
      result,
      raw,
    ]);
  const dated = (facts: Partial<CostLine> = {}) => grain({ fromDate: "2026-02-01", ...facts });
  const before = (result: string) => ["cost-before-first-price", "warning", result, "grain"];
  const assumed = (result: string) => ["cost-last-price-assumed", "note", result, "grain"];
  expect(said([dated()], [february - 1, february - 9, february])).toEqual([before("2 trays")]);
  // a day may be that of a purchase, so that what rests on it is no less than it says
  expect(uncertainPrices(priceVersions([dated()]), [february - 1, february]).doubts).toMatchObject([
    { name: "grain", effect: "in part", trays: 1, moves: "every cost" },
  ]);
  expect(said([dated()], [february])).toEqual([]);
  expect(said([dated()], [undefined, february - 1])).toEqual([before("1 tray"), assumed("1 tray")]);
  expect(said([grain()], [february - 1, undefined])).toEqual([]);
  expect(said([grain(), dated()], [february - 1])).toEqual([]);
  expect(said([line({ item: "bran" }), dated()], [february - 1])).toEqual([before("1 tray")]);
  expect(said([dated(), dated({ fromDate: "2026-03-01" })], [february - 1, undefined])).toEqual([
    before("1 tray"),
    assumed("1 tray"),
  ]);
  expect(said([dated({ per: "month" })], [undefined])).toEqual([]);
  expect(said([dated({ per: "unit sold" })], [undefined, february - 1])).toEqual([]);
});

test("what many trays lack is one entry with three of their names; what one lacks names it", () => {
  const short = { rule: "r", severity: "note" as const, reason: "why", expected: "batch" };
  const issue = (...trays: string[]) => shortfallIssue(grain(), short, trays);
  expect(issue("A")).toEqual({
    ...{ file: "costs.csv", row: 2, column: "item", raw: "grain", tray: "A", result: "1 tray: A" },
    ...{ rule: "r", severity: "note", reason: "why", expected: "batch", action: "record batch" },
  });
  expect(issue("A", "B", "C").result).toBe("3 trays: A, B, C");
  expect("tray" in issue("A", "B")).toBe(false);
  expect(issue("A", "B", "C", "D").result).toBe("4 trays: A, B, C, ...");
  expect(shortfallIssue(grain(), { ...short, setting: "jar_ml" }, ["A"]).setting).toBe("jar_ml");
  const whole = (expected: string) => lineIssue(grain(), "r", "error", "why", expected);
  expect(whole("a price")).toEqual({
    ...{ file: "costs.csv", row: 2, column: "item", raw: "grain", result: "" },
    ...{ rule: "r", severity: "error", reason: "why", expected: "a price", action: "give a price" },
  });
  expect(whole("").action).toBe("");
});
