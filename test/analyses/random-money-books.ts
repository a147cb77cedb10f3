import type { Trial } from "../../src/analysis.ts";
import type { CostBase, CostLine } from "../../src/records/cost-line.ts";
import { Memo } from "../../src/records/memo.ts";
import type { Product } from "../../src/records/product.ts";
import type { Tray } from "../../src/records/tray.ts";
import type { UnreadMoney } from "../../src/records/unread-money.ts";
import { seededRandom } from "../../src/statistics/random/seeded-random.ts";
import { line, product, settings, tray } from "../costing/sample-records.ts";

const bases: CostBase[] = ["tray", "good tray", "cook", "load", "jar", "kg fresh", "month", "shelf day", "unit sold"];

/** A book with money in it, of a size, losses, gaps and prices that the seed decides; the same for the same seed. */
export function randomMoneyBook(seed: number): Trial {
  const random = seededRandom(seed);
  const upTo = (most: number): number => Math.floor(random.uniform() * most);
  const chance = (share: number): boolean => random.uniform() < share;
  const cooks = 1 + upTo(6);
  const trays: Tray[] = [];
  const [isDated, weighsFresh, weighsDry, lossRate] = [chance(0.85), chance(0.8), chance(0.9), random.uniform() * 0.4];
  for (let cook = 0; cook < cooks; cook++) {
    const luck = 1 + 0.15 * random.normal();
    for (let place = 0; place < 3 + upTo(6); place++) {
      const isLost = chance(lossRate);
      const isGrowing = chance(0.05);
      const dry = Math.max(2, 25 * luck + 5 * random.normal());
      const month = 1 + ((cook * 2) % 11);
      const started = isDated && chance(0.95) ? `2026-${String(month).padStart(2, "0")}-10` : undefined;
      const ended = `2026-${String(month + 1).padStart(2, "0")}-${10 + upTo(15)}`;
      trays.push(
        tray({
          batch: `C${cook}`,
          load: `C${cook}`,
          inoculumMillilitres: [3, 6, 9][place % 3]!,
          outcome: isGrowing ? "growing" : isLost ? "contaminated" : "good",
          ...(started === undefined ? {} : { inoculatedOn: started }),
          ...(started === undefined || isGrowing || (isLost && chance(0.5)) ? {} : { harvestedOn: ended }),
          ...(isGrowing || isLost ? {} : weighsDry && chance(0.95) ? { dryGrams: dry } : {}),
          ...(isGrowing || isLost ? {} : weighsFresh ? { freshGrams: dry * (8 + upTo(3)) } : {}),
        }),
      );
    }
  }
  const costLines = Array.from({ length: 1 + upTo(7) }, (_, index): CostLine => {
    const per = bases[upTo(bases.length)]!;
    const isOwner = chance(0.15);
    return line({
      item: `line ${index}`,
      per,
      packPrice: Math.round(random.uniform() * (per === "month" ? 20_000 : 300)) / 100,
      kind: isOwner ? "labour" : per === "month" || per === "shelf day" ? "overhead" : "consumable",
      ...(isOwner ? { ownerLabour: true, packUnit: "hour", amount: 0.1 } : {}),
      ...(per === "month" && chance(0.5) ? { normalTraysPerMonth: 5 + upTo(20) } : {}),
    });
  });
  const products = Array.from(
    { length: upTo(5) },
    (_, index): Product =>
      product({
        product: `product ${index}`,
        form: chance(0.3) ? "fresh" : "dried",
        grams: 20 + upTo(200),
        minutes: upTo(6),
        packagingCost: upTo(100) / 100,
        feeFraction: upTo(4) / 10,
        sellThrough: 0.7 + upTo(4) / 10 > 1 ? 1 : 0.7,
        ...(chance(0.8) ? { currentPrice: 1 + upTo(6000) / 100 } : {}),
        ...(chance(0.7) ? { targetMargin: upTo(8) / 10 } : {}),
        ...(chance(0.6) ? { maxUnitsPerMonth: 1 + upTo(30) } : {}),
        ...(chance(0.5) ? { expectedUnitsPerMonth: 1 + upTo(20) } : {}),
        ...(chance(0.2) ? { quantityDiscounts: [{ from: 5, discount: 0.1 }] } : {}),
      }),
  );
  const unread: UnreadMoney[] = chance(0.2)
    ? [
        {
          sheet: "costs",
          name: "rent",
          reason: "the price cannot be read",
          source: { file: "costs.csv", row: 9 },
          inUse: false,
          ...(chance(0.5) ? { guess: line({ item: "rent", packPrice: 1 }), guessedFrom: "its other line" } : {}),
        },
      ]
    : [];
  return {
    trays,
    costLines,
    products,
    unread,
    settings: settings({
      ownerLabourRate: upTo(20),
      shelfPlaces: 5 + upTo(40),
      labourHoursPerMonth: 5 + upTo(60),
      recoveredPerLostTray: chance(0.3) ? 0.4 : 0,
      ...(chance(0.5) ? { normalLossRate: 0.06 } : {}),
    }),
    temperatureLog: [],
    issues: [],
    memo: new Memo(),
  };
}
