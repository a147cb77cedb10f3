import { doubtSentence, looksText, withoutText } from "../../analyses/costs/money-doubts.ts";
import type { MoneyDoubt } from "../costing/lines/money-doubt.ts";
import type { Settings } from "../records/setting.ts";
import { sentenceText } from "../report/format-quantity.ts";

/** doubts printed one by one; the log has every one */
const mostPrinted = 8;

/** What is missing from the money, as lines for a terminal; none where nothing is. */
export function missingMoneyLines(doubts: ReadonlyArray<MoneyDoubt>, settings: Settings): string[] {
  if (doubts.length === 0) return [];
  const rest = doubts.length - mostPrinted;
  return [
    "",
    `Money is ${withoutText(doubts)}. ${looksText(doubts)}`.trim(),
    ...doubts.slice(0, mostPrinted).map((doubt) => `  ${sentenceText(doubtSentence(doubt), settings)}`),
    ...(rest > 0 ? [`  and ${rest} more; see the log`] : []),
  ];
}
