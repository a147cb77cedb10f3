import { test } from "vitest";
import { whichDoseEarnsMost } from "../../analyses/dose/which-dose-earns-most.ts";
import type { CostLine } from "../../src/records/cost-line.ts";
import type { Product } from "../../src/records/product.ts";
import { assertClose } from "../agreement.ts";
import { line, product, tray } from "../costing/sample-records.ts";
import { answerOf, cellOf, moneyTrial } from "./money-books.ts";

/** y = 40 + 6x - 0.2x^2 g dry, trays 0.3 g to either side of it, so that the fitted quadratic is the curve itself */
const trays = [5, 8, 11, 14, 17, 20].flatMap((inoculumMillilitres) =>
  [-0.3, 0.3, -0.3, 0.3].map((side) =>
    tray({
      inoculumMillilitres,
      dryGrams: 40 + 6 * inoculumMillilitres - 0.2 * inoculumMillilitres ** 2 + side,
      inoculatedOn: "2026-03-01",
      harvestedOn: "2026-04-20",
    }),
  ),
);
const culture = line({ item: "culture", kind: "culture", per: "inoculum mL", packUnit: "mL", packPrice: 0.4 });

const best = (costs: CostLine[], sold: Product) => answerOf(whichDoseEarnsMost.run(moneyTrial(trays, costs, [sold])));

test("0.50 a gram, 0.40 a mL: best at 13 mL leaving 36.90; arithmetic, r = 0.8", () => {
  const outcome = best([culture], product({ grams: 100, currentPrice: 50 }));
  assertClose(outcome.estimates[0]!.value, 13, 0.01);
  const perTray = outcome.tables[0]!.rows.find((row) => row[1] === "best per tray")!;
  assertClose(Number(perTray[7]), 36.9, 0.005);
  assertClose(Number(cellOf(outcome, "What each dose earns", 11, "culture")), 4.4, 1e-9);
});

test("a fee of 12.9 % moves it to 12.704; arithmetic", () => {
  const outcome = best([culture], product({ grams: 100, currentPrice: 50, feeFraction: 0.129 }));
  assertClose(outcome.estimates[0]!.value, 12.704, 0.01);
});

test("drying that costs as much a gram as that fee moves it as far: it is taken off the gram once", () => {
  const drying = line({ item: "drying", per: "kg dried", stage: "drying", packPrice: 64.5 });
  const sold = product({ grams: 100, currentPrice: 50 });
  const outcome = best([culture, drying], sold);
  const fee = best([culture], { ...sold, feeFraction: 0.129 });
  assertClose(outcome.estimates[0]!.value, 12.704, 0.01);
  const left = ({ tables }: typeof outcome) => Number(tables[0]!.rows.find((row) => row[1] === "best per tray")![7]);
  assertClose(left(outcome), left(fee), 1e-6);
});
