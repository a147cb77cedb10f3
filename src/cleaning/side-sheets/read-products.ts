import type { Issue, LeftOutRow } from "../../records/issue.ts";
import { type FeeBase, type Product, type ProductForm, productColumns } from "../../records/product.ts";
import type { Settings } from "../../records/setting.ts";
import type { RawTable } from "../../records/sheet.ts";
import { unitNamed } from "../../records/words/units.ts";
import { yesOrNo } from "./cost-words.ts";
import { matchColumns, type SideColumn } from "./match-side-columns.ts";
import { readPriceEndings } from "./read-price-endings.ts";
import { readSideTable } from "./read-side-table.ts";
import { readWord } from "./read-word.ts";
import type { RowCells } from "./row-cells.ts";
import { wordChoice } from "./word-choice.ts";

type ProductColumn = (typeof productColumns)[number];

const names: Readonly<Record<ProductColumn, string>> = {
  product: "name|item|what|article|product name|title|description|sku",
  form: "type|kind|state|product form",
  channel: "where|sold at|sold on|shop|market|outlet|sales channel|platform|customer",
  grams: "g|weight|net weight|net wt|size|content|contents|grams per unit|weight per unit|pack weight|net",
  processing_loss_pct: "processing loss|loss|waste|trim loss|milling loss|loss pct|processing waste",
  packaging_cost: "packaging|package cost|pack cost|packing cost|packing|bag and label",
  minutes: "time|work|minutes of work|packing time|minutes per unit|work minutes|labour minutes|labor minutes|min",
  shipping_cost: "shipping|postage|postage cost|carriage|delivery cost|shipping paid|freight",
  shipping_charged:
    "shipping price|postage charged|delivery charged|shipping income|shipping paid by buyer|buyer pays shipping",
  fee_pct: "fee|fees|commission|channel fee|marketplace fee|percentage fee|fee percent|fee rate|selling fee",
  fee_fixed: "fixed fee|fee per order|fee per sale|transaction fee|flat fee|payment fee|listing fee",
  fee_base: "fee on|fee charged on|base of fee|fee is on|fee basis",
  tax_pct: "tax|vat|sales tax|gst|vat rate|tax rate|mwst|vat pct",
  tax_included: "tax incl|incl tax|vat included|price includes tax|tax inclusive|includes tax|includes vat|gross price",
  target_margin_pct: "target margin|margin|wanted margin|desired margin|margin target|goal margin",
  current_price: "price|selling price|sale price|retail price|price now|list price|price charged|asking price",
  expected_units_month:
    "expected units|units per month|units a month|monthly units|sales per month|expected sales|units month|forecast",
  max_units_month: "max units|maximum units|demand limit|most units|max per month|limit|units at most|max sales",
  sell_through_pct: "sell through|sold share|share sold|sellthrough|sell through rate",
  price_endings: "endings|price ending|rounding|ends in|price ends",
  minimum_quantity: "min quantity|minimum order|moq|minimum qty|min qty|quantity step|from quantity",
  quantity_discount_pct: "quantity discount|discount|bulk discount|volume discount|discount pct|wholesale discount",
  note: "notes|comment|comments|remark|remarks",
};
const columns: ReadonlyArray<SideColumn<ProductColumn>> = productColumns.map((key) => ({ key, names: names[key] }));

const productForm = wordChoice<ProductForm>({
  fresh: "raw|wet|whole fresh|fresh mushrooms",
  dried: "dry|dehydrated|dried slices|dried whole|slices",
  powder: "powdered|ground|milled|capsules|flour",
  other: "tincture|extract|kit|grow kit|tea|broth|pickled|frozen",
});
const feeBase = wordChoice<FeeBase>({
  price: "item price|item|product price|selling price|price only",
  "price and shipping":
    "price shipping|price plus shipping|item and shipping|price with shipping|order|order total before tax|subtotal",
  "price, shipping and tax":
    "price shipping tax|everything|total|order total|price and shipping and tax|all|gross total|total with tax|whole order",
});

function readGrams(row: RowCells<ProductColumn>, { massUnit }: Settings): number | undefined {
  if (!row.has("grams")) {
    return row.say("grams", {
      rule: "missing",
      reason: "the weight of one unit is missing",
      expected: "grams of product in one unit, such as 50",
      action: "Type the weight",
    });
  }
  const header = row.headerUnit("grams");
  const isCanonical = row.headerText("grams").trim().toLowerCase().startsWith("g");
  const stated =
    header !== "" && unitNamed(header, "mass") !== undefined
      ? unitNamed(header, "mass")!.name
      : isCanonical
        ? "g"
        : massUnit;
  const grams = row.quantity("grams", row.text("grams"), "mass", {
    bareUnit: stated,
    bareUnitReason: "the header or the settings say so",
  });
  return row.within("grams", grams, { least: 0, above: true }, "the weight of one unit");
}

function readMinutes(row: RowCells<ProductColumn>): number | undefined {
  const text = row.text("minutes");
  if (text === "") return 0;
  const isBare = !/\p{L}|:/u.test(text);
  const value = isBare ? row.quantity("minutes", text, "number") : row.quantity("minutes", text, "hours");
  const minutes = value === undefined || isBare ? value : Number((value * 60).toPrecision(12));
  return row.within("minutes", minutes, { least: 0 }, "the minutes of work");
}

function readProductRow(row: RowCells<ProductColumn>, settings: Settings): Product | undefined {
  const product = row.text("product");
  if (product === "") {
    row.say("product", {
      rule: "missing",
      reason: "the product has no name",
      expected: "a name, such as dried slices 50 g",
      action: "Type a name",
    });
  }
  const form = readWord(row, "form", productForm);
  const grams = readGrams(row, settings);
  const share = (key: ProductColumn, what: string, absent = 0) =>
    row.has(key) ? row.share(key, { least: 0, most: 1 }, what) : absent;
  const money = (key: ProductColumn, what: string) => (row.has(key) ? row.money(key, what) : 0);
  const units = (key: ProductColumn, what: string, above = false) =>
    row.has(key) ? row.number(key, { least: 0, above }, what) : undefined;

  const processingLoss = share("processing_loss_pct", "the processing loss");
  const packagingCost = money("packaging_cost", "the packaging cost");
  const minutes = readMinutes(row);
  const shippingCost = money("shipping_cost", "the shipping cost");
  const shippingCharged = money("shipping_charged", "the shipping charged");
  const feeFraction = share("fee_pct", "the fee");
  const feeFixed = money("fee_fixed", "the fixed fee");
  const base = row.has("fee_base") ? readWord(row, "fee_base", feeBase) : "price";
  const taxRate = share("tax_pct", "the tax rate");
  const included = row.has("tax_included") ? readWord(row, "tax_included", yesOrNo) : "no";
  if (!row.has("tax_included") && taxRate !== undefined && taxRate > 0) {
    row.say("tax_included", {
      rule: "missing",
      reason: "there is a tax rate, and nothing says whether the price includes it",
      expected: "yes or no",
      action: "Type yes if the price shown to the buyer includes the tax, else no",
    });
  }
  const targetMargin = row.has("target_margin_pct")
    ? row.share("target_margin_pct", { least: 0, most: 0.99 }, "the target margin")
    : undefined;
  const currentPrice = row.has("current_price") ? row.money("current_price", "the current price") : undefined;
  const expectedUnitsPerMonth = units("expected_units_month", "the units expected");
  const maxUnitsPerMonth = units("max_units_month", "the most units");
  const sellThrough = share("sell_through_pct", "the share sold", 1);
  const priceEndings = readPriceEndings(row, "price_endings", settings.currencyDecimals);
  const minimumQuantity = units("minimum_quantity", "the minimum quantity", true);
  const quantityDiscount = row.has("quantity_discount_pct")
    ? share("quantity_discount_pct", "the quantity discount")
    : undefined;
  if (processingLoss === 1) {
    row.say("processing_loss_pct", {
      rule: "out-of-range",
      reason: "all of the product would be lost",
      expected: "below 100 %",
      action: "Correct the number",
    });
  }
  if (
    row.failed ||
    form === undefined ||
    grams === undefined ||
    processingLoss === undefined ||
    packagingCost === undefined ||
    minutes === undefined ||
    shippingCost === undefined ||
    shippingCharged === undefined ||
    feeFraction === undefined ||
    feeFixed === undefined ||
    base === undefined ||
    taxRate === undefined ||
    sellThrough === undefined
  ) {
    return undefined;
  }
  const note = row.text("note");
  return {
    product,
    form,
    channel: row.text("channel"),
    grams,
    processingLoss,
    packagingCost,
    minutes,
    shippingCost,
    shippingCharged,
    feeFraction,
    feeFixed,
    feeBase: base,
    taxRate,
    taxIncluded: included === "yes",
    ...(targetMargin === undefined ? {} : { targetMargin }),
    ...(currentPrice === undefined ? {} : { currentPrice }),
    ...(expectedUnitsPerMonth === undefined ? {} : { expectedUnitsPerMonth }),
    ...(maxUnitsPerMonth === undefined ? {} : { maxUnitsPerMonth }),
    sellThrough,
    priceEndings,
    ...(minimumQuantity === undefined ? {} : { minimumQuantity }),
    ...(quantityDiscount === undefined ? {} : { quantityDiscount }),
    ...(note === "" ? {} : { note }),
    source: { file: row.file, row: row.row },
  };
}

/**
 * Reads product sheets. A product with anything wrong is left out, with an error that names the row, the column and what
 * to do. Absent costs, fees and taxes are 0, an absent share sold is all, an absent fee base is the price.
 * @returns products in the order of the sheets; grams and shares 0 to 1
 */
export function readProducts(
  tables: ReadonlyArray<RawTable>,
  settings: Settings,
): { products: Product[]; issues: Issue[]; leftOut: LeftOutRow[] } {
  const products: Product[] = [];
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  for (const table of tables) {
    const { found, issues: headerIssues } = matchColumns(table, columns);
    issues.push(...headerIssues);
    const read = readSideTable(table, found, settings, {
      needed: ["product", "form", "grams"],
      money: ["packaging_cost", "shipping_cost", "shipping_charged", "fee_fixed", "current_price"],
      text: ["product", "form", "channel", "fee_base", "tax_included", "note"],
      readRow: (row) => readProductRow(row, settings),
    });
    products.push(...read.records);
    issues.push(...read.issues);
    leftOut.push(...read.leftOut);
  }
  return { products, issues, leftOut };
}
