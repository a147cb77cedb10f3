import { expect, test } from "vitest";
import { bookPrices } from "../../analyses/costs/book-prices.ts";
import { dosePrices } from "../../analyses/costs/dose-prices.ts";
import { doseWork } from "../../analyses/costs/dose-work.ts";
import { trayMoney } from "../../analyses/costs/tray-money.ts";
import { assertClose } from "../agreement.ts";
import { line, product, tray } from "../costing/sample-records.ts";
import { moneyTrial } from "./money-books.ts";

// Sums by hand. Four good trays of 400 g fresh and 50 g dry, one lost; 8 punnets of 200 g are 1600 g of what is picked,
// 8 pouches of 50 g dried 3200 g: two thirds of it are dried.
const trays = [
  ...[1, 2, 3, 4].map(() =>
    tray({ inoculatedOn: "2026-01-01", harvestedOn: "2026-02-20", freshGrams: 400, dryGrams: 50 }),
  ),
  tray({ inoculatedOn: "2026-01-01", outcome: "contaminated" }),
];
const lines = [
  line({ item: "grain", packPrice: 2 }),
  line({ item: "filling", kind: "labour", packUnit: "hour", packPrice: 0, amount: 0.1 }),
  line({ item: "dehydrator", kind: "energy", per: "kg fresh", packPrice: 3, stage: "drying" }),
  line({
    item: "slicing",
    kind: "labour",
    packUnit: "hour",
    packPrice: 0,
    amount: 1,
    per: "kg fresh",
    stage: "drying",
  }),
];
const pouch = product({ currentPrice: 20, expectedUnitsPerMonth: 8 });
const punnet = product({ product: "punnet", form: "fresh", grams: 200, currentPrice: 6, minutes: 6 });

function sold(punnets: number | undefined, weight: "fresh" | "dried") {
  const expected = punnets === undefined ? {} : { expectedUnitsPerMonth: punnets };
  const trial = moneyTrial(trays, lines, [pouch, { ...punnet, ...expected }]);
  const prices = bookPrices(trial);
  if (prices.kind !== "prices") throw new Error(prices.reason);
  const dose = dosePrices(trial, prices, weight);
  const money = trayMoney(trial, prices, weight === "dried" ? "dry" : "fresh");
  if (dose.kind !== "dose-prices" || money.kind !== "tray-money") throw new Error("no prices");
  return { dose, profits: money.records.map(({ profit }) => profit), work: doseWork(trial, prices, weight)! };
}

test.each(["dried", "fresh"] as const)("sold fresh and dried, a gram brings what both do: weighed %s", (weight) => {
  const { dose, profits, work } = sold(8, weight);
  const size = weight === "dried" ? 1 : 8;
  assertClose(dose.sold.driedShare, 2 / 3, 1e-12);
  assertClose(dose.perGram * size, (2 / 3) * (0.4 - 0.024) + (1 / 3) * 0.24, 1e-12);
  assertClose(profits[0]!, 50 * ((2 / 3) * 0.4 + (1 / 3) * 0.24) - 2 - (2 / 3) * 1.2, 1e-12);
  assertClose(profits[4]!, -2, 1e-12);
  // an hour for each kg that is dried, and 6 minutes for each 200 g that are not
  assertClose(work.hoursPerGram * size, (2 / 3) * 0.008 + (1 / 3) * 0.004, 1e-12);
  expect(dose.sold.others).toEqual([]);
});

test("where it is not said how much is sold fresh, every gram is what it is weighed as, and the rest is named", () => {
  const { dose, profits } = sold(undefined, "dried");
  assertClose(dose.perGram, 0.4 - 0.024, 1e-12);
  assertClose(profits[0]!, 50 * 0.4 - 2 - 1.2, 1e-12);
  expect(dose.sold).toMatchObject({ driedShare: 1, others: ["punnet, web shop"] });
  assertClose(sold(undefined, "fresh").dose.perGram, 0.03, 1e-12);
});
