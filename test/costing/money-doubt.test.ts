import { expect, test } from "vitest";
import { doubtOfLine, doubtOfUnread } from "../../src/costing/lines/money-doubt.ts";
import { line } from "./sample-records.ts";

const source = { file: "costs.csv", row: 4 };
const row = { sheet: "costs", name: "rent", reason: "no price can be read", source, inUse: false } as const;

test("what a row that could not be read leaves out: every cost, or only what belongs to units sold", () => {
  expect(doubtOfUnread({ ...row })).toEqual({
    name: "rent",
    reason: "no price can be read",
    source,
    effect: "left out",
    moves: "every cost",
  });
  expect(doubtOfUnread({ ...row, inUse: true }).effect).toBe("doubtful");
  expect(doubtOfUnread({ ...row, per: "tray" }).moves).toBe("every cost");
  expect(doubtOfUnread({ ...row, per: "unit sold" }).moves).toBe("products");
  expect(doubtOfUnread({ ...row, sheet: "products" }).moves).toBe("products");
  const guess = line({ item: "rent", packPrice: 9 });
  expect(doubtOfUnread({ ...row, guess, guessedFrom: "its other line" })).toMatchObject({
    guess,
    guessedFrom: "its other line",
  });
});

test("a line counted for some trays only says for how many it is not", () => {
  const rent = line({ item: "rent", per: "month", source });
  expect(doubtOfLine(rent, "no dates", "in part", { trays: 3 })).toMatchObject({
    name: "rent",
    moves: "every cost",
    trays: 3,
  });
  expect(doubtOfLine(rent, "no dates", "left out")).not.toHaveProperty("trays");
  expect(doubtOfLine({ ...rent, per: "unit sold" }, "no price", "left out").moves).toBe("products");
});
