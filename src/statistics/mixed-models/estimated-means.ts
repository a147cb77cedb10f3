import { type ContrastResult, contrastTest, type TestOptions } from "./contrast-test.ts";
import type { MixedModel } from "./fit-mixed-model.ts";
import type { FixedDesign } from "./fixed-design.ts";
import { weightsAt } from "./settings.ts";

/** The mean a model expects at one level, or combination of levels. */
export interface EstimatedMean extends ContrastResult {
  /** level of each factor asked for */
  levels: Record<string, string>;
  /** the weights over `fit.coefficientNames` that give the mean */
  weights: number[];
}

/** What to hold where. */
export interface MeanOptions extends TestOptions {
  /** value of a number term, powers of it following; its mean over the observations unless stated */
  at?: Readonly<Record<string, number>>;
}

function combinations(design: FixedDesign, factors: ReadonlyArray<string>): Record<string, string>[] {
  let all: Record<string, string>[] = [{}];
  for (const factor of factors) {
    all = all.flatMap((start) => design.factorLevels.get(factor)!.map((level) => ({ ...start, [factor]: level })));
  }
  return all;
}

/**
 * Means the model expects at each level of the named factors, averaged with equal weights over the other factors and with
 * numbers held at their means: what the trial would have shown had it been balanced.
 * @param factors names of factor terms; more than one gives every combination of their levels
 * @throws RangeError if a name is no factor of the model, `at` names no number term, or a mean has no estimate because
 *   its cell holds no observation; and as `contrastTest`
 * @source Searle, Speed and Milliken 1980, The American Statistician 34(4):216-221
 * @example estimatedMeans(fit, ["dose"])[0].estimate // 24.5, with the set-up of fitMixedModel
 */
export function estimatedMeans(
  fit: MixedModel,
  factors: ReadonlyArray<string>,
  options: MeanOptions = {},
): EstimatedMean[] {
  const { design } = fit.working;
  const at = options.at ?? {};
  for (const factor of factors) {
    if (!design.factorLevels.has(factor)) {
      throw new RangeError(
        `estimatedMeans: "${factor}" must be a factor of the model; it has ${[...design.factorLevels.keys()].join(", ") || "none"}`,
      );
    }
  }
  return combinations(design, factors).map((levels) => {
    const weights = weightsAt("estimatedMeans", design, fit.working.columns, { levels, at });
    return { levels, weights, ...contrastTest(fit, weights, options) };
  });
}
