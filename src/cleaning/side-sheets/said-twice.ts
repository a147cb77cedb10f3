import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { RowSource } from "../../records/tray.ts";
import type { UnreadMoney } from "../../records/unread-money.ts";

/** What tells the rows of a money sheet apart, and what is said of two that nothing does. */
interface Twice<T> {
  sheet: UnreadMoney["sheet"];
  nameOf(one: T): string;
  /** what makes two rows the same thing */
  keyOf(one: T): ReadonlyArray<unknown>;
  /** what the row is certainly for */
  per?(one: T): NonNullable<UnreadMoney["per"]>;
  rule: string;
  /** "the item stands in row 2 as well, " and this */
  reason: string;
  expected: string;
  action: string;
}

/** Rows that are the same thing as one before them: both are counted, and which of them holds is asked. */
export function saidTwice<T extends { source: RowSource }>(
  records: ReadonlyArray<T>,
  { sheet, nameOf, keyOf, per, rule, reason: why, expected, action }: Twice<T>,
): { issues: Issue[]; unread: UnreadMoney[] } {
  const met = new Map<string, RowSource>();
  const issues: Issue[] = [];
  const unread: UnreadMoney[] = [];
  for (const one of records) {
    const { source } = one;
    const key = JSON.stringify(keyOf(one));
    const before = met.get(key);
    met.set(key, source);
    if (before === undefined) continue;
    const place = before.file === source.file ? "" : ` of ${before.file}`;
    const reason = `the ${rule.split("-")[0]} stands in row ${before.row}${place} as well, ${why}: both are counted`;
    const name = nameOf(one);
    unread.push({ sheet, name, reason, source, inUse: true, ...(per === undefined ? {} : { per: per(one) }) });
    issues.push(logEntry({ ...source, rule, severity: "warning", raw: name, reason, expected, action }));
  }
  return { issues, unread };
}
