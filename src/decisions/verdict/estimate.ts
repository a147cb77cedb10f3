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

/** The difference that an error lets be shown four times in five. */
export function couldHaveShown({ standardError, degreesOfFreedom }: StandardError): number {
  return (studentTQuantile(0.975, degreesOfFreedom) + studentTQuantile(0.8, degreesOfFreedom)) * standardError;
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
