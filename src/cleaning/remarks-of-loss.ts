import type { Issue, LeftOutRow } from "../records/issue.ts";
import { isLoss } from "../records/tray.ts";
import { cleaningIssue } from "./cleaning-issue.ts";
import { readOutcome } from "./values/outcome-words.ts";

/** Trays by number: "2 trays lost to mold", "T7 and T8 binned". A legend ("C = contaminated") speaks of none. */
const countsTrays = /\d/;
const legend = /[=:]/;

/** Says where a remark above or under a table speaks of lost trays, which no row stands for. */
export function remarksOfLoss(leftOut: ReadonlyArray<LeftOutRow>): Issue[] {
  return leftOut.flatMap(({ file, row, cells, rule }): Issue[] => {
    if (rule !== "footnote" && rule !== "title-line") return [];
    const text = cells
      .map((cell) => cell.trim())
      .filter((cell) => cell !== "")
      .join(" ");
    if (text.length > 200 || !countsTrays.test(text) || legend.test(text)) return [];
    const found = readOutcome(text);
    if (found === undefined || !isLoss(found.says) || found.contradictory) return [];
    return [
      cleaningIssue({
        file,
        row,
        raw: text,
        rule: "loss-in-remark",
        severity: "warning",
        reason: "a remark beside the rows may speak of lost trays: trays without a row are not counted",
        expected: "a row for each tray that was started",
        action: "Give each lost tray a row with its outcome; if it has one, take the numbers out of the remark",
      }),
    ];
  });
}
