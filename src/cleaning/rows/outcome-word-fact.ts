import { outcomesExpected, type TraySaid } from "../values/outcome-words.ts";
import type { CellFact } from "./cell-fact.ts";

/** What a cell adds to its tray that holds a word for what became of it where a number or a date should be. */
export function outcomeWordFact(says: TraySaid, queried: boolean, reason: string): CellFact {
  return {
    says,
    ...(queried ? { queried } : {}),
    remark: {
      rule: queried ? "outcome-queried" : "outcome-word",
      severity: queried ? "warning" : "change",
      reason,
      result: says,
      expected: queried ? outcomesExpected : "",
      action: queried ? "Look at the tray, then type its outcome without the question mark" : "",
    },
  };
}
