import type { UsualOfDoses } from "./book-measures.ts";
import { robustZ } from "./robust-centre.ts";

/**
 * How far a tray's value lies from those of its dose, its cook allowed for, in robust standard deviations.
 * @param least what values differ by whatever is done to trays
 * @param limit robust standard deviations
 * @returns 0 within either, and where too few trays tell
 */
export function farFromUsual({ residuals, centreOf }: UsualOfDoses, at: number, least: number, limit: number): number {
  const residual = residuals[at]!;
  const centre = centreOf(at);
  // a residual that is not known is within both
  if (centre === undefined || !(Math.abs(residual - centre.median) >= least)) return 0;
  const z = robustZ(residual, centre);
  return Math.abs(z) > limit ? z : 0;
}
