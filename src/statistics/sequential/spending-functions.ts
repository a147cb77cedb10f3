import { normalQuantile, normalUpperTail } from "../distributions/normal.ts";
import { requireOpenProbability, requirePositive } from "../require-numbers.ts";

/** How the false-alarm rate is shared out over the information: cumulative two-sided share spent at fraction t of it. */
export type SpendingFunction = (fraction: number, significance: number) => number;

/** Spends almost nothing early: limits like O'Brien and Fleming's. @source Lan and DeMets 1983, Biometrika 70(3):659-663 */
export const obrienFlemingSpending: SpendingFunction = (fraction, significance) => {
  requireArguments("obrienFlemingSpending", fraction, significance);
  // each side spends half of the rate, so the quantile is that of a quarter
  return fraction >= 1 ? significance : 4 * normalUpperTail(-normalQuantile(significance / 4) / Math.sqrt(fraction));
};

/** Spends early: limits close to Pocock's. @source Lan and DeMets 1983, Biometrika 70(3):659-663 */
export const pocockSpending: SpendingFunction = (fraction, significance) => {
  requireArguments("pocockSpending", fraction, significance);
  return significance * Math.log1p((Math.E - 1) * Math.min(fraction, 1));
};

/**
 * Spends significance x fraction^power.
 * @source Kim and DeMets 1987, Biometrika 74(1):149-154
 * @example powerSpending(2)(0.5, 0.05) // 0.0125
 */
export function powerSpending(power: number): SpendingFunction {
  requirePositive("powerSpending", "power", power);
  return (fraction, significance) => {
    requireArguments("powerSpending", fraction, significance);
    return significance * Math.min(fraction, 1) ** power;
  };
}

function requireArguments(routine: string, fraction: number, significance: number): void {
  requirePositive(routine, "fraction", fraction);
  requireOpenProbability(routine, "significance", significance);
}
