import { nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

/** A dose of a single tray that is another of the book with its decimal point moved. */
export const doseSlip: PlausibilityRule = {
  code: "dose-slip",
  settings: [],
  check({ inoculumMillilitres: dose }, { doseSlips }) {
    if (dose === undefined || !doseSlips.has(dose)) return nothingFound;
    return [
      {
        field: "inoculum_ml",
        raw: String(dose),
        reason:
          "ten times, or a tenth of, a dose that several trays got, and no other tray got it: a slip of the decimal point?",
        expected: "a dose like those of the other trays",
        action: "Check the dose",
      },
    ];
  },
};
