import type { CurveColumns } from "./curve-data.ts";
import type { CurveForm } from "./curve-form.ts";
import { type CurveFormName, doseResponseForms } from "./curve-forms.ts";
import { type CurveNotFitted, type FittedCurve, fitCurve } from "./fit-curve.ts";
import { akaikeWeights } from "./information-criteria.ts";

export interface FitCurvesInput extends CurveColumns {
  /** forms to compare; the six dose-response forms when absent */
  forms?: ReadonlyArray<CurveFormName | CurveForm>;
  level?: number;
  profile?: boolean;
  bootstrap?: { replicates: number; seed: number };
}

/** Forms side by side. */
export interface ComparedCurves {
  /** fitted forms, smallest AICc first */
  ranked: { fit: FittedCurve; aicc: number; difference: number; weight: number }[];
  /** forms these data could not fix, or that are the same curve as one ranked, with the reason */
  notFitted: CurveNotFitted[];
}

/**
 * Fits several forms to the same trays and ranks them by AICc. A form that comes out as another form's curve is listed with
 * those not fitted, so that one curve is not counted twice in the weights.
 * @returns `ranked` is empty when no form could be fitted
 * @throws RangeError as `fitCurve`
 * @source Burnham and Anderson 2002, Model Selection and Multimodel Inference, section 2.9, p. 75 (weights)
 * @example fitCurves({ doses: [1, 1, 2, 2, 3, 3], responses: [1, 2, 2, 3, 3, 5], forms: ["straight-line"] }).ranked.length // 1
 */
export function fitCurves(input: FitCurvesInput): ComparedCurves {
  const notFitted: CurveNotFitted[] = [];
  const fits: FittedCurve[] = [];
  for (const form of input.forms ?? doseResponseForms) {
    const fit = fitCurve({ ...input, form });
    if (fit.kind === "not-fitted") {
      notFitted.push(fit);
      continue;
    }
    const same = fits.find((other) => sameCurve(other, fit));
    if (!same) {
      fits.push(fit);
      continue;
    }
    const reason = `within the tested doses this is the same curve as the ${same.label}`;
    notFitted.push({
      kind: "not-fitted",
      form: fit.form,
      name: fit.name,
      label: fit.label,
      equation: fit.equation,
      reason,
    });
  }
  // a form ranked first by AICc; where AICc is beyond reach for every form, by AIC
  fits.sort((a, b) => (a.aicc === b.aicc ? a.aic - b.aic : a.aicc - b.aicc));
  const weights = fits.length > 0 ? akaikeWeights(fits.map(({ aicc }) => aicc)) : [];
  const least = fits[0]?.aicc ?? 0;
  return {
    ranked: fits.map((fit, k) => ({
      fit,
      aicc: fit.aicc,
      difference: fit.aicc === least ? 0 : fit.aicc - least,
      weight: weights[k]!,
    })),
    notFitted,
  };
}

/** Whether two fits run together over the whole tested range, between the doses too. */
function sameCurve(a: FittedCurve, b: FittedCurve): boolean {
  const close = 1e-6 * Math.max(a.sigma, b.sigma);
  const step = (a.highestDose - a.lowestDose) / 50;
  return Array.from({ length: 51 }, (_, k) => a.lowestDose + k * step).every(
    (dose) => Math.abs(a.form.value(dose, a.estimates) - b.form.value(dose, b.estimates)) <= close,
  );
}
