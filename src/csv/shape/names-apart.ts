import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";

/** Names of columns, the second and later ones of a name numbered; one entry of the log for each. */
export function namesApart(
  file: string,
  names: ReadonlyArray<string>,
  headerRow: number,
): { names: string[]; issues: Issue[] } {
  const taken = new Set<string>(names.map((name) => name.toLowerCase()));
  const seen = new Set<string>();
  const issues: Issue[] = [];
  const apart = names.map((name) => {
    const key = name.toLowerCase();
    if (name === "" || !seen.has(key)) {
      seen.add(key);
      return name;
    }
    let number = 2;
    while (taken.has(`${key} (${number})`)) number++;
    const renamed = `${name} (${number})`;
    taken.add(renamed.toLowerCase());
    issues.push(
      logEntry({
        file,
        row: headerRow,
        column: name,
        raw: name,
        result: renamed,
        rule: "column-used-twice",
        severity: "warning",
        reason: "two columns have the same name; both are kept, the later one under a numbered name",
        expected: "a name of its own for every column",
        action: "Rename one of the columns, or remove the one that is not needed",
      }),
    );
    return renamed;
  });
  return { names: apart, issues };
}
