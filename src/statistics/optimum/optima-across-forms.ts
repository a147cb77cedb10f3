import type { CurveFormName } from "../curves/curve-forms.ts";
import type { ComparedCurves } from "../curves/fit-curves.ts";
import { type BestOnRange, bestOnRange } from "./best-on-range.ts";
import { type EconomicOptimum, economicOptimum, type OptimumPrices } from "./economic-optimum.ts";

/** The best dose under each form, and how much it matters which form is believed. */
export interface OptimaAcrossForms {
  forms: {
    name: string;
    label: string;
    weight: number;
    optimum: EconomicOptimum;
    /** margin lost under the averaged curve by choosing this form's dose */
    lossUnderAverage: number;
  }[];
  /** lowest and highest best dose among the forms */
  low: number;
  high: number;
  /** the forms' best doses averaged by weight */
  weightedDose: number;
  /** the best dose of the averaged curve (margins averaged by weight): what to use when no form is singled out */
  averaged: BestOnRange;
  /** the averaged margin over the input at any dose */
  averagedMarginAt(dose: number): number;
}

/**
 * Sets the economic optima of several fitted forms side by side. The choice of form often moves the optimum more than the
 * scatter within a form does, so the spread belongs in the answer.
 * @param compared forms fitted to the same trays; at least one must have been fitted
 * @throws RangeError if no form was fitted, a form is one of the caller's own, or prices are wrong
 * @source Cerrato and Blackmer 1990, Agronomy Journal 82(1):138-143; averaging: Burnham and Anderson 2002, Model
 *   Selection and Multimodel Inference, section 2.9, p. 75
 * @example optimaAcrossForms(fitCurves({ doses: [2, 2, 8, 8, 14, 14, 20, 20], responses: [50, 52, 74, 77, 84, 86, 79, 81] }), { pricePerUnit: 0.5, costPerUnit: 0.4, lowestDose: 2, highestDose: 20 }).high // 20
 */
export function optimaAcrossForms(compared: ComparedCurves, prices: OptimumPrices): OptimaAcrossForms {
  if (compared.ranked.length === 0) throw new RangeError("optimaAcrossForms: no form was fitted");
  const own = compared.ranked.map(({ fit, weight }) => ({
    fit,
    weight,
    optimum: economicOptimum({ ...prices, form: fit.name as CurveFormName, parameters: fit.estimates }),
  }));
  const averagedMarginAt = (dose: number) =>
    own.reduce((sum, { fit, weight }) => sum + weight * fit.form.value(dose, fit.estimates), 0) * prices.pricePerUnit -
    prices.costPerUnit * dose;
  const doses = own.map(({ optimum }) => optimum.dose);
  const averaged = bestOnRange(averagedMarginAt, prices.lowestDose, prices.highestDose, doses);
  return {
    forms: own.map(({ fit, weight, optimum }) => ({
      name: fit.name,
      label: fit.label,
      weight,
      optimum,
      lossUnderAverage: Math.max(averaged.value - averagedMarginAt(optimum.dose), 0),
    })),
    low: Math.min(...doses),
    high: Math.max(...doses),
    weightedDose: own.reduce((sum, { weight, optimum }) => sum + weight * optimum.dose, 0),
    averaged,
    averagedMarginAt,
  };
}
