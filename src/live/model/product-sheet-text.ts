import type { Book } from "../../records/book.ts";
import { type Product, productColumns } from "../../records/product.ts";
import { percentText } from "./cost-sheet-text.ts";
import type { LiveColumn, LiveSheet } from "./live-sheet.ts";

type ProductKey = (typeof productColumns)[number];

const labels: Readonly<Record<ProductKey, string>> = {
  product: "Product",
  form: "Form",
  channel: "Channel",
  grams: "Holds",
  made_of: "Made of",
  grade: "Grade",
  grade_share_pct: "Grade's share",
  processing_loss_pct: "Lost in processing",
  packaging_cost: "Packaging",
  minutes: "Work",
  shipping_cost: "Sending costs",
  shipping_charged: "Sending charged",
  fee_pct: "Fee",
  fee_fixed: "Fixed fee",
  fee_base: "Fee is on",
  tax_pct: "Tax",
  tax_included: "Tax in price",
  target_margin_pct: "Margin wanted",
  current_price: "Price now",
  expected_units_month: "Units a month",
  max_units_month: "At most a month",
  sell_through_pct: "Share sold",
  price_endings: "Prices end in",
  minimum_quantity: "Larger order from",
  quantity_discount_pct: "Its discount",
  note: "Note",
};

const texts: ReadonlySet<string> = new Set([
  ...["product", "form", "channel", "made_of", "grade", "fee_base", "tax_included", "price_endings", "note"],
  // several steps in one cell
  ...["minimum_quantity", "quantity_discount_pct"],
]);

const choices: Partial<Record<ProductKey, ReadonlyArray<string>>> = {
  form: ["fresh", "dried", "powder", "other"],
  fee_base: ["price", "price and shipping", "price, shipping and tax"],
  tax_included: ["yes", "no"],
};

const units: Partial<Record<ProductKey, string>> = { grams: "g", minutes: "min" };

const number = (value: number | undefined): string => (value === undefined ? "" : String(value));

/** What a unit is made of as it is typed; nothing where the form says it. */
const madeOfText = (madeOf: Product["madeOf"]): string =>
  typeof madeOf === "object"
    ? madeOf.map(({ name, count }) => (count === 1 ? name : `${count} x ${name}`)).join("; ")
    : (madeOf ?? "");

/** A product as it stands in products.csv. */
export function productCells(product: Product): string[] {
  const cells: Record<ProductKey, string> = {
    product: product.product,
    form: product.form,
    channel: product.channel,
    grams: String(product.grams),
    made_of: madeOfText(product.madeOf),
    grade: product.grade ?? "",
    grade_share_pct: percentText(product.gradeShare),
    processing_loss_pct: percentText(product.processingLoss),
    packaging_cost: String(product.packagingCost),
    minutes: String(product.minutes),
    shipping_cost: String(product.shippingCost),
    shipping_charged: String(product.shippingCharged),
    fee_pct: percentText(product.feeFraction),
    fee_fixed: String(product.feeFixed),
    fee_base: product.feeBase,
    tax_pct: percentText(product.taxRate),
    tax_included: product.taxIncluded ? "yes" : "no",
    target_margin_pct: percentText(product.targetMargin),
    current_price: number(product.currentPrice),
    expected_units_month: number(product.expectedUnitsPerMonth),
    max_units_month: number(product.maxUnitsPerMonth),
    sell_through_pct: percentText(product.sellThrough),
    // a whole number would be read as hundredths
    price_endings: product.priceEndings.map((ending) => (ending === 0 ? "0.00" : String(ending))).join("; "),
    minimum_quantity: (product.quantityDiscounts ?? []).map(({ from }) => String(from)).join("; "),
    quantity_discount_pct: (product.quantityDiscounts ?? []).map(({ discount }) => percentText(discount)).join("; "),
    note: product.note ?? "",
  };
  return productColumns.map((key) => cells[key]);
}

const columns: LiveColumn[] = productColumns.map((key) => ({
  key,
  label: labels[key],
  unit: units[key] ?? "",
  isNumber: !texts.has(key),
  ...(choices[key] === undefined ? {} : { choices: choices[key] }),
}));

/** The products of a book as the sheet products.csv; without a line where the book has none. */
export const productSheet = ({ products = [] }: Book): LiveSheet => ({
  name: "products",
  title: "Products",
  columns,
  rows: products.map((product) => productCells(product)),
});
