import type { FittedCurve } from "../curves/fit-curve.ts";
import { requireFinite, requirePositive } from "../require-numbers.ts";
import type { OptimumPrices } from "./economic-optimum.ts";
import { type FiellerRatio, fiellerRatio } from "./fieller-ratio.ts";

/** Fieller's set for the best dose of a quadratic, and what of it lies within the doses tried. */
export interface FiellerOptimum {
  set: FiellerRatio;
  /** the parts of the set within the tested doses, in order; empty when the set lies wholly outside */
  withinTested: { low: number; high: number }[];
  /** whether the quadratic bends down (its top is an optimum); the set also holds bottoms of curves that bend up when the bend is not significant */
  bendsDown: boolean;
  /** one plain sentence without a full stop */
  says: string;
}

/**
 * Fieller's set for the economic optimum (r - b) / 2c of a fitted quadratic, r the cost of input over the price of product.
 * It is exact under the usual assumptions, and unbounded when the bend c is not significant.
 * @param fit a fitted "quadratic"
 * @throws RangeError if the fit is of another form, the price is not above 0, the cost is below 0 or the range is empty
 * @source Fieller 1954, Journal of the Royal Statistical Society B 16(2):175-185, applied to a vertex as in Buonaccorsi
 *   and Iyer 1984, Communications in Statistics A 13:1503-1515 (from memory)
 * @example fiellerOptimum(fitCurve({ form: "quadratic", doses: [2, 2, 8, 8, 14, 14, 20, 20], responses: [50, 52, 74, 77, 84, 86, 79, 81] }), { pricePerUnit: 0.5, costPerUnit: 0.4, lowestDose: 2, highestDose: 20 }).set.low // 12.429...
 */
export function fiellerOptimum(fit: FittedCurve, prices: OptimumPrices, level = fit.level): FiellerOptimum {
  if (fit.name !== "quadratic")
    throw new RangeError(`fiellerOptimum: the fit must be a quadratic; received ${fit.name}`);
  const { pricePerUnit, costPerUnit, lowestDose, highestDose } = prices;
  requirePositive("fiellerOptimum", "pricePerUnit", pricePerUnit);
  requireFinite("fiellerOptimum", "costPerUnit, lowestDose, highestDose", [costPerUnit, lowestDose, highestDose]);
  if (costPerUnit < 0) throw new RangeError(`fiellerOptimum: costPerUnit must be 0 or more; received ${costPerUnit}`);
  if (lowestDose > highestDose) {
    throw new RangeError(
      `fiellerOptimum: lowestDose must not be above highestDose; received ${lowestDose}, ${highestDose}`,
    );
  }
  const [, b, c] = fit.estimates;
  const set = fiellerRatio({
    numerator: costPerUnit / pricePerUnit - b!,
    denominator: 2 * c!,
    varianceNumerator: fit.covariance[1]![1]!,
    varianceDenominator: 4 * fit.covariance[2]![2]!,
    covariance: -2 * fit.covariance[1]![2]!,
    degreesOfFreedom: fit.degreesOfFreedom,
    level,
  });
  const withinTested = stretches(set)
    .map(([low, high]) => ({ low: Math.max(low, lowestDose), high: Math.min(high, highestDose) }))
    .filter(({ low, high }) => low <= high);
  const bendsDown = c! < 0;
  return { set, withinTested, bendsDown, says: sentence(set, withinTested, bendsDown) };
}

function stretches(set: FiellerRatio): [number, number][] {
  const [least, most] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  switch (set.kind) {
    case "bounded":
      return [[set.low, set.high]];
    case "one-sided":
      return "low" in set ? [[set.low, most]] : [[least, set.high]];
    case "exclusive":
      return [
        [least, set.below],
        [set.above, most],
      ];
    case "whole-line":
      return [[least, most]];
  }
}

function sentence(set: FiellerRatio, withinTested: { low: number; high: number }[], bendsDown: boolean): string {
  if (!bendsDown) return "the curve does not bend downwards, so these data show no best dose";
  if (set.kind === "bounded") {
    return withinTested.length > 0
      ? "the best dose lies between the two limits"
      : "the best dose lies outside the doses tried";
  }
  if (set.kind === "whole-line") return "the bend is not significant and these data rule out no best dose";
  if (set.kind === "one-sided") return "the bend is barely significant: the best dose has a limit on one side only";
  return "the bend is not significant: these data rule out only the doses between the two limits";
}
