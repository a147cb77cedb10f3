import { add, multiply, sumOfSquares, toNumber, zero } from "../linear-algebra/double-double.ts";
import { doubleDouble } from "../linear-algebra/double-double-column.ts";
import { solveUpperTransposed } from "../linear-algebra/triangle.ts";
import { typedDecimal } from "../linear-algebra/typed-decimal.ts";
import { requireFinite } from "../require-numbers.ts";
import type { LinearModel } from "./linear-model.ts";

/**
 * A weighted sum of coefficients, such as the difference of two cooks.
 * @param weights of each coefficient by its name: { "cook: B": 1, "cook: C": -1 }; those left out weigh 0
 * @throws RangeError if a name is not a coefficient, a weight is not finite or all are 0
 * @source Seber and Lee 2003, Linear Regression Analysis, chapter 4
 * @example
 * const model = linearModel({ response: [4, 6, 9, 11, 5, 9], terms: [{ kind: "factor", name: "cook", values: ["A", "A", "B", "B", "C", "C"] }] });
 * linearContrast(model, { "cook: B": 1, "cook: C": -1 }).estimate // 3
 */
export function linearContrast(
  model: LinearModel,
  weights: Readonly<Record<string, number>>,
): { estimate: number; standardError: number } {
  const names = Object.keys(weights);
  requireFinite("linearContrast", "weights", Object.values(weights));
  if (names.every((name) => weights[name] === 0)) throw new RangeError("linearContrast: weights must not all be 0");
  const unknown = names.find((name) => !model.coefficients.some((one) => one.name === name));
  if (unknown !== undefined) {
    const known = model.coefficients.map(({ name }) => `"${name}"`).join(", ");
    throw new RangeError(`linearContrast: a weight must name a coefficient (${known}); received "${unknown}"`);
  }
  const { upper, estimates } = model.working;
  const kept = model.coefficients.map(({ name }) => {
    const weight = Object.hasOwn(weights, name) ? weights[name]! : 0;
    return weight === 0 ? zero : typedDecimal(weight);
  });
  const estimate = kept.reduce((sum, weight, k) => add(sum, multiply(weight, estimates[k]!)), zero);
  const spread = Math.sqrt(toNumber(sumOfSquares(solveUpperTransposed(doubleDouble, upper, kept))));
  return { estimate: toNumber(estimate), standardError: Math.sqrt(model.residual.meanSquare) * spread };
}
