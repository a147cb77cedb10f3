import type { CostSheet } from "../../src/costing/trays/cost-sheet.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import type { Product } from "../../src/records/product.ts";
import type { Settings } from "../../src/records/setting.ts";
import { defaultSettings } from "../../src/records/setting-definitions.ts";
import type { Tray } from "../../src/records/tray.ts";

let made = 0;

/** A good tray with nothing recorded but what is given. */
export const tray = (facts: Partial<Tray> = {}): Tray => ({
  trayId: `T${++made}`,
  outcome: "good",
  traysInPool: 1,
  flushes: [],
  factors: {},
  bounds: {},
  sources: [],
  flags: [],
  ...facts,
});

/** A cost line of one piece per tray at a price, unless said otherwise. */
export const line = (facts: Partial<CostLine> & Pick<CostLine, "item">): CostLine => ({
  kind: "consumable",
  packPrice: 1,
  packSize: 1,
  packUnit: "each",
  amount: 1,
  per: "tray",
  ownerLabour: false,
  source: { file: "costs.csv", row: 2 },
  ...facts,
});

/** A product sold without fees, tax, shipping or loss, unless said otherwise. */
export const product = (facts: Partial<Product> = {}): Product => ({
  product: "dried slices",
  form: "dried",
  channel: "web shop",
  grams: 50,
  processingLoss: 0,
  packagingCost: 0,
  minutes: 0,
  shippingCost: 0,
  shippingCharged: 0,
  feeFraction: 0,
  feeFixed: 0,
  feeBase: "price",
  taxRate: 0,
  taxIncluded: false,
  sellThrough: 1,
  priceEndings: [],
  source: { file: "products.csv", row: 2 },
  ...facts,
});

/** All that was spent by a cost sheet, in whole minor units: what trays carry and what none does. */
export const spentIn = ({ totals, unabsorbed }: CostSheet): number =>
  unabsorbed.reduce((sum, { amount }) => sum + amount, totals.total);

export const settings = (facts: Partial<Settings> = {}): Settings => ({ ...defaultSettings, ...facts });
