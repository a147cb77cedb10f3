import { percentileInterval, type Resampled, visitBootstrapRefits } from "../curves/bootstrap-curve.ts";
import { type CurveColumns, curveData } from "../curves/curve-data.ts";
import { type CurveFormName, curveForms } from "../curves/curve-forms.ts";
import { estimateCurve } from "../curves/estimate-curve.ts";
import { requireCount, requireOpenProbability } from "../require-numbers.ts";
import { type EconomicOptimum, economicOptimum, type OptimumPrices } from "./economic-optimum.ts";

export interface OptimumBootstrapInput extends CurveColumns {
  form: CurveFormName;
  pricePerUnit: number;
  costPerUnit: number;
  /** lowest dose to consider; the lowest tested when absent */
  lowestDose?: number;
  /** highest dose to consider; the highest tested when absent */
  highestDose?: number;
  replicates: number;
  seed: number;
  level?: number;
}

/** How far the best dose moves when the trays are drawn again. */
export type OptimumBootstrap =
  | {
      kind: "interval";
      optimum: EconomicOptimum;
      /** percentile interval of the best dose within the range considered */
      low: number;
      high: number;
      level: number;
      /** percentile interval of the margin over the input at each refit's own best dose */
      margin: { low: number; high: number };
      /** shares of the refits whose best dose is an end of the range; when one is large, so is the doubt that an optimum was reached */
      shareAtLowest: number;
      shareAtHighest: number;
      replicates: number;
      unsettled: number;
      seed: number;
      resampled: Resampled;
      /** the best dose of every refit, ascending */
      doses: Float64Array;
    }
  | { kind: "none"; reason: string };

/**
 * Bootstrap interval for the economic optimum of a curve: trays are resampled within dose and block, the curve refitted and
 * its best dose within the range found each time.
 * @returns the interval, or why the curve could not be fitted
 * @throws RangeError as `fitCurve` and `economicOptimum`, or if `replicates` is not a whole number of 100 or more
 * @source percentile limits: Davison and Hinkley 1997, Bootstrap Methods and Their Application, chapter 5
 * @example optimumBootstrap({ form: "quadratic", doses: [2, 2, 8, 8, 14, 14, 20, 20], responses: [50, 52, 74, 77, 84, 86, 79, 81], pricePerUnit: 0.5, costPerUnit: 0.4, replicates: 2000, seed: 1 }).low // 12.530...
 */
export function optimumBootstrap(input: OptimumBootstrapInput): OptimumBootstrap {
  const form = curveForms[input.form];
  if (!form)
    throw new RangeError(
      `optimumBootstrap: form must be one of ${Object.keys(curveForms).join(", ")}; received ${input.form}`,
    );
  requireCount("optimumBootstrap", "replicates", input.replicates, 100);
  const level = input.level ?? 0.95;
  requireOpenProbability("optimumBootstrap", "level", level);
  const data = curveData("optimumBootstrap", input);
  const prices: OptimumPrices = {
    pricePerUnit: input.pricePerUnit,
    costPerUnit: input.costPerUnit,
    lowestDose: input.lowestDose ?? data.differentDoses[0]!,
    highestDose: input.highestDose ?? data.differentDoses.at(-1)!,
  };
  const estimate = estimateCurve(form, data);
  if (estimate.kind === "none") return { kind: "none", reason: estimate.reason };
  const parameters = Array.from(estimate.parameters.subarray(0, form.parameters.length));
  const optimum = economicOptimum({ ...prices, form: input.form, parameters });
  const doses = new Float64Array(input.replicates);
  const margins = new Float64Array(input.replicates);
  let replicate = 0;
  let lowest = 0;
  let highest = 0;
  const { replicates, seed } = input;
  const refits = visitBootstrapRefits({ form, data, estimate, replicates, seed }, (refitted) => {
    for (let j = 0; j < parameters.length; j++) parameters[j] = refitted[j]!;
    const best = economicOptimum({ ...prices, form: input.form, parameters });
    doses[replicate] = best.dose;
    margins[replicate] = best.margin;
    if (best.dose <= prices.lowestDose) lowest++;
    if (best.dose >= prices.highestDose) highest++;
    replicate++;
  });
  const interval = percentileInterval(doses, level);
  return {
    kind: "interval",
    optimum,
    ...interval,
    level,
    margin: percentileInterval(margins, level),
    shareAtLowest: lowest / replicates,
    shareAtHighest: highest / replicates,
    replicates,
    unsettled: refits.unsettled,
    seed,
    resampled: refits.resampled,
    doses,
  };
}
