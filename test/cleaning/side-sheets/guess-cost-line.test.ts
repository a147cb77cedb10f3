import { expect, test } from "vitest";
import { guessCostLine } from "../../../src/cleaning/costs/guess-cost-line.ts";
import type { CostLine } from "../../../src/records/cost-line.ts";
import { line } from "../../costing/sample-records.ts";

// a row that could not be read still costs something: how much, by what else the book says of the same thing; by hand
const source = (row: number) => ({ file: "costs.csv", row });
const bran = (price: number, fromDate?: string, facts: Partial<CostLine> = {}): CostLine =>
  line({
    item: "Bran",
    packPrice: price,
    ...(fromDate === undefined ? {} : { fromDate }),
    source: source(price),
    ...facts,
  });
const { packPrice: _, ...rest } = bran(9);
const unread = { ...rest, item: "bran ", source: source(9) };

test("a missing price is that of the latest line of the same thing before it", () => {
  const price = (lines: CostLine[], facts: Partial<CostLine> = {}) => guessCostLine({ ...unread, ...facts }, lines);
  const dated = [bran(3, "2026-03-01"), bran(1), bran(2, "2026-02-01")];
  expect(price(dated)).toMatchObject({ guess: { packPrice: 3 }, guessedFrom: "its other line in the book, row 3" });
  expect(price(dated, { fromDate: "2026-02-15" })?.guess.packPrice).toBe(2);
  expect(price(dated, { fromDate: "2026-02-01" })?.guess.packPrice).toBe(2);
  expect(price(dated, { fromDate: "2026-01-15" })?.guess.packPrice).toBe(1);
  // all others are later: the last of them
  expect(price([dated[2]!, dated[0]!], { fromDate: "2026-01-15" })?.guess.packPrice).toBe(3);
  expect(price([bran(4, "2026-04-01"), dated[2]!, dated[0]!], { fromDate: "2026-01-15" })?.guess.packPrice).toBe(4);
  expect(price([bran(1, undefined, { item: "straw" })])).toBeUndefined();
  expect(price([bran(1, undefined, { per: "cook" })])).toBeUndefined();
  expect(price([], {})).toBeUndefined();
  expect(price(dated, { item: "" })).toBeUndefined();
});

test("lines for the same trays tell more than lines for others", () => {
  const lines = [bran(1, undefined, { onlyWhereValue: "fine" }), bran(2, undefined, { onlyWhereValue: "coarse" })];
  const of = (onlyWhereValue?: string) => guessCostLine({ ...unread, onlyWhereValue }, lines)?.guess.packPrice;
  expect([of("fine"), of("coarse"), of("none")]).toEqual([1, 2, 2]);
});

test("an amount and its pack are taken together, since they are of one unit", () => {
  const before = bran(1, undefined, { packSize: 25_000, packUnit: "g", amount: 350 });
  const { amount: _a, ...noAmount } = bran(9, undefined, { packSize: 10 });
  expect(guessCostLine(noAmount, [before])?.guess).toMatchObject({
    packPrice: 9,
    packSize: 25_000,
    packUnit: "g",
    amount: 350,
  });
  const { packSize: _s, ...noSize } = bran(9, undefined, { amount: 7 });
  expect(guessCostLine(noSize, [before])?.guess).toMatchObject({ packPrice: 9, packSize: 25_000, amount: 350 });
  expect(guessCostLine(unread, [before])?.guess).toMatchObject({ packPrice: 1, packSize: 1, amount: 1 });
});

test("a kind that is not known is reusable where the row says how long it lasts; else used up", () => {
  const { kind: _k, ...noKind } = bran(9);
  const kind = (facts: Partial<CostLine>) => guessCostLine({ ...noKind, ...facts }, []);
  expect(kind({})).toMatchObject({ guess: { kind: "consumable" }, guessedFrom: "the rest of its row" });
  expect(kind({ uses: 20 })?.guess.kind).toBe("reusable");
  expect(kind({ lifeYears: 5 })?.guess.kind).toBe("reusable");
  expect(kind({ uses: 20, salvage: 10 })?.guessedFrom).toBe("the rest of its row and nothing recovered at its end");
  expect(guessCostLine({ ...bran(9), item: "" }, [])).toBeUndefined();
  expect(guessCostLine(noKind, [bran(1, undefined, { kind: "ingredient" })])).toMatchObject({
    guess: { kind: "ingredient", packPrice: 9 },
    guessedFrom: "its other line in the book, row 1",
  });
});

test("numbers that cannot be count at the most the line can cost", () => {
  const frame = { ...bran(8), kind: "reusable" as const, uses: 20 };
  const salvage = guessCostLine({ ...frame, salvage: 9 }, []);
  expect(salvage?.guessedFrom).toBe("nothing recovered at its end");
  expect(salvage?.guess).not.toHaveProperty("salvage");
  expect(guessCostLine({ ...frame, salvage: 8 }, [])).toMatchObject({
    guess: { salvage: 8 },
    guessedFrom: "the rest of its row",
  });
  const breaks = guessCostLine({ ...frame, breakage: 1 }, []);
  expect(breaks).toMatchObject({ guess: { uses: 1 }, guessedFrom: "one use each" });
  expect(breaks?.guess).not.toHaveProperty("breakage");
  expect(guessCostLine({ ...frame, breakage: 0.99 }, [])).toMatchObject({ guess: { uses: 20, breakage: 0.99 } });
  expect(guessCostLine({ ...frame, salvage: 9, breakage: 1 }, [])?.guessedFrom).toBe(
    "nothing recovered at its end and one use each",
  );
  // how long it lasts is what makes its cost: without it there is no size to guess
  const { uses: _u, ...endless } = frame;
  expect(guessCostLine(endless, [])).toBeUndefined();
  expect(guessCostLine({ ...endless, lifeYears: 5 }, [])?.guess.lifeYears).toBe(5);
});
