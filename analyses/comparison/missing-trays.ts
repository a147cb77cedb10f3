import type { Sentence, Trial } from "../../src/analysis.ts";
import { firstOf } from "../../src/records/counted.ts";

const mostNamed = 5;

/** What trays that no row tells of may do to an answer; empty where the numbering of trays has no gap. */
export function missingTrays({ issues }: Trial): Sentence[] {
  const names = issues.flatMap(({ rule, tray }) =>
    rule === "tray-number-missing" && tray !== undefined ? [tray] : [],
  );
  if (names.length === 0) return [];
  const one = names.length === 1;
  return [
    [
      `${one ? "One tray's number is" : `${names.length} tray numbers are`} missing from the sheets (${firstOf(names, mostNamed)}): if ${one ? "it was" : "they were"} filled and lost, losses and costs are higher than stated here, and a risky dose looks better than it is.`,
    ],
  ];
}
