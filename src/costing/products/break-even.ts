import { requireFinite, requireNotNegative } from "../../measures/require-amounts.ts";
import { type CannotTell, cannotTell } from "../cannot-tell.ts";

/** Units that just cover fixed cost. */
export interface BreakEvenUnits {
  kind: "units";
  /** rounded up: a part of a unit cannot be sold */
  units: number;
}

/** Rounded up, but for what storage of a decimal puts over a whole number. */
const wholeUnits = (exact: number): number => Math.ceil(exact * (1 - 1e-12));

/**
 * Units to sell so that what they leave covers fixed cost.
 * @param fixedCost money per period; @param netPrice of one unit after fees and tax; @param variableCost of one unit
 * @returns cannot-tell when a unit leaves nothing
 * @throws RangeError if fixedCost is negative or a number is not finite
 * @example breakEvenUnits(20000, 400, 250).units // 134
 */
export function breakEvenUnits(fixedCost: number, netPrice: number, variableCost: number): BreakEvenUnits | CannotTell {
  requireNotNegative("breakEvenUnits", "fixedCost", fixedCost);
  requireFinite("breakEvenUnits", "netPrice", netPrice);
  requireFinite("breakEvenUnits", "variableCost", variableCost);
  const contribution = netPrice - variableCost;
  if (!(contribution > 0)) {
    return cannotTell("a unit leaves nothing over its own cost, so no number of units covers the fixed cost");
  }
  return { kind: "units", units: wholeUnits(fixedCost / contribution) };
}

/**
 * Units of each product to sell, in the proportions expected, so that together they cover fixed cost.
 * @param mix contribution of one unit, of either sign, and units expected in the period
 * @returns units in the order given, each rounded up; cannot-tell when the mix leaves nothing
 * @throws RangeError if fixedCost or an expected number is negative or not finite
 * @example breakEvenMix(100, [{ contribution: 5, expectedUnits: 2 }, { contribution: 10, expectedUnits: 1 }]).units // [10, 5]
 */
export function breakEvenMix(
  fixedCost: number,
  mix: ReadonlyArray<{ contribution: number; expectedUnits: number }>,
): { kind: "mix"; shareOfExpected: number; units: number[] } | CannotTell {
  requireNotNegative("breakEvenMix", "fixedCost", fixedCost);
  for (const { contribution, expectedUnits } of mix) {
    requireFinite("breakEvenMix", "contribution", contribution);
    requireNotNegative("breakEvenMix", "expectedUnits", expectedUnits);
  }
  const expected = mix.reduce((sum, { contribution, expectedUnits }) => sum + contribution * expectedUnits, 0);
  if (!(expected > 0)) return cannotTell("the sales expected leave nothing over their own cost");
  const shareOfExpected = fixedCost / expected;
  return {
    kind: "mix",
    shareOfExpected,
    units: mix.map(({ expectedUnits }) => wholeUnits(expectedUnits * shareOfExpected)),
  };
}
