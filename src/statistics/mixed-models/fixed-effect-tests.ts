import { type ContrastResult, contrastTest, type TestOptions } from "./contrast-test.ts";
import type { MixedModel } from "./fit-mixed-model.ts";

/** One fixed effect with interval and t test. */
export interface FixedEffectTest extends ContrastResult {
  name: string;
}

/**
 * Interval and t test of each fixed effect.
 * @throws RangeError as `contrastTest`
 * @source Kenward and Roger 1997, Biometrics 53(3):983-997; Satterthwaite 1946, Biometrics Bulletin 2(6):110-114
 * @example fixedEffectTests(fit, { method: "satterthwaite" }).map((row) => row.name) // ["intercept", "dose: 6", "dose: 9"], with the set-up of fitMixedModel
 */
export function fixedEffectTests(fit: MixedModel, options: TestOptions = {}): FixedEffectTest[] {
  return fit.coefficientNames.map((name, position) => {
    const weights = fit.coefficientNames.map((_, k) => (k === position ? 1 : 0));
    return { name, ...contrastTest(fit, weights, options) };
  });
}
