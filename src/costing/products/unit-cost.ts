import { requireNotNegative, requirePositive, requireShareBelowOne } from "../../measures/require-amounts.ts";
import type { CostLine } from "../../records/cost-line.ts";
import type { Product } from "../../records/product.ts";
import type { Settings } from "../../records/setting.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";
import { costPerUse } from "../lines/cost-per-use.ts";
import { growsWithOutput } from "../lines/line-stage.ts";
import { priceVersions } from "../lines/price-versions.ts";
import type { GramRates } from "../trays/book-rates.ts";
import type { CostScope } from "../trays/cost-account.ts";

/** What one sold unit of a product cost, fees left out. */
export interface UnitCost {
  kind: "unit-cost";
  /** which gram it is made of: powder and other forms are made of dried */
  madeOf: "fresh" | "dried";
  /** grams of that for one unit SOLD: with the processing loss, and with what is made and never sold */
  gramsNeeded: number;
  /** parts of the full cost, in the order of a cost sheet */
  parts: { item: string; amount: number }[];
  /** sum of the parts */
  full: number;
  withoutOwnerLabour: number;
  /** what one more unit costs: the price floor rests on it */
  variable: number;
}

/** Whether a cost line per unit sold is for a product. It can be limited by product, channel or form. */
function isForProduct({ onlyWhereColumn, onlyWhereValue = "" }: CostLine, product: Product): boolean {
  if (onlyWhereColumn === undefined) return true;
  const column = onlyWhereColumn.trim().toLowerCase();
  if (column !== "product" && column !== "channel" && column !== "form") return false;
  return product[column].trim().toLowerCase() === onlyWhereValue.trim().toLowerCase();
}

/** Fails on a product that breaks the record's own promises. @throws RangeError naming product, row and number */
export function requireProduct(product: Product): void {
  const where = `product ${JSON.stringify(product.product)} (${product.source.file} row ${product.source.row})`;
  requirePositive(where, "grams", product.grams);
  requireShareBelowOne(where, "processingLoss", product.processingLoss);
  for (const name of ["packagingCost", "minutes", "shippingCost", "shippingCharged", "feeFixed", "taxRate"] as const) {
    requireNotNegative(where, name, product[name]);
  }
  if (!(product.sellThrough >= 0 && product.sellThrough <= 1)) {
    throw new RangeError(`${where}: sellThrough must be a share from 0 to 1; received ${product.sellThrough}`);
  }
}

/**
 * What one sold unit cost: the mushrooms in it (those lost in processing and those made but never sold with them),
 * packaging, minutes of work at the owner's rate, sending, and cost lines per unit sold. Packaging, work and sending
 * count once per unit sold.
 * @param rates cost of a gram by scope; @param productLines cost lines per unit sold
 * @returns cannot-tell when the weight it is made of has no cost, or nothing made is sold
 * @throws RangeError if a number lies outside its range
 */
export function unitCost(
  product: Product,
  rates: GramRates,
  productLines: ReadonlyArray<CostLine>,
  settings: Readonly<Settings>,
): UnitCost | CannotTell {
  requireProduct(product);
  const madeOf = product.form === "fresh" ? "fresh" : "dried";
  const perGram = (scope: CostScope): number | undefined => rates[scope][madeOf];
  const [full, withoutOwner, variable] = [perGram("full"), perGram("without owner labour"), perGram("variable")];
  if (full === undefined || withoutOwner === undefined || variable === undefined) {
    return cannotTell(`no ${madeOf === "fresh" ? "fresh" : "dry"} weights are recorded, so a gram of it has no cost`);
  }
  if (product.sellThrough === 0) return cannotTell("nothing of what is made is sold");
  const gramsNeeded = product.grams / (1 - product.processingLoss) / product.sellThrough;
  const work = (product.minutes / 60) * settings.ownerLabourRate;
  const parts = [
    { item: `mushrooms, ${madeOf}`, amount: gramsNeeded * full },
    { item: "packaging", amount: product.packagingCost },
    { item: "packing and sending, work", amount: work },
    { item: "sending", amount: product.shippingCost },
  ];
  let [ownerLines, variableLines] = [0, 0];
  for (const { line, until } of priceVersions(productLines)) {
    if (until !== Number.POSITIVE_INFINITY || !isForProduct(line, product)) continue;
    const perUse = costPerUse(line, settings);
    if (perUse.kind === "cannot-tell") return cannotTell(`${line.item}: ${perUse.reason}`);
    parts.push({ item: line.item, amount: perUse.money });
    if (line.ownerLabour) ownerLines += perUse.money;
    if (growsWithOutput(line)) variableLines += perUse.money;
  }
  const total = parts.reduce((sum, { amount }) => sum + amount, 0);
  return {
    kind: "unit-cost",
    madeOf,
    gramsNeeded,
    parts,
    full: total,
    withoutOwnerLabour: total - gramsNeeded * (full - withoutOwner) - work - ownerLines,
    variable: gramsNeeded * variable + product.packagingCost + product.shippingCost + variableLines,
  };
}
