import type { MarginBasis, MarginUncertainty } from "../src/costing/products/margin-simulation.ts";
import type { MakeInput } from "../src/costing/products/product-mix.ts";
import { trayCosts } from "../src/costing/trays/tray-costs.ts";
import { doseDecision } from "../src/decisions/dose/dose-decision.ts";
import { line, product, settings, tray } from "./costing/sample-records.ts";
import { sourceOf } from "./csv/source-of.ts";

const day = { inoculatedOn: "2026-01-01", inoculumMillilitres: 8, load: "1", supplementGrade: "fine" };
const trays = [
  tray({ ...day, trayId: "C1-001", batch: "C1", harvestedOn: "2026-02-20", freshGrams: 400, dryGrams: 40 }),
  tray({ ...day, trayId: "C1-002", batch: "C1", harvestedOn: "2026-02-26", freshGrams: 350, dryGrams: 38 }),
  tray({ ...day, trayId: "C2-001", batch: "C2", outcome: "contaminated", harvestedOn: "2026-01-12" }),
];

const bran = line({ item: "bran", packPrice: 31, packSize: 25000, packUnit: "g", amount: 380 });

const terms = {
  feeFraction: 0.129,
  feeFixed: 0.3,
  feeBase: "price" as const,
  taxRate: 0,
  taxIncluded: false,
  shippingCharged: 0,
};

const basis: MarginBasis = { terms, otherCostPerUnit: 2, targetMargin: 0.3 };

const uncertainty: MarginUncertainty = {
  mushrooms: (random) => 10 * (0.8 + 0.4 * random.uniform()),
  price: { low: 18, central: 20, high: 23 },
};

const input: MakeInput = {
  products: [
    { name: "fresh", grams: { fresh: 1000, dried: 0 }, earns: 30, hours: 0, maxUnits: 1 },
    { name: "dried", grams: { fresh: 0, dried: 100 }, earns: 26, hours: 0 },
  ],
  freshGrams: { low: 1000, mid: 2800, high: 4600 },
  driedGrams: 0,
  dryingRatio: 9,
  dryingCostPerKgFresh: 1.2,
  labourHours: 100,
};

const economics = {
  gramsPerGoodTray: (dose: number) => 40 + 6 * dose - 0.2 * dose ** 2,
  loss: () => 0,
  daysPerGoodTray: () => 50,
  netPricePerGram: 0.5,
  cultureCostPerMillilitre: 0.4,
  costPerShelfDay: 0,
  otherCostPerStartedTray: 0,
};

const doseTrays = ["A", "B"].flatMap((cook) =>
  [3, 6, 9].flatMap((dose) => [0, 1, 2, 3].map((i) => ({ dose, cook, lost: false, grams: 20 + dose + i }))),
);

const comparedTrays = doseTrays.map(({ dose, cook, grams }, row) => ({ level: dose, cook, row, value: grams }));

function costs() {
  const found = trayCosts({
    trays,
    costLines: [line({ item: "grain", packPrice: 2 }), line({ item: "culture", per: "jar", packPrice: 30 })],
    settings: settings(),
  });
  if (found.kind === "cannot-tell") throw new Error(found.reason);
  return found;
}

/** Names that examples in comments use without saying where they come from: each makes its value when it is asked for. */
export const exampleScope: Readonly<Record<string, () => unknown>> = {
  /** three trays, one of them lost, each with grain for 2.00 and 8 mL of culture at 30.00 a jar of 500 mL */
  costs,
  tray: () => trays[0],
  bran: () => bran,
  branFromMarch: () => ({ ...bran, packPrice: 34, fromDate: "2026-03-01" }),
  settings: () => settings(),
  product: () => product(),
  terms: () => terms,
  basis: () => basis,
  uncertainty: () => uncertainty,
  input: () => input,
  economics: () => economics,
  doseTrays: () => doseTrays,
  comparedTrays: () => comparedTrays,
  decision: () => doseDecision({ trays: doseTrays, prices: { perGram: 0.3 } }),
  source: () => sourceOf("tray_id,fresh_g\nC1-001,400\n", "harvest.csv"),
  sources: () => [sourceOf("tray_id,fresh_g\nC1-001,400\n", "harvest.csv")],
  pounds: () => ({ how: "parts", left: 1, right: 2, name: "fresh", units: ["lb", "oz"] }),
};
