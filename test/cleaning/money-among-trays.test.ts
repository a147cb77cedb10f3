import { describe, expect, test } from "vitest";
import { variedThings } from "../../src/design/varied-things.ts";
import { bookOf } from "./book-of.ts";

// Costs and prices typed among the trays, as growers do who keep one sheet. Common practice, no source.

const trays =
  "tray,batch,ml,fresh g,dry g,outcome\n1,A,10,270,30,ok\n2,A,10,260,29,ok\n3,A,5,250,28,ok\n4,A,5,,,mould\n";

/** Lines counted, as "0.5 tray", and the names of what is asked. */
async function moneyOf(sheets: Record<string, string>) {
  const book = await bookOf(sheets);
  const counted = (book.costLines ?? []).map(
    ({ item, packPrice, packSize, amount, per }) => `${item} ${(packPrice / packSize) * amount} ${per}`,
  );
  return { trays: book.trays.length, counted, asked: (book.unread ?? []).map(({ name }) => name) };
}

describe("a list under the trays is no list of trays", () => {
  test.each([
    ["a header below a gap", "\nitem,cost,per\nrice,0.5,tray\nrent,60,month\n"],
    ["a title and a header", "\nWhat it cost,,,,,\nitem,cost,per,,,\nrice,0.5,tray,,,\nrent,60,month,,,\n"],
    ["a title alone", "\nCosts\nrice,0.5,tray\nrent,60,month\n"],
    ["a title without a gap, cells to the full width", "Costs,,,,,\nrice,€0.5,tray,,,\nrent,€60,month,,,\n"],
    ["a title with a mark, bases in the prices", "\nEXPENSES:\nrice,0.5 per tray\nrent,60 a month\n"],
    ["a title of the run", "\nCosts for this run\nrice,0.5,tray\nrent,60,month\n"],
    ["a German title", "\nKosten\nrice,0.5 €,tray\nrent,60 €,Monat\n"],
  ])("%s", async (_, list) => {
    const expected = { trays: 4, counted: ["rice 0.5 tray", "rent 60 month"], asked: [] };
    expect(await moneyOf({ "harvests/h.csv": `${trays}${list}` })).toEqual(expected);
  });

  test("above the trays, and between them", async () => {
    const list = "Costs\nrice,0.5,tray\n\n";
    expect(await moneyOf({ "harvests/h.csv": `${list}${trays}` })).toMatchObject({
      trays: 4,
      counted: ["rice 0.5 tray"],
    });
    const more = trays.replace(/^([1-4]),A/gm, "1$1,B");
    expect(await moneyOf({ "harvests/h.csv": `${trays}\n${list}${more}` })).toEqual({
      ...{ trays: 8, counted: ["rice 0.5 tray"], asked: [] },
    });
  });

  test.each([
    ["what one use goes to is not said", "\nCosts\nrice,31.00,25 kg\nbags,46\n", ["rice", "bags"]],
    ["a header of things and prices", "\nItem,Price\nrice,31\nbags,46\n", ["rice", "bags"]],
    ["a line of prose", "\nrent £60 a month\n", ["rent £60 a month"]],
    [
      "lines under a title of ours",
      "Bought, all told\nRye,18.50,25 kg\nBags,42,100\n",
      ["Rye 18.50 25 kg", "Bags 42 100"],
    ],
    ["a title with nothing under it", "\nCosts\nstill to be added up\n", []],
  ])("%s", async (_, list, asked) => {
    expect(await moneyOf({ "harvests/h.csv": `${trays}${list}` })).toEqual({ trays: 4, counted: [], asked });
  });
});

test("a column of costs beside the trays is asked, and is nothing that was tried", async () => {
  const costs = trays.replace("outcome", "outcome,cost").replace(/^(\d,A,(\d+),.*)$/gm, "$1,$2");
  expect(await moneyOf({ "harvests/h.csv": costs })).toEqual({ trays: 4, counted: [], asked: ["column cost"] });
  const book = await bookOf({ "harvests/h.csv": costs });
  expect(variedThings(book.trays).map(({ factor }) => factor.key)).toEqual(["inoculum_ml"]);
  const unread = "file,header,field,unit\n,cost,unread,\n";
  expect(await moneyOf({ "harvests/h.csv": costs, "columns.csv": unread })).toMatchObject({ asked: [] });
});

test.each([
  ["expenses 2026.csv", "Item,Amount\nrice,31\nbags,46\n", ["rice", "bags"]],
  ["costs/march.csv", "Item,Amount\nrice,31\nbags,46\n", ["rice", "bags"]],
  ["kosten fix.csv", "Posten;Kosten;pro\nMiete;;Monat\n", ["Miete"]],
  ["receipts.csv", "date,shop,paid\n2026-03-01,Corner store,31\n", ["receipts.csv"]],
  ["sales.csv", "date,item,qty,price,total\n2026-05-02,dried 50 g,3,12.90,38.70\n", []],
  ["sales.csv", "item,price\ndried 50 g,12.90\nfresh punnet,6.50\n", ["fresh punnet"]],
])("a sheet %s beside the harvests is one of money", async (name, sheet, asked) => {
  expect(await moneyOf({ "harvests/h.csv": trays, [name]: sheet })).toEqual({ trays: 4, counted: [], asked });
});
