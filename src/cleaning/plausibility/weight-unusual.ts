import { doseOf, isComparable } from "./book-measures.ts";
import type { Finding, PlausibilityRule } from "./plausibility-rule.ts";
import { robustZ } from "./robust-centre.ts";

/** Below this many good trays a dose has no usual weight. */
const fewestTrays = 6;

/** A weight far from those of other good trays of the same dose. */
export const weightUnusual: PlausibilityRule = {
  code: "weight-unusual",
  check(tray, { fresh, dry, settings }) {
    if (!isComparable(tray)) return [];
    const dose = doseOf(tray);
    const found: Finding[] = [];
    for (const [field, grams, centre, label] of [
      ["fresh_g", tray.freshGrams, fresh.get(dose), "fresh"],
      ["dry_g", tray.dryGrams, dry.get(dose), "dry"],
    ] as const) {
      if (grams === undefined || centre === undefined || centre.count < fewestTrays) continue;
      const z = robustZ(grams, centre);
      if (Math.abs(z) <= settings.outlierZ) continue;
      found.push({
        field,
        raw: String(grams),
        reason: `the ${label} weight is far ${z > 0 ? "above" : "below"} those of other good trays of its dose`,
        expected: `${label} weights near ${centre.median.toPrecision(3)} g`,
        action: "Check the weight and its unit; nothing was changed",
        setting: "outlier_z",
      });
    }
    return found;
  },
};
