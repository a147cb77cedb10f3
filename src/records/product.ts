import type { RowSource } from "./tray.ts";

/** The form a product is sold in. */
export type ProductForm = "fresh" | "dried" | "powder" | "other";

/** What a channel's percentage fee is charged on. */
export type FeeBase = "price" | "price and shipping" | "price, shipping and tax";

/** A cost line, or another product, in a unit that is not plain mushroom weight, and how many of it. */
export interface ProductPart {
  name: string;
  count: number;
}

/** Grams of the fresh or the dried weight, or parts: cost lines and other products. */
export type MadeOf = "fresh" | "dried" | ReadonlyArray<ProductPart>;

/** A share off the price from an order of so many units on. */
export interface QuantityDiscount {
  from: number;
  discount: number;
}

/** One row of products.csv: one thing sold on one channel. Money in the book's currency; shares 0 to 1. */
export interface Product {
  product: string;
  form: ProductForm;
  channel: string;
  /** grams of product in one unit; 0 for a unit that is not sold by weight */
  grams: number;
  /** what a unit is made of; absent: fresh for the form fresh, dried for dried and powder */
  madeOf?: MadeOf;
  /** which grade of the good grams it is made of, and what share of them is of that grade, 0 to 1 */
  grade?: string;
  gradeShare?: number;
  /** share of the grams lost while processing (cutting, milling, packing) */
  processingLoss: number;
  packagingCost: number;
  /** minutes of work to pack and send one unit */
  minutes: number;
  /** what sending one unit costs the seller */
  shippingCost: number;
  /** what the buyer pays for sending, apart from the price */
  shippingCharged: number;
  feeFraction: number;
  feeFixed: number;
  feeBase: FeeBase;
  /** sales tax rate */
  taxRate: number;
  /** whether the price shown to the buyer includes the tax */
  taxIncluded: boolean;
  /** target margin on price */
  targetMargin?: number;
  currentPrice?: number;
  expectedUnitsPerMonth?: number;
  /** the most that can be sold in a month */
  maxUnitsPerMonth?: number;
  /** share of what is made that is sold before it spoils */
  sellThrough: number;
  /** the endings a price may have, for instance [0.5, 0.9]; empty for any minor unit */
  priceEndings: number[];
  /** lower prices for larger orders, the smallest order first */
  quantityDiscounts?: QuantityDiscount[];
  note?: string;
  source: RowSource;
}

/** The headers of products.csv in the order a blank sheet shows them. */
export const productColumns = [
  "product",
  "form",
  "channel",
  "grams",
  "made_of",
  "grade",
  "grade_share_pct",
  "processing_loss_pct",
  "packaging_cost",
  "minutes",
  "shipping_cost",
  "shipping_charged",
  "fee_pct",
  "fee_fixed",
  "fee_base",
  "tax_pct",
  "tax_included",
  "target_margin_pct",
  "current_price",
  "expected_units_month",
  "max_units_month",
  "sell_through_pct",
  "price_endings",
  "minimum_quantity",
  "quantity_discount_pct",
  "note",
] as const;
