import { farFromUsual } from "./far-from-usual.ts";
import { type Finding, nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

/** Trays differ by as much as this whatever is done to them. */
const usualShare = Math.log(1.25);

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
      raw: `${Number(grams!.toPrecision(6))} g`,
      reason: `the ${label} weight is far ${z > 0 ? "above" : "below"} those of other good trays of its dose, its cook allowed for`,
      expected: `near ${usual.toPrecision(3)} g`,
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
    const freshZ = farFromUsual(fresh, at, usualShare, settings.outlierZ);
    const dryZ = farFromUsual(dry, at, usualShare, settings.outlierZ);
    if (freshZ === 0 && dryZ === 0) return nothingFound;
    return [
      ...finding("fresh_g", "fresh", tray.freshGrams, freshZ, Math.exp(fresh.usualOf(at))),
      ...finding("dry_g", "dry", tray.dryGrams, dryZ, Math.exp(dry.usualOf(at))),
    ];
  },
};
