import type { Issue } from "../../records/issue.ts";

/** What the cleaning says of a changed cell. */
export interface CellFinding {
  /** `bad`: the cell could not be used; `read`: it was read as something else than typed */
  kind: "bad" | "read";
  text: string;
}

/** An entry of the log as one sentence beside its cell. */
export function findingOf({ severity, reason, expected, action, result }: Issue): CellFinding {
  const isBad = severity === "error" || severity === "warning";
  const parts = isBad
    ? [reason, expected === "" ? "" : `expected ${expected}`, action]
    : [result === "" ? reason : `read as ${result}: ${reason}`];
  const text = parts
    .filter((part) => part !== "")
    .map((part) => part[0]!.toUpperCase() + part.slice(1))
    .join(". ");
  return { kind: isBad ? "bad" : "read", text: /[.!?]$/.test(text) ? text : `${text}.` };
}
