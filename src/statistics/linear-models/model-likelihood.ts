import type { LinearModel } from "./linear-model.ts";

/** How well a fit describes the data for the number of parameters it spends; only differences between fits to the same rows mean anything. */
export interface ModelLikelihood {
  logLikelihood: number;
  /** coefficients kept, and the residual variance */
  parameters: number;
  /** Akaike's criterion */
  aic: number;
  /** with the correction for small samples; needs 2 more rows than parameters */
  aicCorrected: number;
  /** Schwarz's criterion */
  bic: number;
}

/**
 * Largest log-likelihood under normal errors and the information criteria.
 * @throws RangeError if the fit is exact (the likelihood has no maximum) or there are fewer than parameters + 2 rows
 * @source Akaike 1974, IEEE Transactions on Automatic Control 19(6):716-723; Hurvich and Tsai 1989, Biometrika
 *   76(2):297-307; Schwarz 1978, Annals of Statistics 6(2):461-464
 * @example modelLikelihood(linearModel({ response: [1, 3, 5.5, 7, 8], terms: [{ kind: "number", name: "dose", values: [0, 1, 2, 3, 4] }] })).aic // 11.026...
 */
export function modelLikelihood(model: LinearModel): ModelLikelihood {
  const n = model.observations;
  const parameters = model.coefficients.length + 1;
  if (model.exactFit) throw new RangeError("modelLikelihood: the fit must leave residuals; received an exact fit");
  if (n < parameters + 2) {
    throw new RangeError(`modelLikelihood: ${parameters + 2} rows or more are needed; received ${n}`);
  }
  const logWeights = (model.working.weights ?? []).reduce((sum, weight) => sum + Math.log(weight), 0);
  const logLikelihood = (-n / 2) * (Math.log((2 * Math.PI * model.residual.sumOfSquares) / n) + 1) + logWeights / 2;
  const aic = -2 * logLikelihood + 2 * parameters;
  return {
    logLikelihood,
    parameters,
    aic,
    aicCorrected: aic + (2 * parameters * (parameters + 1)) / (n - parameters - 1),
    bic: -2 * logLikelihood + Math.log(n) * parameters,
  };
}
