import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readProducts } from "../../../src/cleaning/products/read-products.ts";
import { writeCsv } from "../../../src/csv/write-csv.ts";
import { type Product, productColumns } from "../../../src/records/product.ts";
import type { Settings } from "../../../src/records/setting.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { tableOfText } from "./table-of-text.ts";

type Column = (typeof productColumns)[number];
const slices: Partial<Record<Column, string>> = { product: "slices", form: "dried", channel: "web", grams: "50" };

async function one(typed: Partial<Record<Column, string>>, settings: Partial<Settings> = {}) {
  const line = { ...slices, ...typed };
  const text = writeCsv([[...productColumns], productColumns.map((column) => line[column] ?? "")], { guard: false });
  const { products, issues, leftOut } = readProducts([await tableOfText(text, "products.csv")], {
    ...defaultSettings,
    ...settings,
  });
  return { product: products[0], issues, leftOut };
}

test("the demo books' products are read whole", async () => {
  for (const book of ["demo-book", "as-typed-book"]) {
    const text = readFileSync(new URL(`../../../data-samples/${book}/products.csv`, import.meta.url), "utf8");
    const { products, issues, leftOut } = readProducts([await tableOfText(text, "products.csv")], defaultSettings);
    expect(issues.filter(({ severity }) => severity !== "change")).toEqual([]);
    expect(leftOut).toEqual([]);
    expect(products[0]).toMatchObject({
      product: "dried slices 50 g",
      form: "dried",
      channel: "web shop",
      grams: 50,
      processingLoss: 0,
      feeFraction: 0.065,
      feeBase: "price and shipping",
      taxRate: 0.07,
      taxIncluded: true,
      targetMargin: 0.35,
      sellThrough: 0.97,
      priceEndings: [0.5, 0.9],
    });
    expect(products[1]).toMatchObject({ taxIncluded: false, priceEndings: [0] });
  }
});

test.each<[string, Partial<Record<Column, string>>, Partial<Product>]>([
  [
    "nothing but the needed cells",
    {},
    {
      processingLoss: 0,
      feeFraction: 0,
      taxRate: 0,
      taxIncluded: false,
      sellThrough: 1,
      priceEndings: [],
      feeBase: "price",
      minutes: 0,
    },
  ],
  ["weight with its unit", { grams: "2 oz" }, { grams: 56.69904625 }],
  ["a kilo", { grams: "0.25 kg" }, { grams: 250 }],
  [
    "bare percentages above 1",
    { fee_pct: "12.9", tax_pct: "7", tax_included: "incl." },
    { feeFraction: 0.129, taxRate: 0.07, taxIncluded: true },
  ],
  ["a percentage of 0", { fee_pct: "0" }, { feeFraction: 0 }],
  ["minutes with a unit", { minutes: "1.5 h" }, { minutes: 90 }],
  ["endings with decimal commas", { price_endings: "0,50; 0,90" }, { priceEndings: [0.5, 0.9] }],
  ["endings as cents", { price_endings: "99" }, { priceEndings: [0.99] }],
  ["endings without a zero", { price_endings: ".49 / x.99" }, { priceEndings: [0.49, 0.99] }],
  ["words", { form: "dehydrated", fee_base: "total" }, { form: "dried", feeBase: "price, shipping and tax" }],
  [
    "discount and quantity",
    { minimum_quantity: "10", quantity_discount_pct: "5 %" },
    { quantityDiscounts: [{ from: 10, discount: 0.05 }] },
  ],
  [
    "two steps of discount",
    { minimum_quantity: "10; 5", quantity_discount_pct: "8 %; 5 %" },
    {
      quantityDiscounts: [
        { from: 5, discount: 0.05 },
        { from: 10, discount: 0.08 },
      ],
    },
  ],
  [
    "a jar of culture",
    { form: "other", grams: "", made_of: "culture jar" },
    { grams: 0, madeOf: [{ name: "culture jar", count: 1 }] },
  ],
  [
    "a bundle",
    { form: "bundle", grams: "", made_of: "2 x dried slices 50 g; powder 30 g × 3" },
    {
      form: "other",
      madeOf: [
        { name: "dried slices 50 g", count: 2 },
        { name: "powder 30 g", count: 3 },
      ],
    },
  ],
  ["a tincture of dried mushrooms", { form: "tincture", made_of: "Dry weight" }, { form: "other", madeOf: "dried" }],
  ["a grade", { grade: "broken", grade_share_pct: "5 %" }, { grade: "broken", gradeShare: 0.05 }],
])("product: %s", async (_, typed, expected) => {
  const { product, issues } = await one(typed);
  expect(issues.filter(({ severity }) => severity === "error")).toEqual([]);
  expect(product).toMatchObject(expected);
});

test.each<[string, Partial<Record<Column, string>>, string, Column]>([
  ["no weight", { grams: "" }, "missing", "grams"],
  ["weight of 0", { grams: "0" }, "zero", "grams"],
  ["a volume for a weight", { grams: "50 mL" }, "wrong-unit", "grams"],
  ["unknown form", { form: "cloud" }, "unknown-word", "form"],
  ["fee of 0.129: a share or a percentage", { fee_pct: "0.129" }, "bare-share", "fee_pct"],
  ["fee above all", { fee_pct: "130 %" }, "out-of-range", "fee_pct"],
  ["negative packaging", { packaging_cost: "-1" }, "negative", "packaging_cost"],
  ["tax and no word on whether it is in the price", { tax_pct: "7 %" }, "missing", "tax_included"],
  ["a margin of all", { target_margin_pct: "100 %" }, "out-of-range", "target_margin_pct"],
  ["endings that are prices", { price_endings: "4.50" }, "not-a-price-ending", "price_endings"],
  ["all lost in processing", { processing_loss_pct: "100 %" }, "out-of-range", "processing_loss_pct"],
  ["another form and not what it is made of", { form: "grow kit" }, "missing-made-of", "made_of"],
  ["none of a part", { form: "other", made_of: "0 x bag" }, "not-made-of", "made_of"],
  ["a grade without its share", { grade: "culls" }, "missing", "grade_share_pct"],
  [
    "more discounts than quantities",
    { minimum_quantity: "10", quantity_discount_pct: "5 %; 8 %" },
    "steps-do-not-match",
    "quantity_discount_pct",
  ],
  ["negative limit", { max_units_month: "-3" }, "negative", "max_units_month"],
])("product refused: %s", async (_, typed, rule, column) => {
  const { product, issues, leftOut } = await one(typed);
  expect(product).toBeUndefined();
  expect(leftOut).toMatchObject([{ file: "products.csv", row: 2 }]);
  const found = issues.find((issue) => issue.rule === rule);
  expect(found).toMatchObject({ column, severity: "error", row: 2 });
  expect(found!.action).not.toBe("");
});

test("what settings decide: a bare fee, weights in ounces", async () => {
  expect((await one({ fee_pct: "0.129" }, { percentStyle: "fraction" })).product!.feeFraction).toBe(0.129);
  const table = await tableOfText("product,form,weight\nslices,dried,2\n");
  expect(readProducts([table], defaultSettings).issues).toMatchObject([
    { rule: "bare-number", setting: "mass_unit", severity: "error" },
  ]);
  expect(readProducts([table], { ...defaultSettings, massUnit: "oz" }).products[0]!.grams).toBe(56.69904625);
});
