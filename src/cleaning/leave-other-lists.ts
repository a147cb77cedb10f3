import { fileName } from "../records/file-stem.ts";
import type { HarvestFieldKey } from "../records/harvest-field.ts";
import type { Issue, LeftOutRow } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import { nameKey } from "../records/name-key.ts";
import { plannedTrialColumn } from "../records/planned-trial.ts";
import type { RawTable } from "../records/sheet.ts";
import { summaryKind } from "../records/words/summary-label.ts";
import type { ColumnPin } from "./columns/column-plan.ts";
import { meaningsOfHeader } from "./columns/match-columns.ts";
import type { MeaningsOf } from "./columns/remembered-meanings.ts";
import { leaveList } from "./leave-rows.ts";

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

/** "means": trays by their number alone, beside a mean, which sum up trays where others are named. */
type Tells = "trays" | "means" | "something" | "nothing";

// In the eight languages, from memory.
const summaryTab =
  /^(?:summary|overview|averages?|means?|totals?|zusammenfassung|übersicht|mittelwerte?|résumé|moyennes?|resumen|promedios?|medias?|riepilogo|riassunto|samenvatting|overzicht|gemiddelden?|podsumowanie|średnie|resumo|médias)(?!\p{L})/iu;

/** Whether a tab's name says that it sums up others. */
const isSummaryTab = (file: string): boolean => {
  const tab = file.split(" > ")[1]?.trim() ?? "";
  return summaryTab.test(tab) || summaryKind(tab) !== undefined;
};

/**
 * Whether a table's columns say that its rows are trays: a name for a tray, a weight or a dose beyond doubt, or a word
 * that may be one of these beside another that a list of trays has.
 */
function tellsOfTrays({ file, header }: RawTable, pinned: ReadonlySet<string>, meaningsOf: MeaningsOf): Tells {
  let strong = false;
  const weak = new Set<HarvestFieldKey>();
  let others = 0;
  let counted = false;
  for (const name of header) {
    if (name === plannedTrialColumn || pinned.has(nameKey(name))) strong = true;
    const meanings = meaningsOf(name);
    const sure = meanings.filter(({ rank }) => rank > 1);
    if (meanings.some(({ field }) => field === "tray_id") && meanings.some(({ field }) => field === "trays_in_pool"))
      counted = true;
    const possible = meanings.map(({ field }) => field).filter((field) => decisive.has(field));
    if (sure.some(({ field }) => decisive.has(field))) strong = true;
    else if (possible.length > 0) for (const field of possible) weak.add(field);
    else if (sure.some(({ field }) => !anywhere.has(field))) others++;
  }
  const named = header.some((name) => {
    const fields = meaningsOf(name).map(({ field }) => field);
    return fields.includes("tray_id") && !fields.includes("trays_in_pool");
  });
  if (!named && isSummaryTab(file)) return "means";
  if (counted && !named && header.some((name) => summaryKind(name) === "mean")) return "means";
  // "No., cc, Net wt": a dose and a weight bear each other out
  const isBorneOut = weak.has("inoculum_ml") && (weak.has("fresh_g") || weak.has("dry_g"));
  if (strong || (weak.size > 0 && (others > 0 || isBorneOut))) return "trays";
  return others > 0 ? "something" : "nothing";
}

/**
 * Leaves out the tables of a book that name neither trays nor weights nor doses, where others do: lists of customers,
 * cultures, tasks, a tab of remarks. A book of nothing else keeps them in doubt, and is asked about.
 * @param stated tables whose role the settings state
 */
export function leaveOtherLists(
  tables: ReadonlyArray<RawTable>,
  pins: ReadonlyArray<ColumnPin>,
  stated: ReadonlySet<RawTable>,
  meaningsOf: MeaningsOf = meaningsOfHeader,
): { kept: RawTable[]; issues: Issue[]; leftOut: LeftOutRow[] } {
  const pinned = new Set(pins.filter(({ field }) => decisive.has(field)).map(({ header }) => nameKey(header)));
  const tells = new Map(
    tables.map((table) => [table, stated.has(table) ? "trays" : tellsOfTrays(table, pinned, meaningsOf)] as const),
  );
  const most = tables.some((table) => tells.get(table) === "trays") ? "trays" : "means";
  const kept = tables.filter((table) => tells.get(table) === most);
  const issues: Issue[] = [];
  const leftOut: LeftOutRow[] = [];
  if (kept.length === 0) {
    const first = tables.find((table) => tells.get(table) === "something");
    if (first !== undefined) issues.push(notOfTrays(first, true));
    for (const table of tables) table.isInDoubt = true;
    return { kept: [...tables], issues, leftOut };
  }
  for (const table of tables) {
    if (kept.includes(table)) continue;
    // a part of a sheet of trays that lies otherwise may be some of their columns
    const isPart = table.plan?.layout === "columns" && kept.some(({ file }) => file === table.file);
    const issue = notOfTrays(table, isPart, tells.get(table));
    issues.push(issue);
    leaveList(table, issue.reason, leftOut);
    // what is left of such a sheet is not counted row by row
    for (const other of kept) if (other.file === table.file) delete other.filledRows;
  }
  return { kept, issues, leftOut };
}

/** Says that a table names no trays: an error where a book has nothing else. */
function notOfTrays({ file, header, headerRow }: RawTable, isError: boolean, tells?: Tells): Issue {
  const name = fileName(file.split(" > ").at(-1)!);
  const none = "no column names trays, a weight or a dose";
  const base = {
    file,
    row: headerRow,
    raw: header
      .filter((text) => text !== "")
      .join(", ")
      .slice(0, 300),
    action: `Name such a column if each row is a tray, or state sheet_role = harvest with ${name} in a column sheet of settings.csv`,
    setting: "sheet_role",
  };
  if (isError)
    return logEntry({
      ...base,
      rule: "no-trays-named",
      severity: "error",
      reason: `${none}, so nothing says that the rows are trays`,
    });
  return logEntry({
    ...base,
    rule: "unknown-sheet",
    severity: "warning",
    reason:
      tells === "means"
        ? "it counts trays beside a mean, or its name says so: it sums up trays that other sheets name, and is left out"
        : `${none}: it is no harvest sheet, and is left out`,
  });
}
