import { counted } from "../records/counted.ts";
import type { Issue, Severity } from "../records/issue.ts";

/** Entries of the log that say the same about the same column. */
export interface IssueGroup {
  /** one sentence for people: "12 cells of “Temp” read as °F because the header says so" */
  text: string;
  file: string;
  column: string;
  rule: string;
  severity: Severity;
  reason: string;
  expected: string;
  action: string;
  setting?: string;
  count: number;
  /** the first few, to show */
  examples: Issue[];
}

const mostExamples = 5;
const gravity: Record<Severity, number> = { error: 0, warning: 1, note: 2, change: 3 };

function sentence({ column, row, severity, reason }: Issue, count: number): string {
  if (row === 0 && column === "") return reason;
  const what =
    row === 0
      ? `column “${column}”`
      : column === ""
        ? count === 1
          ? "1 row"
          : `${count} rows`
        : `${counted(count, "cell")} of “${column}”`;
  const readAs = /^read as ([^:]+): (.+)$/s.exec(reason);
  if (readAs !== null) return `${what} read as ${readAs[1]} because ${readAs[2]}`;
  const verb = row === 0 ? "" : severity === "change" ? " changed" : severity === "note" ? "" : " flagged";
  return `${what}${verb}: ${reason}`;
}

/**
 * Gathers entries that say the same thing about the same column, for people to read: what needs doing first, then by
 * how many cells it touches.
 */
export function groupIssues(issues: ReadonlyArray<Issue>): IssueGroup[] {
  const groups = new Map<string, IssueGroup & { first: Issue }>();
  for (const issue of issues) {
    const { file, row, column, rule, severity, reason, expected, action, setting } = issue;
    const key = [file, row === 0 ? "0" : "1", column, rule, severity, reason, setting ?? ""].join("\u0000");
    const group = groups.get(key);
    if (group === undefined) {
      groups.set(key, {
        text: "",
        file,
        column,
        rule,
        severity,
        reason,
        expected,
        action,
        count: 1,
        examples: [issue],
        first: issue,
        ...(setting === undefined ? {} : { setting }),
      });
      continue;
    }
    group.count++;
    if (group.examples.length < mostExamples) group.examples.push(issue);
  }
  return [...groups.values()]
    .sort((a, b) => gravity[a.severity] - gravity[b.severity] || b.count - a.count)
    .map(({ first, ...group }) => ({ ...group, text: sentence(first, group.count) }));
}
