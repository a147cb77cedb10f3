import { isLoss } from "../../records/tray.ts";
import { noCounts } from "../columns/use-columns.ts";
import { missingWord } from "../rules/missing-word.ts";
import { readOutcome } from "../values/outcome-words.ts";
import { answerWithMore, yesOrNo } from "../values/yes-or-no.ts";
import { type CellFact, type CellRemark, nothing } from "./cell-fact.ts";
import { readTextCell } from "./read-text-cell.ts";

/** What is said of a tray that the grower's own mark leaves out. @param counts the answer that would count it */
export const leftOutRemark = (counts: "yes" | "no"): CellRemark => ({
  rule: "marked-left-out",
  severity: "warning",
  reason: "marked as not to count: its weight is not used, and the tray stays among those started",
  result: "",
  expected: `one of: ${counts}, contaminated, failed, discarded`,
  action: `Type ${counts} here if it counts after all, or what it was lost to; if it was not lost, type good as its outcome`,
});

/** What a cell says of whether its tray counts; a reason behind the answer is kept as a note, a loss named there is one. */
export function readUseCell(text: string, because: string): CellFact {
  const word = text.trim();
  const split = yesOrNo(word) === undefined ? answerWithMore(word) : undefined;
  const answer = yesOrNo(split?.first ?? word);
  if (answer === undefined && missingWord(text) !== undefined) return nothing;
  const said = answer === undefined || split !== undefined ? readTextCell(word, true) : nothing;
  const isYesLeft = because === noCounts;
  if (answer === !isYesLeft) return said;
  const found = readOutcome(answer === undefined ? word : (split?.more ?? ""));
  // "Valid? ok"
  if (answer === undefined && !isYesLeft && found?.says === "good" && !found.queried && !found.contradictory)
    return said;
  if (
    found !== undefined &&
    isLoss(found.says) &&
    (found.sure || found.whole) &&
    !found.queried &&
    !found.contradictory
  )
    return {
      ...said,
      says: found.says,
      remark: {
        rule: "outcome-word",
        severity: "change",
        reason: "the reason it is left out is that it was lost",
        result: found.says,
        expected: "",
        action: "",
      },
    };
  return { ...said, leftOut: leftOutRemark(isYesLeft ? "no" : "yes") };
}
