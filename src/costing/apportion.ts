import { requireFinite } from "../measures/require-amounts.ts";
import { compensatedSum } from "./compensated-sum.ts";

/**
 * An amount of money in whole minor units (cents), halves away from zero.
 * @param decimals of the currency's minor unit: 2 for cents, 0 where there is none
 * @throws RangeError if the amount is not finite, the decimals are not 0 to 6, or the result is past exact whole numbers
 * @example minorUnits(1.005, 2) // 101
 */
export function minorUnits(amount: number, decimals: number): number {
  requireFinite("minorUnits", "amount", amount);
  if (!Number.isInteger(decimals) || decimals < 0 || decimals > 6) {
    throw new RangeError(`minorUnits: decimals must be a whole number from 0 to 6; received ${decimals}`);
  }
  // 15 digits take off the storage error of a typed decimal, which would otherwise turn a half into less than a half
  const scaled = Number((Math.abs(amount) * 10 ** decimals).toPrecision(15));
  const rounded = Math.sign(amount) * Math.round(scaled);
  if (!Number.isSafeInteger(rounded)) {
    throw new RangeError(`minorUnits: the amount must stay below 2^53 minor units; received ${amount}`);
  }
  return rounded === 0 ? 0 : rounded;
}

/**
 * Rounds amounts to minor units so that the rounded amounts add up to the rounded sum: what a printed table needs.
 * Every amount is rounded down and the units still missing go to the largest remainders (earlier amounts win ties),
 * so no figure is off by a whole unit or more.
 * @param amounts money, of either sign
 * @param forcedTotal minor units the parts have to add up to, where another table already shows that figure
 * @returns whole minor units, in the order given, and their exact sum
 * @throws RangeError as `minorUnits`
 * @source largest-remainder (Hamilton) apportionment; Balinski and Young 1982, Fair Representation, Yale University Press
 * @example roundToAddUp([1.004, 1.004, 1.004], 2) // { parts: [101, 100, 100], total: 301 }
 */
export function roundToAddUp(
  amounts: ReadonlyArray<number>,
  decimals: number,
  forcedTotal?: number,
): { parts: number[]; total: number } {
  if (
    forcedTotal !== undefined &&
    (!Number.isSafeInteger(forcedTotal) || (forcedTotal !== 0 && amounts.every((amount) => amount === 0)))
  ) {
    throw new RangeError(
      `roundToAddUp: forcedTotal must be a whole number that the amounts can make; received ${forcedTotal}`,
    );
  }
  const scaled = amounts.map((amount) => {
    minorUnits(amount, decimals);
    return amount * 10 ** decimals;
  });
  const total = forcedTotal ?? minorUnits(compensatedSum(amounts), decimals);
  const parts = scaled.map((value) => Math.floor(value) + 0);
  let missing = total - parts.reduce((sum, part) => sum + part, 0);
  const byRemainder = scaled
    .map((value, index) => ({ value, index, remainder: value - parts[index]! }))
    // nothing stays nothing, whatever rounding noise the large amounts leave
    .filter(({ value }) => value !== 0)
    .sort((a, b) => b.remainder - a.remainder);
  // rounding noise can leave one unit to take back instead of to give
  for (let turn = 0; missing > 0; turn = (turn + 1) % byRemainder.length, missing--)
    parts[byRemainder[turn]!.index]! += 1;
  for (let turn = byRemainder.length - 1; missing < 0; turn = (turn || byRemainder.length) - 1, missing++) {
    parts[byRemainder[turn]!.index]! -= 1;
  }
  return { parts, total };
}
