import { ratioOf } from "./book-measures.ts";
import { nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";
import { robustZ } from "./robust-centre.ts";

/** Below this many trays with both weights the book has no usual ratio. */
const fewestTrays = 8;

/** Fresh over dry far from the book's own median (on the logarithm). */
export const dryingRatioUnusual: PlausibilityRule = {
  code: "drying-ratio-unusual",
  settings: ["outlierZ"],
  check(tray, { logRatio, settings }) {
    const ratio = ratioOf(tray);
    if (ratio === undefined || ratio < 1 || logRatio === undefined || logRatio.count < fewestTrays) return nothingFound;
    if (Math.abs(robustZ(Math.log(ratio), logRatio)) <= settings.outlierZ) return nothingFound;
    // scales and rounding alone move a small dry weight by a few per cent
    const away = Math.abs(Math.log(ratio) - logRatio.median);
    if (away < Math.log(1.15)) return nothingFound;
    return [
      {
        field: "dry_g",
        raw: `${tray.freshGrams} fresh, ${tray.dryGrams} dry`,
        reason: "fresh over dry is far from what the book's other trays gave",
        expected: `a ratio near ${Math.exp(logRatio.median).toPrecision(2)}`,
        action: "Check both weights",
        setting: "outlier_z",
      },
    ];
  },
};
