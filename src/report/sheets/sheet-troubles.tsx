import { counted, firstOf } from "../../records/counted.ts";
import type { Issue, Severity } from "../../records/issue.ts";
import { type IssueGroup, issueGroups, severities, worstIssues } from "../../records/issue-groups.ts";
import { Fold } from "../fold.tsx";
import { visibleText } from "../visible-text.ts";
import { SheetTable } from "./sheet-table.tsx";

/** entries of the log the page holds; the file beside the report has them all */
const mostEntries = 2000;
const mostGroups = 200;
const mostNames = 6;
const mostExamples = 3;

/** What each severity means to the grower. */
const severityMeaning: Readonly<Record<Severity, string>> = {
  error: "a row, column or file that cannot be used until it is corrected",
  warning: "a flagged cell: left out where it is needed, or kept but doubtful",
  note: "worth knowing, nothing to do",
  change: "read as something other than what was typed, safely",
};

const listed = (names: ReadonlyArray<string>): string =>
  firstOf(
    names.map((name) => visibleText(name, 60)),
    mostNames,
  );

/** A typed text in quotes, so that spaces and nothing at all can be seen. */
const quoted = (text: string): string => (text === "" ? "an empty cell" : `“${visibleText(text, 60)}”`);

const readAs = ({ raw, result }: Issue): string =>
  result === "" || result === raw ? quoted(raw) : `${quoted(raw)} → ${visibleText(result, 60)}`;

const actionOf = ({ action, setting }: Pick<IssueGroup, "action" | "setting">): string =>
  setting === undefined ? action : `${action}${action === "" ? "" : " "}(setting: ${setting})`;

const groupRow = (group: IssueGroup): string[] => [
  group.severity,
  String(group.count),
  group.reason,
  listed(group.columns),
  listed(group.files),
  [...new Set(group.examples.map(readAs))].slice(0, mostExamples).join("; "),
  group.expected,
  actionOf(group),
];

const entryRow = (issue: Issue): string[] => [
  issue.row > 0 ? String(issue.row) : "all",
  issue.file,
  issue.column,
  issue.tray ?? "",
  issue.raw,
  issue.result,
  issue.severity,
  issue.reason,
  issue.expected,
  actionOf(issue),
];

const groupColumns = [
  { label: "Kind" },
  { label: "Entries", numeric: true },
  { label: "What", wide: true },
  { label: "Columns", wide: true },
  { label: "Files", wide: true },
  { label: "For example", wide: true },
  { label: "A good cell", wide: true },
  { label: "What to do", wide: true },
];

const entryColumns = [
  { label: "Row", numeric: true },
  { label: "File" },
  { label: "Column" },
  { label: "Tray" },
  { label: "As typed" },
  { label: "Used instead" },
  { label: "Kind" },
  { label: "Why", wide: true },
  { label: "A good cell", wide: true },
  { label: "What to do", wide: true },
];

/** The log entry by entry, the gravest of it where it is very long. */
function WholeLog({ issues, logFile }: { issues: ReadonlyArray<Issue>; logFile: string }) {
  const entries = worstIssues(issues, mostEntries);
  const cut = entries.length < issues.length;
  return (
    <Fold
      summary={
        cut
          ? `The log: ${entries.length} of ${issues.length} entries`
          : `The whole log: ${counted(issues.length, "entry", "entries")}`
      }
    >
      <SheetTable
        id="sheets-log"
        caption="The log, entry by entry"
        columns={entryColumns}
        rows={entries.map(entryRow)}
        note={
          cut
            ? `The gravest ${entries.length} of ${issues.length} entries, in the order of the sheets; the other ${issues.length - entries.length} are in the file ${logFile} beside this report.`
            : `The file ${logFile} beside this report holds the same log as a sheet.`
        }
      />
    </Fold>
  );
}

/** What was wrong with the sheets: how much of what kind, like entries together, and the log entry by entry. */
export function SheetTroubles({ issues, logFile }: { issues: ReadonlyArray<Issue>; logFile: string }) {
  const groups = issueGroups(issues);
  const counts = severities.map((severity) => [
    severity,
    String(issues.filter((issue) => issue.severity === severity).length),
    severityMeaning[severity],
  ]);
  return (
    <>
      <SheetTable
        id="sheets-counts"
        caption="Entries in the log"
        columns={[{ label: "Kind" }, { label: "Entries", numeric: true }, { label: "What it means", wide: true }]}
        rows={counts}
      />
      {issues.length === 0 ? (
        <p>Every cell was read as typed.</p>
      ) : (
        <>
          <SheetTable
            id="sheets-groups"
            caption="Like entries together"
            columns={groupColumns}
            rows={groups.slice(0, mostGroups).map(groupRow)}
            note={
              groups.length > mostGroups
                ? `The ${mostGroups} gravest of ${groups.length} kinds are shown; ${logFile} has every entry.`
                : undefined
            }
          />
          <WholeLog issues={issues} logFile={logFile} />
        </>
      )}
    </>
  );
}
