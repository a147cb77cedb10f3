import { studentTCdf, studentTQuantile, studentTTwoTailed } from "../../statistics/distributions/student-t.ts";
import type { Difference, Interval, Level, StandardError } from "./decision.ts";

/** A difference with its error. */
export interface Estimate extends StandardError {
  estimate: number;
}

/** The error alone. */
export function errorOf({ standardError, degreesOfFreedom }: StandardError): StandardError {
  return { standardError, degreesOfFreedom };
}

/** 95 % interval. */
export function intervalOf({ estimate, standardError, degreesOfFreedom }: Estimate, significance = 0.05): Interval {
  const half = standardError === 0 ? 0 : studentTQuantile(1 - significance / 2, degreesOfFreedom) * standardError;
  return { lower: estimate - half, upper: estimate + half };
}

/** Two-sided p of a difference; an exact difference without any error has p 0, none at all p 1. */
export function pOf({ estimate, standardError, degreesOfFreedom }: Estimate): number {
  if (estimate === 0) return 1;
  return standardError === 0 ? 0 : studentTTwoTailed(estimate / standardError, degreesOfFreedom);
}

/**
 * Share of an estimate that lasts on average when true gains vary with standard deviation `gainSd`.
 * @source normal mean with a normal prior, Box and Tiao 1973, Bayesian Inference in Statistical Analysis, section 1.2 (from memory)
 */
export function shrinkageOf(standardError: number, gainSd: number): number {
  if (standardError === 0) return 1;
  return gainSd ** 2 / (gainSd ** 2 + standardError ** 2);
}

/** Chance that the true difference is above 0. */
function chanceAbove(shown: Estimate, gainSd: number): number {
  const { estimate, standardError, degreesOfFreedom } = shown;
  if (estimate === 0) return 0.5;
  if (standardError === 0) return estimate > 0 ? 1 : 0;
  const shrinkage = shrinkageOf(standardError, gainSd);
  return studentTCdf((Math.sqrt(shrinkage) * estimate) / standardError, degreesOfFreedom);
}

/** Standard normal quantile of four times in five. */
const fourInFive = 0.8416212335729143;

/**
 * The difference that trials like these show four times in five. How large the error truly is their degrees of freedom tell
 * in part: taken as known it would have been shown in 66 to 70 of 100 simulated books of four to eight cooks.
 * @param testDf degrees of freedom of the test that shows it, where it has others than the error
 * @source quantile of the noncentral t distribution about the test's limit: Johnson and Welch 1940, Biometrika 31:362-389
 *   (its normal approximation, from memory)
 */
export function couldHaveShown({ standardError, degreesOfFreedom }: StandardError, testDf = degreesOfFreedom): number {
  const limit = studentTQuantile(0.975, testDf);
  const square = fourInFive ** 2;
  const reach = fourInFive * Math.sqrt(1 + (limit ** 2 - square) / (2 * degreesOfFreedom));
  return (standardError * (limit + reach)) / (1 - square / (2 * degreesOfFreedom));
}

/** Of a difference this small against the gains that are supposed only rounding is left: there is none. */
const onlyRounding = 1e-9;

/**
 * A difference with what it is worth.
 * @param found the estimate with what few cooks hide allowed for
 */
export function differenceOf(found: Estimate, from: Level | undefined, to: Level, gainSd: number): Difference {
  const shown = Math.abs(found.estimate) <= onlyRounding * gainSd ? { ...found, estimate: 0 } : found;
  const shrinkage = shrinkageOf(shown.standardError, gainSd);
  const { standardError, degreesOfFreedom } = shown;
  return {
    to,
    ...(from === undefined ? {} : { from }),
    estimate: shown.estimate,
    standardError,
    degreesOfFreedom,
    interval: intervalOf(shown),
    chance: chanceAbove(shown, gainSd),
    shrinkage,
    shrunken: shrinkage * shown.estimate,
    couldHaveShown: couldHaveShown(shown),
  };
}
