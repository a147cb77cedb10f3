import type { CurveForm } from "./curve-form.ts";
import { asymptoticExponential, exponentialThroughOrigin, mitscherlich } from "./exponential-forms.ts";
import { hyperbola, hyperbolaWithOffset } from "./hyperbola-forms.ts";
import { linearPlateau } from "./linear-plateau.ts";
import { logistic, logisticWithFloor, richards } from "./logistic-forms.ts";
import { noResponse, quadratic, straightLine } from "./polynomial-forms.ts";
import { quadraticPlateau } from "./quadratic-plateau.ts";

/** Every form known by name. */
export const curveForms = {
  "no-response": noResponse,
  "straight-line": straightLine,
  quadratic,
  "asymptotic-exponential": asymptoticExponential,
  mitscherlich,
  "exponential-through-origin": exponentialThroughOrigin,
  hyperbola,
  "hyperbola-with-offset": hyperbolaWithOffset,
  "linear-plateau": linearPlateau,
  "quadratic-plateau": quadraticPlateau,
  logistic,
  "logistic-with-floor": logisticWithFloor,
  richards,
} as const satisfies Record<string, CurveForm>;

export type CurveFormName = keyof typeof curveForms;

/** The forms compared for a dose trial: none of them is forced through the origin, and no two are the same curve. */
export const doseResponseForms: ReadonlyArray<CurveFormName> = [
  "straight-line",
  "quadratic",
  "asymptotic-exponential",
  "hyperbola-with-offset",
  "linear-plateau",
  "quadratic-plateau",
];
