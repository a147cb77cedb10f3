import { expect, test } from "vitest";
import { bookOf } from "../book-of.ts";

const trays = "Tray,LC ml,Fresh g\nA1,5,210\nA2,10,240\n";
const head = "item,kind,pack_price,pack_size,pack_unit,amount,amount_unit,per";
const rye = "Rye,ingredient,1200,10,kg,0.5,kg,tray";
const costs = (line: string, isBelow = false) =>
  bookOf({
    "harvests/one.csv": trays,
    "costs.csv": `${(isBelow ? [head, rye, line] : [line, head, rye]).join("\n")}\n`,
  });

// in the eight languages; common practice, no source
const otherUnit = [
  ...["prices in thousands", "amounts in cents", "Preise in Cent", "Beträge in Tsd.", "montants en centimes"],
  ...["importes en miles", "importi in centesimi", "bedragen in duizenden", "kwoty w groszach", "valores em centavos"],
];
const withoutTax = [
  ...["prices excl. VAT", "netto zzgl. MwSt", "alle Preise netto", "prix HT", "precios sin IVA", "prezzi senza IVA"],
  ...["prijzen excl. btw", "ceny netto", "preços sem IVA", "plus VAT"],
];
const plain = ["Costs 2026", "prices incl. VAT", "prices in EUR", "Net weight of packs", "prix TTC", "Preise brutto"];

test.each(otherUnit.flatMap((line) => ["above", "below"].map((place) => [line, place])))(
  "%s, %s: no price is read",
  async (line, place) => {
    const book = await costs(line!, place === "below");
    expect(book.costLines).toEqual([]);
    expect(book.unread).toHaveLength(1);
    expect(book.unread![0]).not.toHaveProperty("guess.packPrice", 1200);
    const said = book.issues.filter(({ rule }) => rule === "money-by-remark");
    expect(said).toMatchObject([{ severity: "error", row: place === "above" ? 3 : 2, column: "pack_price" }]);
    expect(said[0]!.action).toContain(line);
  },
);

test.each(withoutTax)("%s: prices are read, and every answer about money is told of it", async (line) => {
  const book = await costs(line);
  expect(book.costLines).toHaveLength(1);
  expect(book.unread).toMatchObject([{ name: "Rye", inUse: true }]);
});

test.each(plain)("%s says nothing of what prices are", async (line) => {
  const book = await costs(line);
  expect(book.costLines).toHaveLength(1);
  expect(book.issues.filter(({ rule }) => rule === "money-by-remark")).toEqual([]);
});

test("prices of products are without tax anyway", async () => {
  const book = await bookOf({
    "harvests/one.csv": trays,
    "products.csv": "prices without VAT,,,\nproduct,form,grams,current_price\nDried 40 g,dried,40,12\n",
  });
  expect(book.issues.filter(({ rule }) => rule === "money-by-remark")).toEqual([]);
});
