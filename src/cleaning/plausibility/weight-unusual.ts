import type { WeightMeasures } from "./book-measures.ts";
import { type Finding, nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";
import { robustZ } from "./robust-centre.ts";

/** Below this many good trays a dose has no usual weight. */
const fewestTrays = 6;
/** Trays differ by as much as this whatever is done to them. */
const usualShare = Math.log(1.25);

/** How far a tray's weight lies from those of its dose, its cook allowed for, beyond the limit; 0 when it is within. */
function unusual({ residuals, centreOf }: WeightMeasures, at: number, limit: number): number {
  const residual = residuals[at]!;
  const centre = centreOf(at);
  if (Number.isNaN(residual) || centre === undefined || centre.count < fewestTrays) return 0;
  if (Math.abs(residual - centre.median) < usualShare) return 0;
  const z = robustZ(residual, centre);
  return Math.abs(z) > limit ? z : 0;
}

function finding(
  field: "fresh_g" | "dry_g",
  label: string,
  grams: number | undefined,
  z: number,
  usual: number,
): Finding[] {
  if (z === 0) return [];
  return [
    {
      field,
      raw: String(grams),
      reason: `the ${label} weight is far ${z > 0 ? "above" : "below"} those of other good trays of its dose, its cook allowed for`,
      expected: `${label} weights near ${usual.toPrecision(3)} g`,
      action: "Check the weight and its unit; nothing was changed",
      setting: "outlier_z",
    },
  ];
}

/** A weight far from those of other good trays of the same dose, after allowing for a good or a poor cook. */
export const weightUnusual: PlausibilityRule = {
  code: "weight-unusual",
  settings: ["outlierZ"],
  check(tray, { fresh, dry, settings }, at) {
    const freshZ = unusual(fresh, at, settings.outlierZ);
    const dryZ = unusual(dry, at, settings.outlierZ);
    if (freshZ === 0 && dryZ === 0) return nothingFound;
    return [
      ...finding("fresh_g", "fresh", tray.freshGrams, freshZ, fresh.usualOf(at)),
      ...finding("dry_g", "dry", tray.dryGrams, dryZ, dry.usualOf(at)),
    ];
  },
};
