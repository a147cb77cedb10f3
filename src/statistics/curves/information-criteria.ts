/** How well a least-squares fit does for the parameters it spends; smaller is better. */
export interface InformationCriteria {
  logLikelihood: number;
  aic: number;
  /** small-sample AIC; Infinity when there are too few values for the correction */
  aicc: number;
  bic: number;
  /** parameters counted, the error standard deviation among them */
  parameterCount: number;
}

/**
 * Normal-theory criteria of a least-squares fit.
 * @param fittedParameters without sigma, which is added
 * @param sumOfLogWeights 0 without weights
 * @returns -Infinity for the criteria of a perfect fit
 * @source Akaike 1974, IEEE Transactions on Automatic Control 19(6):716-723; Hurvich and Tsai 1989, Biometrika
 *   76(2):297-307; Schwarz 1978, Annals of Statistics 6(2):461-464
 * @example informationCriteria(10, 20, 2).parameterCount // 3
 */
export function informationCriteria(
  residualSumOfSquares: number,
  count: number,
  fittedParameters: number,
  sumOfLogWeights = 0,
): InformationCriteria {
  const k = fittedParameters + 1;
  const logLikelihood =
    (-count / 2) * (Math.log(2 * Math.PI) + Math.log(residualSumOfSquares / count) + 1) + sumOfLogWeights / 2;
  const aic = -2 * logLikelihood + 2 * k;
  const left = count - k - 1;
  return {
    logLikelihood,
    aic,
    aicc: left > 0 ? aic + (2 * k * (k + 1)) / left : Number.POSITIVE_INFINITY,
    bic: -2 * logLikelihood + Math.log(count) * k,
    parameterCount: k,
  };
}

/**
 * Akaike weights: how the evidence is shared among forms fitted to the same values.
 * @returns shares that sum to 1; perfect fits share everything equally; all equal when every value is Infinity
 * @example akaikeWeights([100, 100]) // [0.5, 0.5]
 */
export function akaikeWeights(criteria: ReadonlyArray<number>): number[] {
  const least = Math.min(...criteria);
  const raw = criteria.map((value) => (value === least ? 1 : Math.exp(-(value - least) / 2)));
  const sum = raw.reduce((total, value) => total + value, 0);
  return raw.map((value) => value / sum);
}
