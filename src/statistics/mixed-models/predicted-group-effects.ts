import { multiplyVector } from "../linear-algebra/dense-matrix.ts";
import type { MixedModel } from "./fit-mixed-model.ts";

/** How far one group (a cook, a jar) is predicted to lie from the average group. */
export interface GroupEffect {
  level: string;
  /** labels of the groups around it, outermost first, when the labels start again within another grouping */
  within: string | undefined;
  /** predicted effect, shrunk towards 0, in the response's unit */
  effect: number;
  /** root mean squared error of the prediction, taking the variances as known */
  predictionError: number;
}

/**
 * Predicted effect of each group of one random grouping (best linear unbiased prediction).
 * @param grouping name of the random grouping
 * @throws RangeError if the model has no grouping of that name
 * @source Henderson 1975, Biometrics 31(2):423-447; Robinson 1991, Statistical Science 6(1):15-32
 * @example predictedGroupEffects(fit, "cook")[0].effect // -4.4624..., with the set-up of fitMixedModel
 */
export function predictedGroupEffects(fit: MixedModel, grouping: string): GroupEffect[] {
  const { factors, model, state, scale } = fit.working;
  const position = factors.findIndex((factor) => factor.name === grouping);
  if (position < 0) {
    throw new RangeError(
      `predictedGroupEffects: "${grouping}" must be a random grouping of the model; it has ${factors.map((f) => f.name).join(", ")}`,
    );
  }
  const residual = state.variances[0]!;
  const variance = state.variances[position + 1]!;
  const ratios = state.variances.slice(1).map((value) => value / residual);
  const { rows, diagonal } = model.structure.groups(ratios, position);
  const ratio = variance / residual;
  return factors[position]!.labels.map(({ level, within }, g) => {
    const row = rows[g]!;
    const fixedPart = row.slice(0, model.columns);
    const surprise = row[model.columns]! - fixedPart.reduce((sum, value, k) => sum + value * state.effects[k]!, 0);
    const carried = multiplyVector(state.covariance, fixedPart);
    // Z_g' P Z_g = Z_g' V^-1 Z_g less what the estimated fixed effects take away
    const taken = fixedPart.reduce((sum, value, k) => sum + value * carried[k]!, 0) / residual ** 2;
    const known = variance * variance * (diagonal[g]! / residual - taken);
    return {
      level,
      within,
      effect: scale * ratio * surprise,
      predictionError: scale * Math.sqrt(Math.max(0, variance - known)),
    };
  });
}
