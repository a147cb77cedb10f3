import { expect, test } from "vitest";
import { bookOf } from "./book-of.ts";

// What a careful person reads from a row of costs: what one use costs, and per what. Common practice, no source.

const harvest = "Tray,LC ml,Fresh g\n1,4,210\n2,8,240\n";

/** The first line's cost of one use and its base, or what is said of it. */
async function firstLine(costs: string): Promise<string> {
  const { costLines = [], unread = [] } = await bookOf({ "harvests/one.csv": harvest, "costs.csv": costs });
  const [line] = costLines;
  if (line === undefined) return unread.length > 0 ? "left out" : "nothing";
  const { packPrice, packSize, amount, per } = line;
  return `${Number(((packPrice * amount) / packSize).toFixed(4))} ${per}${unread.length > 0 ? ", in doubt" : ""}`;
}

test.each([
  // a sheet with "per tray" over its amounts: a line without one is not used up with a tray
  ["Posten;Preis;Menge;je Schale\nMiete;150 €/Monat;;\n", "150 month"],
  ["Artículo;Precio;Paquete;Por bandeja\nAlquiler;150 €/mes;;\n", "150 month"],
  ["Item,Price,Pack,Per tray\nRent,150 per month,,\n", "150 month"],
  ["Item,Price,Pack,Per tray\nGas,1.2 per load,,\n", "1.2 load"],
  ["Item,Price,Pack,Per tray\nThermometer,20,1,\n", "left out"],
  ["Item,Price,Pack,Per tray\nGrain,20,25 kg,400 g\n", "0.32 tray"],
  // times other than a month
  ["Item,Cost,Per\nInsurance,120,year\n", "10 month"],
  ["Item,Cost,Per\nRent,300,quarter\n", "100 month"],
  ["Item,Cost,Per\nWater,7,week\n", "30.4167 month"],
  ["Item,Cost,How often\nFilter,45,every 2 years\n", "1.875 month"],
  ["Posten;Preis;Pro\nVersicherung;120;Jahr\n", "10 month"],
  ["Item,Price,Life\nCooker,300,5 years\n", "5 month"],
  ["Item,Price,Life years\nShelf,120,10\n", "1 month"],
  ["Item,Cost,Per\nShelf light,0.05,shelf day\n", "0.05 shelf day"],
  // for nothing
  ["Item,Price,Pack,Per tray\nCoffee grounds,free,,500 g\n", "0 tray"],
  ["Posten;Preis;Packung;je Schale\nKaffeesatz;kostenlos;;500 g\n", "0 tray"],
  ["Item,Price,Pack,Per tray\nFree-range straw,,,500 g\n", "left out"],
  // hundredths
  ["Item,Price (ct),Pack,Per tray\nLabel,5,1,1\n", "0.05 tray"],
  ["Item,Price,Pack,Per tray\nBag,50p,1,1\n", "0.5 tray"],
  ["Item,Price (ct),Pack,Per tray\nBag,€0.50,1,1\n", "0.5 tray"],
  ["Item,Price (€),Pack,Per tray\nBag,50,100,1\n", "0.5 tray"],
  // tax
  ["Article;Prix;Conditionnement;Par barquette\nSacs;50 € TTC;100;1\n", "0.5 tray"],
  ["Article;Prix;Conditionnement;Par barquette\nSacs;50 € HT;100;1\n", "left out"],
])("%j: %s", async (costs, read) => expect(await firstLine(costs)).toBe(read));

test.each([
  ["VAT 19%", "9.50", true],
  ["Postage", "6.50", true],
  ["Rabatt", "10%", true],
  ["Gross", "59.50", true],
  ["Postage", "0", false],
  ["Discount", "", false],
  ["Colour", "9", false],
])("a column %s with %j that is not read puts prices in doubt: %s", async (header, cell, isInDoubt) => {
  const costs = `Item,Price,Pack,Per tray,${header}\nBags,50.00,100,1,${cell}\n`;
  expect(await firstLine(costs)).toBe(isInDoubt ? "0.5 tray, in doubt" : "0.5 tray");
});
