import type { HarvestFieldKey } from "../records/harvest-field.ts";
import type { Issue, LeftOutRow } from "../records/issue.ts";
import { plannedTrialColumn } from "../records/planned-trial.ts";
import type { RawTable } from "../records/sheet.ts";
import { cleaningIssue } from "./cleaning-issue.ts";
import type { ColumnPin } from "./columns/column-plan.ts";
import { meaningsOfHeader } from "./columns/match-columns.ts";

const decisive: ReadonlySet<string> = new Set<HarvestFieldKey>([
  "tray_id",
  "fresh_g",
  "dry_g",
  "inoculum_ml",
  "spawn_g",
  "spawn_pct",
]);

/** What lists of other things have as well: days, people, remarks, jars and shelves. */
const anywhere: ReadonlySet<string> = new Set<HarvestFieldKey>([
  "operator",
  "note",
  "jar",
  "load",
  "shelf",
  "chamber",
  "inoculated_on",
  "colonised_on",
  "fruiting_on",
  "harvested_on",
  "dried_on",
]);

type Tells = "trays" | "something" | "nothing";

/**
 * Whether a table's columns say that its rows are trays: a name for a tray, a weight or a dose beyond doubt, or a word
 * that may be one of these beside another that a list of trays has.
 */
function tellsOfTrays({ header }: RawTable, pinned: ReadonlySet<string>): Tells {
  let strong = false;
  let weak = false;
  let others = 0;
  for (const name of header) {
    if (name === plannedTrialColumn || pinned.has(name.trim().toLowerCase())) strong = true;
    const meanings = meaningsOfHeader(name);
    const sure = meanings.filter(({ rank }) => rank > 1);
    if (sure.some(({ field }) => decisive.has(field))) strong = true;
    else if (meanings.some(({ field }) => decisive.has(field))) weak = true;
    else if (sure.some(({ field }) => !anywhere.has(field))) others++;
  }
  if (strong || (weak && others > 0)) return "trays";
  return others > 0 ? "something" : "nothing";
}

/** Rows of such tables that are listed, all tables together. */
const mostListed = 1000;

/**
 * Leaves out the tables of a book that name neither trays nor weights nor doses, where others do: lists of customers,
 * cultures, tasks, a tab of remarks. A book of nothing else keeps them, and is asked about.
 * @param stated tables whose role the settings state
 */
export function leaveOtherLists(
  tables: ReadonlyArray<RawTable>,
  pins: ReadonlyArray<ColumnPin>,
  stated: ReadonlySet<RawTable>,
): { kept: RawTable[]; issues: Issue[]; leftOut: LeftOutRow[] } {
  const pinned = new Set(
    pins.filter(({ field }) => decisive.has(field)).map(({ header }) => header.trim().toLowerCase()),
  );
  const tells = new Map(
    tables.map((table) => [table, stated.has(table) ? "trays" : tellsOfTrays(table, pinned)] as const),
  );
  const kept = tables.filter((table) => tells.get(table) === "trays");
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  if (kept.length === 0) {
    const first = tables.find((table) => tells.get(table) === "something");
    if (first !== undefined) issues.push(notOfTrays(first, "error"));
    return { kept: [...tables], issues, leftOut };
  }
  for (const table of tables) {
    if (kept.includes(table)) continue;
    const issue = notOfTrays(table, "warning");
    issues.push(issue);
    table.forEachRow((cells, row) => {
      if (leftOut.length < mostListed)
        leftOut.push({ file: table.file, row, cells, rule: "no-harvest-sheet", reason: issue.reason });
    });
    // what is left of such a sheet is not counted row by row
    for (const other of kept) if (other.file === table.file) delete other.filledRows;
  }
  return { kept, issues, leftOut };
}

function notOfTrays({ file, header, headerRow }: RawTable, severity: "error" | "warning"): Issue {
  const name = file.split(" > ").at(-1)!.split("/").at(-1)!;
  return cleaningIssue({
    file,
    row: headerRow,
    raw: header
      .filter((text) => text !== "")
      .join(", ")
      .slice(0, 300),
    rule: severity === "error" ? "no-trays-named" : "unknown-sheet",
    severity,
    reason:
      severity === "error"
        ? "no column names trays, a weight or a dose, so nothing says that the rows are trays"
        : "no column names trays, a weight or a dose: it is no harvest sheet, and is left out",
    action: `Name such a column if each row is a tray, or state sheet_role = harvest with ${name} in a column sheet of settings.csv`,
    setting: "sheet_role",
  });
}
