import { doseOf, isComparable } from "./book-measures.ts";
import { type Finding, nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";
import { type RobustCentre, robustZ } from "./robust-centre.ts";

/** Below this many good trays a dose has no usual weight. */
const fewestTrays = 6;

/** The robust z of a weight beyond the limit; 0 when it is within, or there is nothing to judge by. */
function unusual(grams: number | undefined, centre: RobustCentre | undefined, limit: number): number {
  if (grams === undefined || centre === undefined || centre.count < fewestTrays) return 0;
  const z = robustZ(grams, centre);
  return Math.abs(z) > limit ? z : 0;
}

function finding(
  field: "fresh_g" | "dry_g",
  label: string,
  grams: number | undefined,
  z: number,
  centre: RobustCentre | undefined,
): Finding[] {
  if (z === 0 || centre === undefined) return [];
  return [
    {
      field,
      raw: String(grams),
      reason: `the ${label} weight is far ${z > 0 ? "above" : "below"} those of other good trays of its dose`,
      expected: `${label} weights near ${centre.median.toPrecision(3)} g`,
      action: "Check the weight and its unit; nothing was changed",
      setting: "outlier_z",
    },
  ];
}

/** A weight far from those of other good trays of the same dose. */
export const weightUnusual: PlausibilityRule = {
  code: "weight-unusual",
  check(tray, { fresh, dry, settings }) {
    if (!isComparable(tray)) return nothingFound;
    const dose = doseOf(tray);
    const freshZ = unusual(tray.freshGrams, fresh.get(dose), settings.outlierZ);
    const dryZ = unusual(tray.dryGrams, dry.get(dose), settings.outlierZ);
    if (freshZ === 0 && dryZ === 0) return nothingFound;
    return [
      ...finding("fresh_g", "fresh", tray.freshGrams, freshZ, fresh.get(dose)),
      ...finding("dry_g", "dry", tray.dryGrams, dryZ, dry.get(dose)),
    ];
  },
};
