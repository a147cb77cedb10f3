import { type ContrastResult, contrastTest, type TestOptions } from "./contrast-test.ts";
import type { Design, DesignColumn } from "./design-columns.ts";
import { estimableWeights } from "./estimable-weights.ts";
import type { MixedModel } from "./fit-mixed-model.ts";

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

function combinations(design: Design, factors: ReadonlyArray<string>): Record<string, string>[] {
  let all: Record<string, string>[] = [{}];
  for (const factor of factors) {
    all = all.flatMap((start) => design.factorLevels.get(factor)!.map((level) => ({ ...start, [factor]: level })));
  }
  return all;
}

/** Value a design column takes at the levels, averaged evenly over factors not named. */
function columnAt(
  design: Design,
  column: DesignColumn,
  levels: Readonly<Record<string, string>>,
  at: Readonly<Record<string, number>>,
): number {
  let value = 1;
  for (const [factor, level] of column.levels) {
    if (Object.hasOwn(levels, factor)) value *= levels[factor] === level ? 1 : 0;
    else value /= design.factorLevels.get(factor)!.length;
  }
  for (const name of column.numbers) {
    const { base, mean, exponent } = design.numberTerms.get(name)!;
    value *= (Object.hasOwn(at, base) ? at[base]! : mean) ** exponent;
  }
  return value;
}

/**
 * Means the model expects at each level of the named factors, averaged with equal weights over the other factors and with
 * numbers held at their means: what the trial would have shown had it been balanced.
 * @param factors names of factor terms; more than one gives every combination of their levels
 * @throws RangeError if a name is no factor of the model, `at` names no number term, or a mean has no estimate because
 *   its cell holds no observation; and as `contrastTest`
 * @source Searle, Speed and Milliken 1980, The American Statistician 34:216-221 (from memory)
 * @example estimatedMeans(fit, ["machine"])[0].estimate
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
  for (const [name, value] of Object.entries(at)) {
    if (design.numberTerms.get(name)?.base !== name || !Number.isFinite(value)) {
      throw new RangeError(
        `estimatedMeans: "at" must give a finite number for a number term; received ${name} = ${value}`,
      );
    }
  }
  return combinations(design, factors).map((levels) => {
    const weights = estimableWeights(fit, (column) => columnAt(design, column, levels, at));
    if (weights === undefined) {
      throw new RangeError(
        `estimatedMeans: the mean at ${Object.values(levels).join(", ")} has no estimate: a cell it needs holds no observation`,
      );
    }
    return { levels, weights, ...contrastTest(fit, weights, options) };
  });
}
