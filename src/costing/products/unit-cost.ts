import { requireNotNegative, requirePositive, requireShareBelowOne } from "../../measures/require-amounts.ts";
import type { CostLine } from "../../records/cost-line.ts";
import { nameKey } from "../../records/name-key.ts";
import type { Product, ProductPart } from "../../records/product.ts";
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
  /** which gram it is made of; "parts" for cost lines and other products */
  madeOf: "fresh" | "dried" | "parts";
  /** grams of that for one unit SOLD: with the processing loss, and with what is made and never sold; 0 for parts */
  gramsNeeded: number;
  /** grams of either weight in it, those of the products in a bundle too */
  grams: { fresh: number; dried: number };
  /** money of the mushrooms in it, all of it and what grows with making them */
  mushrooms: number;
  mushroomsVariable: number;
  /** parts of the full cost, in the order of a cost sheet */
  parts: { item: string; amount: number }[];
  /** sum of the parts */
  full: number;
  withoutOwnerLabour: number;
  /** what one more unit costs: the price floor rests on it */
  variable: number;
}

/** What a product may be made of beside grams, and at what a gram costs. */
export interface UnitSources {
  rates: GramRates;
  /** every cost line of the book: those per unit sold, and those that products name as parts */
  costLines: ReadonlyArray<CostLine>;
  products: ReadonlyArray<Product>;
  settings: Readonly<Settings>;
  /** cost of a gram of a product's grade over the mean gram; absent: 1 for all */
  gradeFactors?: ReadonlyMap<Product, number>;
}

/** Whether a cost line per unit sold is for a product. It can be limited by product, channel or form. */
function isForProduct({ onlyWhereColumn, onlyWhereValue = "" }: CostLine, product: Product): boolean {
  if (onlyWhereColumn === undefined) return true;
  const column = nameKey(onlyWhereColumn);
  if (column !== "product" && column !== "channel" && column !== "form") return false;
  return nameKey(product[column]) === nameKey(onlyWhereValue);
}

/** Fails on a product that breaks the record's own promises. @throws RangeError naming product, row and number */
function requireProduct(product: Product): void {
  const where = `product ${JSON.stringify(product.product)} (${product.source.file} row ${product.source.row})`;
  if (typeof product.madeOf === "object") requireNotNegative(where, "grams", product.grams);
  else requirePositive(where, "grams", product.grams);
  requireShareBelowOne(where, "processingLoss", product.processingLoss);
  for (const name of ["packagingCost", "minutes", "shippingCost", "shippingCharged", "feeFixed", "taxRate"] as const) {
    requireNotNegative(where, name, product[name]);
  }
  if (!(product.sellThrough >= 0 && product.sellThrough <= 1)) {
    throw new RangeError(`${where}: sellThrough must be a share from 0 to 1; received ${product.sellThrough}`);
  }
}

/** A sum of money by scope, with its parts. */
interface Counted {
  parts: { item: string; amount: number }[];
  full: number;
  withoutOwnerLabour: number;
  variable: number;
  mushrooms: number;
  mushroomsVariable: number;
  grams: { fresh: number; dried: number };
}

const lineMoney = (line: CostLine, times: number, money: number): Counted => ({
  parts: [{ item: line.item, amount: money * times }],
  full: money * times,
  withoutOwnerLabour: line.ownerLabour ? 0 : money * times,
  variable: growsWithOutput(line) ? money * times : 0,
  mushrooms: 0,
  mushroomsVariable: 0,
  grams: { fresh: 0, dried: 0 },
});

/** The grams in a product, at the cost of a gram. */
function gramMoney(
  product: Product,
  madeOf: "fresh" | "dried",
  rates: GramRates,
  factor: number,
): Counted | CannotTell {
  const perGram = (scope: CostScope): number | undefined => rates[scope][madeOf];
  const [full, withoutOwner, variable] = [perGram("full"), perGram("without owner labour"), perGram("variable")];
  if (full === undefined || withoutOwner === undefined || variable === undefined) {
    return cannotTell(`no ${madeOf === "fresh" ? "fresh" : "dry"} weights are recorded, so a gram of it has no cost`);
  }
  const grams = product.grams / (1 - product.processingLoss) / product.sellThrough;
  const grade = product.grade === undefined ? "" : `, ${product.grade}`;
  return {
    parts: [{ item: `mushrooms, ${madeOf}${grade}`, amount: grams * factor * full }],
    full: grams * factor * full,
    withoutOwnerLabour: grams * factor * withoutOwner,
    variable: grams * factor * variable,
    mushrooms: grams * factor * full,
    mushroomsVariable: grams * factor * variable,
    grams: { fresh: madeOf === "fresh" ? grams : 0, dried: madeOf === "dried" ? grams : 0 },
  };
}

/** One part of a product: a cost line of that name, or another product with its packaging and packing. */
function partMoney(
  { name, count }: ProductPart,
  product: Product,
  sources: UnitSources,
  inside: ReadonlyArray<Product>,
): Counted | CannotTell {
  const times = count / product.sellThrough;
  const version = priceVersions(sources.costLines).findLast(
    ({ line, until }) => until === Number.POSITIVE_INFINITY && nameKey(line.item) === nameKey(name),
  );
  if (version !== undefined) {
    if (version.line.per === "month") return cannotTell(`${name} is a cost per month, which no unit takes a part of`);
    const money = costPerUse(version.line, sources.settings);
    return money.kind === "cannot-tell"
      ? cannotTell(`${name}: ${money.reason}`)
      : lineMoney(version.line, times, money.money);
  }
  const member = sources.products.find(
    (one) => one !== product && nameKey(one.product) === nameKey(name) && !inside.includes(one),
  );
  if (member === undefined) {
    return cannotTell(
      inside.some((one) => nameKey(one.product) === nameKey(name))
        ? `it is made of itself by way of ${name}`
        : `${name} is neither a cost line nor a product of the book`,
    );
  }
  const unit = unitCost({ ...member, shippingCost: 0 }, sources, sources.gradeFactors?.get(member), [
    ...inside,
    product,
  ]);
  if (unit.kind === "cannot-tell") return cannotTell(`${name}: ${unit.reason}`);
  return {
    parts: [{ item: name, amount: unit.full * times }],
    full: unit.full * times,
    withoutOwnerLabour: unit.withoutOwnerLabour * times,
    variable: unit.variable * times,
    mushrooms: unit.mushrooms * times,
    mushroomsVariable: unit.mushroomsVariable * times,
    grams: { fresh: unit.grams.fresh * times, dried: unit.grams.dried * times },
  };
}

/** Cost lines per unit sold that are for a product and not among its named parts. */
function soldLines(product: Product, { costLines, settings }: UnitSources): Counted[] | CannotTell {
  const named = typeof product.madeOf === "object" ? product.madeOf.map(({ name }) => nameKey(name)) : [];
  const counted: Counted[] = [];
  for (const { line, until } of priceVersions(costLines.filter(({ per }) => per === "unit sold"))) {
    if (until !== Number.POSITIVE_INFINITY || !isForProduct(line, product) || named.includes(nameKey(line.item)))
      continue;
    const money = costPerUse(line, settings);
    if (money.kind === "cannot-tell") return cannotTell(`${line.item}: ${money.reason}`);
    counted.push(lineMoney(line, 1, money.money));
  }
  return counted;
}

/** The weight a product is made of; "parts" where it is made of cost lines and other products; undefined where unknown. */
export function madeOfWhat({ madeOf, form }: Product): UnitCost["madeOf"] | undefined {
  if (madeOf !== undefined) return typeof madeOf === "string" ? madeOf : "parts";
  return form === "fresh" ? "fresh" : form === "other" ? undefined : "dried";
}

/**
 * What one sold unit cost: the mushrooms in it (those lost in processing and those made but never sold with them), or
 * the cost lines and products it is made of, packaging, minutes of work at the owner's rate, sending, and cost lines per
 * unit sold. Packaging, work and sending count once per unit sold. A product in a bundle counts without its sending.
 * @param gradeFactor cost of a gram of the product's grade over the mean gram
 * @param inside bundles this unit is looked at within; nothing unless called from here
 * @returns cannot-tell when the weight it is made of has no cost, a part is not known, or nothing made is sold
 * @throws RangeError if a number lies outside its range
 */
export function unitCost(
  product: Product,
  sources: UnitSources,
  gradeFactor = 1,
  inside: ReadonlyArray<Product> = [],
): UnitCost | CannotTell {
  requireProduct(product);
  if (product.sellThrough === 0) return cannotTell("nothing of what is made is sold");
  const madeOf = madeOfWhat(product);
  if (madeOf === undefined) return cannotTell("what it is made of is not stated (made_of in products.csv)");
  const core: (Counted | CannotTell)[] =
    typeof product.madeOf === "object"
      ? product.madeOf.map((part) => partMoney(part, product, sources, inside))
      : [gramMoney(product, madeOf as "fresh" | "dried", sources.rates, gradeFactor)];
  const lines = soldLines(product, sources);
  if ("kind" in lines) return lines;
  const work = (product.minutes / 60) * sources.settings.ownerLabourRate;
  const counted: Counted[] = [];
  for (const part of core) {
    if ("kind" in part) return part;
    counted.push(part);
  }
  const all = [...counted, ...lines];
  const sum = (of: (part: Counted) => number): number => all.reduce((total, part) => total + of(part), 0);
  const selling = product.packagingCost + product.shippingCost;
  const grams = { fresh: sum((part) => part.grams.fresh), dried: sum((part) => part.grams.dried) };
  return {
    kind: "unit-cost",
    madeOf,
    gramsNeeded: madeOf === "parts" ? 0 : grams[madeOf],
    grams,
    mushrooms: sum((part) => part.mushrooms),
    mushroomsVariable: sum((part) => part.mushroomsVariable),
    parts: [
      ...counted.flatMap(({ parts }) => parts),
      { item: "packaging", amount: product.packagingCost },
      { item: "packing and sending, work", amount: work },
      { item: "sending", amount: product.shippingCost },
      ...lines.flatMap(({ parts }) => parts),
    ],
    full: sum((part) => part.full) + selling + work,
    withoutOwnerLabour: sum((part) => part.withoutOwnerLabour) + selling,
    variable: sum((part) => part.variable) + selling,
  };
}
