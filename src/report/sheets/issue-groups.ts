import type { Issue, Severity } from "../../records/issue.ts";

/** Entries of the log that say the same thing. */
export interface IssueGroup {
  severity: Severity;
  rule: string;
  reason: string;
  /** of the first entry */
  action: string;
  expected: string;
  setting: string;
  count: number;
  /** headers and files it was met in, in the order first met */
  columns: string[];
  files: string[];
  /** the first few entries that differ in what was typed or used */
  examples: Issue[];
}

/** From the one that matters most. */
export const severities: ReadonlyArray<Severity> = ["error", "warning", "note", "change"];

/** What each severity means to the grower. */
export const severityMeaning: Readonly<Record<Severity, string>> = {
  error: "a row, column or file that cannot be used until it is corrected",
  warning: "a flagged cell: left out where it is needed, or kept but doubtful",
  note: "worth knowing, nothing to do",
  change: "read as something other than what was typed, safely",
};

const examplesKept = 3;

const addOnce = (list: string[], item: string): void => {
  if (item !== "" && !list.includes(item)) list.push(item);
};

/** Puts like entries together: worst first, then the most frequent. */
export function issueGroups(issues: ReadonlyArray<Issue>): IssueGroup[] {
  const groups = new Map<string, IssueGroup>();
  for (const issue of issues) {
    const { severity, rule, reason, action, expected, setting = "" } = issue;
    const key = JSON.stringify([severity, rule, reason, setting]);
    let group = groups.get(key);
    if (group === undefined) {
      group = { severity, rule, reason, action, expected, setting, count: 0, columns: [], files: [], examples: [] };
      groups.set(key, group);
    }
    group.count += 1;
    addOnce(group.columns, issue.column);
    addOnce(group.files, issue.file);
    const { raw, result } = issue;
    const isNew = group.examples.every((example) => example.raw !== raw || example.result !== result);
    if (isNew && group.examples.length < examplesKept) group.examples.push(issue);
  }
  return [...groups.values()].sort(
    (a, b) => severities.indexOf(a.severity) - severities.indexOf(b.severity) || b.count - a.count,
  );
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
