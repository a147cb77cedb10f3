import { expect, test } from "vitest";
import { bookOf } from "./book-of.ts";

// What a careful person reads from a list of products. Common practice, no source; ounces and pounds by 16 CFR 500.19.

const harvest = "Tray,LC ml,Fresh g\n1,4,210\n2,8,240\n";

/** Each product's weight and price, and what is said to be missing. */
async function productsOf(list: string): Promise<string> {
  const { products = [], unread = [] } = await bookOf({ "harvests/one.csv": harvest, "products.csv": list });
  const read = products.map(({ grams, currentPrice }) => `${Number(grams.toFixed(3))} g ${currentPrice}`);
  return [...read, ...unread.map(({ name }) => `asked: ${name}`)].join("; ");
}

/** The fee of the first product, or what is asked. */
async function feeOf(header: string, cell: string): Promise<string> {
  const list = `Product,Size,Price,${header}\nDried,30 g,12.50,${cell}\n`;
  const { products = [], unread = [] } = await bookOf({ "harvests/one.csv": harvest, "products.csv": list });
  const fees = products.map(({ feeFraction, feeFixed }) => `${feeFraction} + ${feeFixed}`);
  return [...fees, ...unread.map(({ name }) => `asked: ${name}`)].join("; ");
}

test.each([
  ["Market place fee", "6.5%", "0.065 + 0"],
  ["Web shop commission (%)", "8", "0.08 + 0"],
  ["Cut", "6.5%+0.30", "0.065 + 0.3"],
  ["Etching", "6.5% + 0.30", "0 + 0; asked: column Etching"],
  ["Etching", "6.5%+€0.30", "0 + 0; asked: column Etching"],
  ["Etching", "6.5% of the price", "0 + 0; asked: column Etching"],
  ["Etching", "in 2 colours", "0 + 0"],
  ["Stall fee", "€0.30", "0 + 0.3"],
  ["Stall fee", "10", "asked: Dried"],
  ["Old shop fee", "5%", "0 + 0; asked: column Old shop fee"],
  ["Fee,Card fee", "6.5%,1.7%", "0.065 + 0; asked: column Card fee"],
  ["Shop fee,Card fee", "6.5%,1.7%", "0 + 0; asked: column Shop fee | Card fee"],
])("a fee is one whoever takes it: %s, %s", async (header, cell, expected) => {
  expect(await feeOf(header, cell)).toBe(expected);
});

test.each([
  // what a pack holds, in its column, among words, or in the product's name
  ["Product,Pack,Price\nDried slices,50 g,12.90\nFresh,200 g,6.50\n", "50 g 12.9; 200 g 6.5"],
  ["Product,Pack,Price\nDried 30 g,jar,11\nFresh,punnet 150g,5\nPowder,60 x 0.5 g,19\n", "30 g 11; 150 g 5; 30 g 19"],
  ["Product,Form,Grams,Price\nSachets,dried,10 x 5 g,18\n", "50 g 18"],
  ["Product,Form,Oz,Price\nSlices,dried,2,20\n", "56.699 g 20"],
  ["Product,Form,Grams,Pack,Price\nSachets,dried,5,10,18\n", "5 g 18; asked: column Pack"],
  ["Product,Pack,Price\nDried 30 g or 50 g,jar,11\n", "asked: Dried 30 g or 50 g"],
  ["SKU,Pack,RRP\nDried 30g jar,30,14\n", "30 g 14"],
  ["SKU,Pack,RRP\nDried 30g jar,3,14\n", "asked: Dried 30g jar"],
  ["SKU,Grams,RRP\nDried 30g jar,50,14\n", "50 g 14; asked: Dried 30g jar"],
  ["Product,Size,Price\nDried 1 oz,28,14\n", "28 g 14"],
  ["Product,Size,Price\nCapsules 60 x 500 mg,60,19\n", "30 g 19"],
  ["Item,Size g,Sell price\nDried slices,8,11.5\n", "8 g 11.5"],
  ["Item,Size,Price\nFresh punnet,200,5\nDried pouch,8,9\n", "200 g 5; asked: Dried pouch"],
  ["Name,Fresh or dried,grams,price\nPunnet,fresh,150,4.50\n", "150 g 4.5"],
  // how many, in a column that is not read
  ["Product,Size,Price,Other\nDried,30 g,12.50,2\n", "30 g 12.5; asked: column Other"],
  // money and shares in a column that is not read make a product cheaper; what comes of a price does not
  [
    "Product,Size,Price,Label,Etching\nDried,30 g,12.50,0.10,6.5%\n",
    "30 g 12.5; asked: column Label; asked: column Etching",
  ],
  ["Product,Size,Price,Profit,Sold last month\nDried,30 g,12.50,4.10,12\n", "30 g 12.5"],
  // a weight under any name, by its cells; a title as the name of prices; what is in a price
  ["What,How much,Sold for\nDried,30 g,12\nFresh,200 g,5\n", "30 g 12; 200 g 5"],
  ["Ware;Menge;Mengeneinheit;VK-Preis\nGetrocknet;30;g;12,00\n", "30 g 12"],
  ["Product,Stock,Price\nDried,500 g,12\n", "asked: Dried"],
  ["Prices,\nDried 30 g,12\nFresh 200 g,5\n", "30 g 12; 200 g 5"],
  ["Product,Grams,Price incl. postage,Postage\nDried,30,12,3.20\n", "30 g 12"],
  ["Product,Grams,Price ex VAT,VAT\nDried,30,10,20%\n", "30 g 10"],
  ["Product,Grams,Shop price,Shop takes\nDried,30,12,30%\n", "30 g 12"],
  // a unit behind the name of a column that cannot be the column's
  ["Product,Grams,Price,Loss (g)\nDried,30,12,5\n", "asked: Dried"],
  ["Product,Grams,Price,Loss (%)\nDried,30,12,5\n", "30 g 12"],
  ["Product,Grams,Price,Margin (€)\nDried,30,12,5\n", "asked: Dried"],
  ["Product,Grams,Price,Tax (€),Tax included\nDried,30,12,1.50,yes\n", "asked: Dried"],
  ["Product,Grams,Price,Packing (h)\nDried,30,12,0.1\n", "asked: Dried"],
  ["Product,Grams,Price,Packaging (€)\nDried,30,12,0.25\n", "30 g 12"],
  // prices in a place, and a note that takes from one
  ["Product,Size,Market\nDried,30 g,12\n", "30 g 12"],
  ["Product,Size,Online,Market\nDried,30 g,14,12\nFresh,200 g,,5\n", "30 g 14; 30 g 12; 200 g 5"],
  ["Product,Size,Online,Market,Fee\nDried,30 g,14,12,5%\n", "30 g 12; asked: column Online"],
  ["Product,Size,Online,Market,Price\nDried,30 g,yes,no,12\n", "30 g 12"],
  ["Product,Size,Price,Market\nDried,30 g,14,12\n", "30 g 14; asked: column Market"],
  ["Product,Size,Price,Note\nDried,30 g,12,shop takes 30%\n", "30 g 12; asked: Dried"],
  ["Product,Size,Price,Note\nDried,30 g,12,half price for friends\n", "30 g 12; asked: Dried"],
  ["Product,Size,Price,Note\nDried,30 g,12,blue label\n", "30 g 12"],
  // what every sale has, or an order, and work that has no price
  ["Product,Size,Price,Discount\nDried,30 g,12.50,10%\n", "30 g 12.5; asked: Dried"],
  ["Product,Size,Price,Discount,MOQ\nDried,30 g,12.50,10%,5\n", "30 g 12.5"],
  ["Product,Size,Price,Time\nDried,30 g,12.50,5 min\n", "30 g 12.5; asked: packing time"],
  // prices of a weight
  ["Product,Form,Price per 100 g\nSlices,dried,24.00\n", "100 g 24"],
  ["Product,Form,Grams,Price per kg\nSlices,dried,50,240\n", "50 g 12"],
  ["Product,Form,Grams,Price (€/kg)\nSlices,dried,50,240\n", "50 g 12"],
  ["Product,Form,Grams,Price\nBulk,dried,,€180/kg\nFresh,fresh,,14 per lb\n", "1000 g 180; 453.592 g 14"],
  ["Produkt;Form;Inhalt;Preis pro kg\nFrisch;frisch;200 g;28,00\n", "200 g 5.6"],
  ["Product,Form,Grams,Price\nJar,dried,30 g,9.90 each\n", "30 g 9.9"],
  ["Product,Form,Grams,Price\nPunnet,fresh,250,3 for 10\n", "asked: Punnet"],
  // hundredths, and what the buyer does not pay
  ["Product,Form,Grams,Price,Fixed fee\nSlices,dried,50,12.90,30c\n", "50 g 12.9"],
  ["Product,Form,Grams,Price,Shipping charged\nSlices,dried,50,12.90,free\n", "50 g 12.9"],
  [
    "Product,Form,Grams,Price,Postage,Postage paid by\nSlices,dried,50,12.90,3.90,buyer\n",
    "50 g 12.9; asked: column Postage paid by",
  ],
  ["Product,Pack,Price\nDried,30g pouch,12.50\nFresh,1 kg crate,22\n", "30 g 12.5; 1000 g 22"],
  ["Product,Size g,Price EUR\nDried,30,12.50\n", "30 g 12.5"],
  // sold by a weight, or at a price for each of several
  ["Product,Size,Price\nFresh,per kg,16/kg\nDried,per kg,180\n", "1000 g 16; 1000 g 180"],
  ["Product,Price,Unit\nFresh,16,kg\nPowder,12,20 g jar\n", "1000 g 16; 20 g 12"],
  ["Product,30 g,50 g\nDried slices,12.50,19\nPowder,,21\n", "30 g 12.5; 50 g 19; 50 g 21"],
  // tax and discounts in words, and work under a name of its own
  ["Product,Size,Price,VAT\nDried,30 g,12.50 inc VAT,20%\nFresh,200 g,5.00 inc VAT,zero rated\n", "30 g 12.5; 200 g 5"],
  ["Product,Size,Price,Bulk discount\nDried,30 g,12.50,10% off 5 or more\n", "30 g 12.5"],
  ["Product,Size,Price,Bagging\nDried,30 g,12.50,4 min\n", "30 g 12.5; asked: column Bagging"],
  ["Product,Size,Price,VAT\nDried,30 g,12.50,7 % incl.\nFresh,200 g,5,20% on top\n", "30 g 12.5; 200 g 5"],
  ["Product,Size,Price,Offer\nDried,30 g,12.50,3 for 33\n", "30 g 12.5; asked: column Offer"],
  ["Product,Size,New price\nDried,30 g,12.50\n", "30 g 12.5"],
  ["Product,Size,Price,Postage,Customer pays postage\nDried,30 g,12.50,3.35,yes\n", "30 g 12.5"],
  // a price list beside an older one, a price for others, tax in a price without its rate
  [
    "Product,Size,Price,From\nDried,30 g,12.50,2026-01-01\nDried,30 g,13.50,2026-03-01\n",
    "30 g 12.5; 30 g 13.5; asked: Dried",
  ],
  ["Product,Size,Retail,Wholesale\nDried,30 g,12.50,8.50\n", "30 g 12.5; asked: column Wholesale"],
  ["Product,Size,Price inc VAT,VAT\nDried,30 g,12.50,20%\n", "30 g 12.5"],
  ["Product,Size,Price inc VAT\nDried,30 g,12.50\n", "30 g 12.5; asked: Dried"],
  ["Prices 2026 (incl. VAT),,\nProduct,Size,Price\nDried,30 g,12.50\n", "30 g 12.5; asked: Dried"],
])("%j: %s", async (list, read) => expect(await productsOf(list)).toBe(read));

test.each([
  ["Fee", "6.5 % + 0.30", 0.065, 0.3],
  ["Fee", "1.7% + 20p", 0.017, 0.2],
  ["Fee", "€0.30", 0, 0.3],
  ["Marketplace fee %", "12.9", 0.129, 0],
  ["Commission", "15", 0.15, 0],
  ["Fees", "6.5% + 3%", 0.095, 0],
  ["Fees", "6.5% + 3% + 0.25", 0.095, 0.25],
  ["Fee €", "0.80", 0, 0.8],
  ["Payment fee", "4% + 0.30", 0.04, 0.3],
  // a share of the price, or money: asked
  ["Fee", "1.20", undefined, undefined],
])("a fee in %s of %s is %d of the price and %d", async (name, fee, feeFraction, feeFixed) => {
  const list = `Product,Form,Grams,Price,${name}\nSlices,dried,50,12.90,${fee}\n`;
  const { products = [], unread = [] } = await bookOf({ "harvests/one.csv": harvest, "products.csv": list });
  expect(products.map((one) => [one.feeFraction, one.feeFixed])).toEqual(
    feeFraction === undefined ? [] : [[feeFraction, feeFixed]],
  );
  expect(unread).toHaveLength(feeFraction === undefined ? 1 : 0);
});

test.each([
  ["Time (h)", "0.1", 6],
  ["Time (min)", "6", 6],
  ["Time", "6", 6],
])("work under %s of %s is %d minutes", async (name, cell, minutes) => {
  const list = `Product,Size,Price,${name}\nDried,30 g,12.50,${cell}\n`;
  const { products } = await bookOf({ "harvests/one.csv": harvest, "products.csv": list });
  expect(products).toMatchObject([{ minutes }]);
});

test("work that is to count as nothing is not asked about", async () => {
  const list = "Product,Size,Price,Time\nDried,30 g,12.50,5 min\n";
  const settings = "key,value\nowner_labour_rate,0\n";
  const book = await bookOf({ "harvests/one.csv": harvest, "products.csv": list, "settings.csv": settings });
  expect(book.unread).toBeUndefined();
});

test("that a price holds its tax is said in eight languages", async () => {
  const list = "Produkt;Inhalt;Preis;MwSt;MwSt enthalten\nGetrocknet;30 g;12,50;7 %;ja\n";
  const { products } = await bookOf({ "harvests/one.csv": harvest, "products.csv": list });
  expect(products).toMatchObject([{ taxRate: 0.07, taxIncluded: true, currentPrice: 12.5 }]);
});

test.each([
  ["Price ex VAT", false],
  ["Price inc VAT", true],
])("a tax beside %s is in the price: %s", async (name, taxIncluded) => {
  const list = `Product,Grams,${name},VAT\nDried,30,10,20%\n`;
  const { products } = await bookOf({ "harvests/one.csv": harvest, "products.csv": list });
  expect(products).toMatchObject([{ taxRate: 0.2, taxIncluded, currentPrice: 10 }]);
});

test("products of one name are told apart by what is in one", async () => {
  const list = "Product,Pack,Price,Channel\nDried,50 g,12.90,shop\nDried,100 g,23,shop\nDried,50 g,11,market\n";
  const book = await bookOf({ "harvests/one.csv": harvest, "products.csv": list });
  expect(book.products?.map(({ product }) => product)).toEqual(["Dried 50 g", "Dried 100 g", "Dried"]);
});

test("a list with the products' own name for a thing is one of products, whatever its sheet is called", async () => {
  const list = "Product,Size,Price\nDried pouch,30 g,11\n";
  const { products } = await bookOf({ "harvests/one.csv": harvest, "prices market.csv": list });
  expect(products).toMatchObject([{ product: "Dried pouch", grams: 30, currentPrice: 11 }]);
});

test.each([
  ["Price,VAT", "12.50,7 % incl.", { taxRate: 0.07, taxIncluded: true }],
  ["Price,VAT", "12.50,20% on top", { taxRate: 0.2, taxIncluded: false }],
  ["Price,VAT", "12.50 inc VAT,20%", { taxRate: 0.2, taxIncluded: true, currentPrice: 12.5 }],
  ["Price,Postage,Customer pays postage", "12.50,3.35,yes", { shippingCost: 3.35, shippingCharged: 3.35 }],
  ["Price,Postage,Customer pays postage", "12.50,3.35,no", { shippingCost: 3.35, shippingCharged: 0 }],
  ["Price,Sold per month (g)", "12.50,300", { expectedUnitsPerMonth: 10 }],
  ["Price,Sold per month", "12.50,0.6 kg", { expectedUnitsPerMonth: 20 }],
  ["Price,Sold per week", "12.50,3", { expectedUnitsPerMonth: expect.closeTo(13.0357, 4) }],
  ["Price,Sold per month,Max per month", "12.50,8,unlimited", { expectedUnitsPerMonth: 8 }],
  ["Price,Bulk discount", "12.50,10% off 5 or more", { quantityDiscounts: [{ from: 5, discount: 0.1 }] }],
])("what cells say themselves of tax, sending and discounts: %s of %s", async (header, cells, expected) => {
  const list = `Product,Size,${header}\nDried,30 g,${cells}\n`;
  const { products } = await bookOf({ "harvests/one.csv": harvest, "products.csv": list });
  expect(products).toMatchObject([expected]);
});
