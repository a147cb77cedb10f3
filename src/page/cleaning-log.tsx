import type { Severity } from "../records/issue.ts";
import { pageNumber } from "./page-number.ts";
import { summary } from "./workbench.ts";
import type { LogGroup } from "./worker/cleaned-summary.ts";

const severities: ReadonlyArray<readonly [Severity, one: string, many: string, meaning: string]> = [
  ["error", "error", "errors", "cannot be used until corrected"],
  ["warning", "flag", "flags", "left out where needed, or kept but doubtful"],
  ["note", "note", "notes", "worth knowing, nothing to do"],
  ["change", "change", "changes", "read as something other than typed, safely"],
];

function Group({ group }: { group: LogGroup }) {
  const { text, file, examples, action, count } = group;
  return (
    <li>
      <p>{text}</p>
      <p class="quiet">
        {file}
        {examples.length > 0
          ? ` · ${examples.join("; ")}${count > examples.length ? ` and ${pageNumber(count - examples.length)} more` : ""}`
          : ""}
      </p>
      {action === "" ? null : <p class="quiet">To do: {action}</p>}
    </li>
  );
}

/** The cleaning log, like entries together, gravest first. */
export function CleaningLog() {
  const found = summary.value;
  if (found === undefined) return null;
  const { trays, flaggedTrays, counts, groups, groupsLeftAway, leftOut } = found;
  return (
    <section aria-labelledby="log-title" class="block">
      <h2 id="log-title">Cleaning log</h2>
      <p class="quiet">
        {pageNumber(trays)} {trays === 1 ? "tray" : "trays"} read, {pageNumber(flaggedTrays)} with a flag.
      </p>
      {severities.map(([severity, one, many, meaning]) => {
        const own = groups.filter((group) => group.severity === severity);
        if (own.length === 0) return null;
        return (
          <details key={severity} class="fold log-fold" open={severity === "error" || severity === "warning"}>
            <summary>
              <strong>
                {pageNumber(counts[severity])} {counts[severity] === 1 ? one : many}
              </strong>
              : {meaning}
            </summary>
            <ul class="log-list">
              {own.map((group, index) => (
                <Group key={`${index} ${group.text}`} group={group} />
              ))}
            </ul>
          </details>
        );
      })}
      {leftOut.count > 0 ? (
        <details class="fold log-fold">
          <summary>
            <strong>
              {pageNumber(leftOut.count)} {leftOut.count === 1 ? "row" : "rows"} left out
            </strong>
            : kept in the report with the reason
          </summary>
          <ul class="log-list">
            {leftOut.shown.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      ) : null}
      {groupsLeftAway > 0 ? (
        <p class="quiet">{pageNumber(groupsLeftAway)} more kinds of entry are in the log file.</p>
      ) : null}
    </section>
  );
}
