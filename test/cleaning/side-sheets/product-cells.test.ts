import { describe, expect, test } from "vitest";
import { readProducts } from "../../../src/cleaning/products/read-products.ts";
import { type Product, productColumns } from "../../../src/records/product.ts";
import type { Settings } from "../../../src/records/setting.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { product } from "../../costing/sample-records.ts";
import { tableOf } from "./table-of-text.ts";

type Column = (typeof productColumns)[number];
type Typed = Partial<Record<Column, string>>;

const read = (header: readonly string[], rows: string[][], settings: Partial<Settings> = {}) =>
  readProducts([tableOf("products.csv", header, rows)], { ...defaultSettings, ...settings });
const one = (typed: Typed, settings?: Partial<Settings>) => {
  const row: Typed = { product: "slices", form: "dried", grams: "50", ...typed };
  return read(productColumns, [productColumns.map((column) => row[column] ?? "")], settings);
};

const slices = product({ product: "slices", channel: "" });

// what is not typed is absent or nothing, and each cell is one fact of the product
test.each<[string, Typed, Partial<Product>]>([
  ["the needed cells", {}, {}],
  ["a channel", { channel: "web" }, { channel: "web" }],
  ["a loss", { processing_loss_pct: "3 %" }, { processingLoss: 0.03 }],
  ["packaging", { packaging_cost: "0.40" }, { packagingCost: 0.4 }],
  ["minutes", { minutes: "4" }, { minutes: 4 }],
  ["minutes with their unit", { minutes: "90 min" }, { minutes: 90 }],
  ["hours", { minutes: "1.5 h" }, { minutes: 90 }],
  ["shipping", { shipping_cost: "4", shipping_charged: "5" }, { shippingCost: 4, shippingCharged: 5 }],
  [
    "fees",
    { fee_pct: "6 %", fee_fixed: "0.30", fee_base: "order" },
    { feeFraction: 0.06, feeFixed: 0.3, feeBase: "price and shipping" },
  ],
  ["a tax that the price holds", { tax_pct: "7 %", tax_included: "yes" }, { taxRate: 0.07, taxIncluded: true }],
  ["a tax on top", { tax_pct: "7 %", tax_included: "no" }, { taxRate: 0.07 }],
  ["no tax, which nothing has to hold", { tax_pct: "0 %" }, {}],
  ["a margin", { target_margin_pct: "35 %" }, { targetMargin: 0.35 }],
  ["a margin of nearly all", { target_margin_pct: "99 %" }, { targetMargin: 0.99 }],
  ["a price", { current_price: "12.90" }, { currentPrice: 12.9 }],
  ["units expected", { expected_units_month: "30" }, { expectedUnitsPerMonth: 30 }],
  ["a limit", { max_units_month: "60" }, { maxUnitsPerMonth: 60 }],
  ["a share sold", { sell_through_pct: "90 %" }, { sellThrough: 0.9 }],
  ["a grade of all of the weight", { grade: "whole", grade_share_pct: "100 %" }, { grade: "whole", gradeShare: 1 }],
  ["a remark", { note: "blue" }, { note: "blue" }],
  ["a discount", { quantity_discount_pct: "5 %" }, { quantityDiscounts: [{ from: 1, discount: 0.05 }] }],
  [
    "a bundle of no weight",
    { form: "other", grams: "0", made_of: "label" },
    { form: "other", grams: 0, madeOf: [{ name: "label", count: 1 }] },
  ],
])("a product of %s", (_, typed, facts) => {
  const { products, unread, leftOut } = one(typed);
  expect(products).toStrictEqual([{ ...slices, ...facts }]);
  expect([unread, leftOut]).toEqual([[], []]);
});

test.each<[string, Typed, string, Column]>([
  ["no name", { product: "" }, "missing", "product"],
  ["a clock for minutes", { minutes: "1:30" }, "not-a-number", "minutes"],
  ["minutes below nothing", { minutes: "-1" }, "negative", "minutes"],
  ["a share of a grade above all", { grade: "whole", grade_share_pct: "101 %" }, "out-of-range", "grade_share_pct"],
  ["a grade of none of the weight", { grade: "whole", grade_share_pct: "0 %" }, "zero", "grade_share_pct"],
  ["nothing that it is made of", { form: "other", made_of: ";" }, "not-made-of", "made_of"],
  ["none of one of its parts", { form: "other", made_of: "0 x bag; label" }, "not-made-of", "made_of"],
  ["an order of no units", { minimum_quantity: "0", quantity_discount_pct: "5 %" }, "zero", "minimum_quantity"],
  [
    "a discount of all",
    { minimum_quantity: "5", quantity_discount_pct: "100 %" },
    "out-of-range",
    "quantity_discount_pct",
  ],
  [
    "a discount below nothing",
    { minimum_quantity: "5", quantity_discount_pct: "-1 %" },
    "negative",
    "quantity_discount_pct",
  ],
  [
    "a step that is not known",
    { minimum_quantity: "5; 10", quantity_discount_pct: "5 %; ?" },
    "step-not-known",
    "quantity_discount_pct",
  ],
  [
    "a quantity that is not known",
    { minimum_quantity: "?", quantity_discount_pct: "5 %" },
    "step-not-known",
    "quantity_discount_pct",
  ],
  [
    "a decimal mark that only a name shows",
    { product: "jar 0,5", current_price: "1.234" },
    "decimal-or-thousands",
    "current_price",
  ],
])("a product is left out for %s", (_, typed, rule, column) => {
  const { products, issues } = one(typed);
  expect(products).toEqual([]);
  expect(issues.filter(({ severity }) => severity === "error")).toMatchObject([{ rule, column, row: 2 }]);
});

test.each<Column>(["packaging_cost", "grams", "minutes", "fee_pct", "sell_through_pct"])(
  "a product is left out where its %s is not known, and known to be missing",
  (column) => {
    const { products, unread, leftOut } = one({ [column]: "tbd" });
    expect(products).toEqual([]);
    expect(unread).toStrictEqual([
      {
        sheet: "products",
        name: "slices",
        reason: expect.stringContaining("not known"),
        source: { file: "products.csv", row: 2 },
        inUse: false,
      },
    ]);
    expect(leftOut).toMatchObject([{ row: 2 }]);
  },
);

test("a sheet without names has no products", () => {
  const { products, issues } = read(["form", "grams"], [["dried", "50"]]);
  expect(products).toEqual([]);
  expect(issues).toMatchObject([{ rule: "missing-column", severity: "error" }]);
});

// common practice, no source
test.each([
  ["Dried 30 g pouch", "dried"],
  ["Fresh punnet", "fresh"],
  ["Punnet 150 g", "fresh"],
  ["Lion's mane powder", "powder"],
  ["Pulver 25 g", "powder"],
  ["Surprise box", undefined],
  ["Dried powder mix", undefined],
  ["Dreid pouch", undefined],
])("without a form, the name %j says: %s", (name, form) => {
  for (const cells of [
    [name, "50"],
    [name, "50", ""],
  ]) {
    const { products, issues } = read(["product", "grams", "form"].slice(0, cells.length), [cells]);
    expect(products.map((product) => product.form)).toEqual(form === undefined ? [] : [form]);
    expect(issues[0]).toMatchObject(
      form === undefined ? { severity: "error" } : { rule: "form-by-name", result: form },
    );
  }
});

// 1 oz is 28.349523125 g exactly (NIST Handbook 44, appendix C)
test.each<[string, Partial<Settings>, number | undefined]>([
  ["weight (oz)", {}, 56.69904625],
  ["weight (oz)", { massUnit: "g" }, 56.69904625],
  ["grams (net)", {}, 2],
  ["Grams", { massUnit: "oz" }, 2],
  ["weight (net)", { massUnit: "oz" }, 56.69904625],
  ["weight", {}, undefined],
])("2 under “%s” with the settings %j are %s g", (header, settings, grams) => {
  const { products } = read(["product", "form", header], [["slices", "dried", "2"]], settings);
  expect(products[0]?.grams).toBe(grams);
});

test.each<[string, string, number]>([
  ["label", "label", 1],
  ["2 x label", "label", 2],
  ["12x label", "label", 12],
  ["2×label", "label", 2],
  ["2 * label", "label", 2],
  ["1,5 x rye", "rye", 1.5],
  ["0.25 X rye", "rye", 0.25],
  ["label x 2", "label", 2],
  ["label x12", "label", 12],
  ["label ×  0,25", "label", 0.25],
  ["label*3", "label", 3],
  ["box 3 x 4", "box 3", 4],
  ["5 L box", "5 L box", 1],
  ["mix", "mix", 1],
])("a unit made of “%s” has the part “%s” %d times", (made_of, name, count) => {
  expect(one({ form: "other", made_of }).products[0]?.madeOf).toEqual([{ name, count }]);
  const both = [
    { name: "lid", count: 1 },
    { name, count },
  ];
  expect(one({ form: "other", made_of: `lid;; ${made_of} ` }).products[0]?.madeOf).toEqual(both);
});

test.each(["+", "\n", " ; "])("parts stand apart by %j", (mark) => {
  expect(one({ form: "other", made_of: `lid${mark}label` }).products[0]?.madeOf).toHaveLength(2);
});

test.each<[string, "fresh" | "dried"]>([
  ["fresh mushrooms", "fresh"],
  ["wet", "fresh"],
  ["dry weight", "dried"],
])("a unit made of “%s” is of %s weight", (made_of, weight) => {
  expect(one({ form: "other", made_of }).products[0]?.madeOf).toBe(weight);
});

describe("price endings", () => {
  test.each<[string, number[]]>([
    ["0.50; 0.90", [0.5, 0.9]],
    [".90, .50", [0.5, 0.9]],
    ["0,50 0,90", [0.5, 0.9]],
    [".49 / .99 | .79 & .89", [0.49, 0.79, 0.89, 0.99]],
    [".49  and  .99 or .79", [0.49, 0.79, 0.99]],
    ["xx.90", [0.9]],
    ["*.90", [0.9]],
    ["99", [0.99]],
    ["5", [0.05]],
    ["0", [0]],
    [".90 .90", [0.9]],
    [";", []],
  ])("“%s” are %j", (price_endings, endings) => {
    expect(one({ price_endings }).products[0]?.priceEndings).toEqual(endings);
  });

  test.each(["1.00", "100", "0x.90", "1e-1", "5e-1", "-0.5", "x90", "9.9.9", ".90; low"])("“%s” are none", (typed) => {
    const { products, issues } = one({ price_endings: typed });
    expect(products).toEqual([]);
    const raw = typed.split("; ").at(-1);
    expect(issues).toMatchObject([{ rule: "not-a-price-ending", severity: "error", raw }]);
  });

  test("of a currency without cents are none but 0", () => {
    expect(one({ price_endings: "0" }, { currencyDecimals: 0 }).products[0]?.priceEndings).toEqual([0]);
    expect(one({ price_endings: "99" }, { currencyDecimals: 0 }).products).toEqual([]);
  });
});

test.each<[string, string, [number, number][]]>([
  [
    "5; 10",
    "5 %; 8 %",
    [
      [5, 0.05],
      [10, 0.08],
    ],
  ],
  [
    "10 | 5",
    "8 % | 5 %",
    [
      [5, 0.05],
      [10, 0.08],
    ],
  ],
  [
    "5, 10;",
    "5 %, 8 %;",
    [
      [5, 0.05],
      [10, 0.08],
    ],
  ],
  [
    "5\n10",
    "5 %\n8 %",
    [
      [5, 0.05],
      [10, 0.08],
    ],
  ],
  ["", "5 %", [[1, 0.05]]],
  ["5", "0 %", [[5, 0]]],
])("from %j units %j off", (minimum_quantity, quantity_discount_pct, steps) => {
  expect(one({ minimum_quantity, quantity_discount_pct }).products[0]?.quantityDiscounts).toEqual(
    steps.map(([from, discount]) => ({ from, discount })),
  );
});
