import { requireFinite, requireNotNegative, requirePositive, requireShare } from "../measures/require-amounts.ts";
import { type CannotTell, cannotTell } from "./cannot-tell.ts";

/** What a dose does and what everything costs. Functions take the dose in mL per tray. */
export interface DoseEconomics {
  /** product grams expected of a good tray; a curve that dips below 0 counts as 0 there */
  gramsPerGoodTray(dose: number): number;
  /** share of started trays lost */
  loss(dose: number): number;
  /** days a good tray holds its place */
  daysPerGoodTray(dose: number): number;
  /** days a lost tray holds its place; absent: as long as a good one */
  daysPerLostTray?(dose: number): number;
  /** money per gram after fees, packing, drying: never the shelf price */
  netPricePerGram: number;
  cultureCostPerMillilitre: number;
  costPerShelfDay: number;
  /** other cost of every started tray, and what a good one adds (picking, weighing) */
  otherCostPerStartedTray: number;
  otherCostPerGoodTray?: number;
  recoveredPerLostTray?: number;
}

/** Money at one dose. */
export interface DoseProfit {
  dose: number;
  /** expected per started tray: good grams with the loss in, days, cost */
  gramsPerStartedTray: number;
  shelfDaysPerStartedTray: number;
  cultureCost: number;
  costPerStartedTray: number;
  incomePerStartedTray: number;
  profitPerStartedTray: number;
  profitPerShelfDay: number;
}

/**
 * Expected profit of a dose, per started tray and per day of shelf.
 * @param dose mL per tray, 0 or more
 * @throws RangeError if the dose, a price or what a function returns lies outside its range, naming it
 * @source expected value: (1 - loss)(price x grams - good cost) + loss x recovered - dose x culture - days x shelf - other
 * @example doseProfit(13, economics).profitPerStartedTray // 36.9
 */
export function doseProfit(dose: number, economics: DoseEconomics): DoseProfit {
  requireNotNegative("doseProfit", "dose", dose);
  requireFinite("doseProfit", "netPricePerGram", economics.netPricePerGram);
  const { otherCostPerGoodTray = 0, recoveredPerLostTray = 0 } = economics;
  requireNotNegative("doseProfit", "otherCostPerGoodTray", otherCostPerGoodTray);
  requireNotNegative("doseProfit", "recoveredPerLostTray", recoveredPerLostTray);
  for (const name of ["cultureCostPerMillilitre", "costPerShelfDay", "otherCostPerStartedTray"] as const) {
    requireNotNegative("doseProfit", name, economics[name]);
  }
  const fitted = economics.gramsPerGoodTray(dose);
  const loss = economics.loss(dose);
  const goodDays = economics.daysPerGoodTray(dose);
  const lostDays = economics.daysPerLostTray?.(dose) ?? goodDays;
  const isInRange = Number.isFinite(fitted) && loss >= 0 && loss <= 1 && goodDays > 0 && lostDays >= 0;
  if (!isInRange || goodDays === Infinity || lostDays === Infinity) {
    // only here: writing the dose out costs more than all the rest
    requireFinite("doseProfit", `gramsPerGoodTray at ${dose}`, fitted);
    requireShare("doseProfit", `loss at ${dose}`, loss);
    requirePositive("doseProfit", `daysPerGoodTray at ${dose}`, goodDays);
    requireNotNegative("doseProfit", `daysPerLostTray at ${dose}`, lostDays);
  }

  const grams = (1 - loss) * Math.max(0, fitted);
  const days = (1 - loss) * goodDays + loss * lostDays;
  const cultureCost = dose * economics.cultureCostPerMillilitre;
  const cost =
    cultureCost +
    days * economics.costPerShelfDay +
    economics.otherCostPerStartedTray +
    (1 - loss) * otherCostPerGoodTray;
  const income = grams * economics.netPricePerGram + loss * recoveredPerLostTray;
  const profit = income - cost;
  return {
    dose,
    gramsPerStartedTray: grams,
    shelfDaysPerStartedTray: days,
    cultureCost,
    costPerStartedTray: cost,
    incomePerStartedTray: income,
    profitPerStartedTray: profit,
    // a tray lost on its first day at every dose would hold no place; nothing is earned per day then
    profitPerShelfDay: days > 0 ? profit / days : 0,
  };
}

/** The dose that earns most by one profitabilityMeasure. */
export interface BestDose extends DoseProfit {
  by: "started tray" | "shelf day";
  /** the end of the tested range, where nothing shows that more, or less, would not earn more */
  atEdge: "none" | "lowest" | "highest";
  /** doses that earn at least (1 - share) of the best, the stretch round it; only the dose itself when the best earns nothing */
  nearFrom: number;
  nearTo: number;
}

/** Profit along the tested doses and the best by both profitabilityMeasures. */
export interface DoseEarnings {
  kind: "dose-earnings";
  /** on an even grid over the range, for a chart */
  along: DoseProfit[];
  perTray: BestDose;
  perShelfDay: BestDose;
}

/** Narrows a maximum between two doses by the golden section; the best on a grid keeps it from a lesser peak. */
function refine(profitAt: (dose: number) => number, low: number, high: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [low, high];
  let [left, right] = [b - golden * (b - a), a + golden * (b - a)];
  let [atLeft, atRight] = [profitAt(left), profitAt(right)];
  for (let step = 0; step < 80 && b - a > 1e-9 * Math.max(1, Math.abs(b)); step++) {
    if (atLeft >= atRight) {
      [b, right, atRight] = [right, left, atLeft];
      left = b - golden * (b - a);
      atLeft = profitAt(left);
    } else {
      [a, left, atLeft] = [left, right, atRight];
      right = a + golden * (b - a);
      atRight = profitAt(right);
    }
  }
  return (a + b) / 2;
}

/**
 * The dose that earns most between the lowest and the highest tested one, per started tray and per shelf day. Both are
 * given: places in short supply make the second the one to go by.
 * @param doses tested doses; only their range matters
 * @param nearShare doses within this share of the best profit count as near
 * @returns cannot-tell when fewer than two different doses were tested
 * @throws RangeError if nearShare is not between 0 and 1, or as `doseProfit`
 * @source grid of 240 steps and golden section (Kiefer 1953, Proceedings of the American Mathematical Society
 *   4(3):502-506)
 * @example doseEarnings([5, 10, 15, 20], economics, 0.02).perTray.dose.toFixed(3) // "13.000"
 */
export function doseEarnings(
  doses: ReadonlyArray<number>,
  economics: DoseEconomics,
  nearShare: number,
): DoseEarnings | CannotTell {
  if (!(nearShare > 0 && nearShare < 1)) {
    throw new RangeError(`doseEarnings: nearShare must lie between 0 and 1, both left out; received ${nearShare}`);
  }
  const lowest = Math.min(...doses);
  const highest = Math.max(...doses);
  if (!(highest > lowest)) return cannotTell("fewer than two different doses were tested");
  const steps = 240;
  const along = Array.from({ length: steps + 1 }, (_, step) =>
    doseProfit(step === steps ? highest : lowest + ((highest - lowest) * step) / steps, economics),
  );
  const bestBy = (by: BestDose["by"]): BestDose => {
    const measure = by === "started tray" ? "profitPerStartedTray" : "profitPerShelfDay";
    const value = (profit: DoseProfit): number => profit[measure];
    const at = (dose: number): number => value(doseProfit(dose, economics));
    let top = 0;
    along.forEach((profit, step) => {
      if (value(profit) > value(along[top]!)) top = step;
    });
    const between = [along[Math.max(0, top - 1)]!.dose, along[Math.min(steps, top + 1)]!.dose] as const;
    const refined = doseProfit(refine(at, between[0], between[1]), economics);
    // on an edge, or on a kink that the section misses, the grid's own point stands
    const best = value(refined) > value(along[top]!) ? refined : along[top]!;
    const least = value(best) - nearShare * Math.abs(value(best));
    const end = (step: number, direction: 1 | -1): number => {
      let [inside, at1] = [best.dose, step];
      while (at1 >= 0 && at1 <= steps && value(along[at1]!) >= least) {
        inside = along[at1]!.dose;
        at1 += direction;
      }
      if (at1 < 0 || at1 > steps) return inside;
      let outside = along[at1]!.dose;
      for (let halving = 0; halving < 50; halving++) {
        const middle = (inside + outside) / 2;
        if (at(middle) >= least) inside = middle;
        else outside = middle;
      }
      return inside;
    };
    const earnsNothing = !(value(best) > 0);
    const above = along.findIndex(({ dose }) => dose >= best.dose);
    return {
      ...best,
      by,
      atEdge: best.dose === lowest ? "lowest" : best.dose === highest ? "highest" : "none",
      nearFrom: earnsNothing ? best.dose : end(above - (along[above]!.dose > best.dose ? 1 : 0), -1),
      nearTo: earnsNothing ? best.dose : end(above, 1),
    };
  };
  return { kind: "dose-earnings", along, perTray: bestBy("started tray"), perShelfDay: bestBy("shelf day") };
}
