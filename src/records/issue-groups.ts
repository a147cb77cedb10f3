import { counted, firstOf } from "./counted.ts";
import type { Issue, Severity } from "./issue.ts";

/** Entries of the log that say the same, of whatever column and file. */
export interface IssueGroup extends Pick<Issue, "severity" | "rule" | "reason" | "expected" | "action" | "setting"> {
  /** whether it is about rows, and not about a whole column or file */
  isOfRows: boolean;
  count: number;
  /** headers and files it was met in, in the order first met */
  columns: string[];
  files: string[];
  /** the first few that differ in what was typed or used */
  examples: Issue[];
}

/** From the one that matters most. */
export const severities: ReadonlyArray<Severity> = ["error", "warning", "note", "change"];

const mostExamples = 5;
const mostNames = 4;

const addOnce = (list: string[], item: string): void => {
  if (item !== "" && !list.includes(item)) list.push(item);
};

/** Puts entries of the log together that say the same: what needs doing first, then the most frequent. */
export function issueGroups(issues: ReadonlyArray<Issue>): IssueGroup[] {
  const groups = new Map<string, IssueGroup>();
  for (const issue of issues) {
    const { severity, rule, reason, expected, action, setting, raw, result } = issue;
    const isOfRows = issue.row !== 0;
    const key = JSON.stringify([isOfRows, severity, rule, reason, action, setting]);
    let group = groups.get(key);
    if (group === undefined) {
      const same = { severity, rule, reason, expected, action, ...(setting === undefined ? {} : { setting }) };
      group = { ...same, isOfRows, count: 0, columns: [], files: [], examples: [] };
      groups.set(key, group);
    }
    group.count += 1;
    addOnce(group.columns, issue.column);
    addOnce(group.files, issue.file);
    const isNew = raw === "" || group.examples.every((one) => one.raw !== raw || one.result !== result);
    if (isNew && group.examples.length < mostExamples) group.examples.push(issue);
  }
  return [...groups.values()].sort(
    (a, b) => severities.indexOf(a.severity) - severities.indexOf(b.severity) || b.count - a.count,
  );
}

/** One sentence for a group: "12 cells of “Temp” read as °F because the header says so". */
export function groupSentence({ columns, isOfRows, severity, reason, count }: IssueGroup): string {
  if (!isOfRows && columns.length === 0) return reason;
  const names = firstOf(
    columns.map((name) => `“${name}”`),
    mostNames,
  );
  const ofColumns = columns.length === 0 ? "" : ` of ${names}`;
  const what = isOfRows
    ? `${counted(count, columns.length === 0 ? "row" : "cell")}${ofColumns}`
    : `column${columns.length === 1 ? "" : "s"} ${names}`;
  const readAs = /^read as ([^:]+): (.+)$/s.exec(reason);
  if (readAs !== null) return `${what} read as ${readAs[1]} because ${readAs[2]}`;
  const verb = !isOfRows || severity === "note" ? "" : severity === "change" ? " changed" : " flagged";
  return `${what}${verb}: ${reason}`;
}

/**
 * The entries a page shows when a log is too long for it: the worst, in the order of the log.
 * @returns all of them when there are at most `most`
 */
export function worstIssues(issues: ReadonlyArray<Issue>, most: number): Issue[] {
  if (issues.length <= most) return [...issues];
  const worstFirst = issues
    .map((issue, index) => ({ index, rank: severities.indexOf(issue.severity) }))
    .sort((a, b) => a.rank - b.rank || a.index - b.index)
    .slice(0, most)
    .sort((a, b) => a.index - b.index);
  return worstFirst.map(({ index }) => issues[index]!);
}
