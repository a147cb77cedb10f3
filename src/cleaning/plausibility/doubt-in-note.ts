import { doubtsAmount, doubtsDose, doubtsTray, isNotAll, partsOf } from "../values/doubts.ts";
import { nothingFound, type PlausibilityRule } from "./plausibility-rule.ts";

/** A note that doubts its tray's weight or dose, or which tray it is. The values are used, and the tray flagged. */
export const doubtInNote: PlausibilityRule = {
  code: "doubt-in-note",
  settings: [],
  check(tray) {
    const { note, freshGrams, dryGrams } = tray;
    if (note === undefined) return nothingFound;
    const parts = partsOf(note);
    const isOther = parts.some(doubtsTray);
    const isWeighed = freshGrams !== undefined || dryGrams !== undefined;
    const isOtherDose = parts.some((part) => doubtsDose(part, tray));
    if (
      !isOther &&
      !isOtherDose &&
      !(isWeighed && (isNotAll(note, tray) || parts.some((part) => doubtsAmount(part, tray))))
    )
      return nothingFound;
    return [
      {
        field: "note",
        raw: note,
        reason: isOther
          ? "the note doubts which tray it is: what the row says may be another tray's"
          : "the note says that the weight or dose is not sure, or not the whole: used as typed",
        expected: "a tray and weights that are sure",
        action: "Correct the row and take the words out of the note; what cannot be known stays flagged",
      },
    ];
  },
};
