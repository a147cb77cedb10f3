import type { Issue } from "./issue.ts";

/** An entry of the log about a whole file unless said otherwise. */
export function logEntry(entry: Pick<Issue, "file" | "rule" | "severity" | "reason"> & Partial<Issue>): Issue {
  return { row: 0, column: "", raw: "", result: "", expected: "", action: "", ...entry };
}
