import type { Issue } from "../../records/issue.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";

/** Columns of a money sheet that were left unread because two could be the same, or hold money: what they say is in no row. */
export const unreadColumns = (sheet: UnreadMoney["sheet"], headerIssues: ReadonlyArray<Issue>): UnreadMoney[] =>
  headerIssues.flatMap(({ severity, raw, reason, file, row }) =>
    severity === "error" || severity === "warning"
      ? [{ sheet, name: `column ${raw}`, reason, source: { file, row }, inUse: true } satisfies UnreadMoney]
      : [],
  );
