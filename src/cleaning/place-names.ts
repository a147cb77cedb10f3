import type { HarvestFieldKey } from "../records/harvest-field.ts";
import type { Issue } from "../records/issue.ts";
import type { RawTable } from "../records/sheet.ts";
import { cleaningIssue } from "./cleaning-issue.ts";
import { meaningsOfHeader } from "./columns/match-columns.ts";

/** Fields that the name of a tab may say of all its trays. */
const told: ReadonlySet<HarvestFieldKey> = new Set<HarvestFieldKey>(["batch", "load", "jar", "shelf", "chamber"]);

const named = /^(\p{L}[\p{L} ]{1,20}?)[ #_-]*((?!(?:19|20)\d\d$)\d{1,4}|[A-Z]\d{0,2})$/u;
const dose = /^(\d[\d.,]*)\s*(ml|mL|cc)\b(?:\s+\p{L}{2,12})?$/u;

interface Told {
  field: HarvestFieldKey;
  name: string;
  value: string;
}

function toldBy(tab: string): Told | undefined {
  const [, amount, unit] = dose.exec(tab) ?? [];
  if (amount !== undefined) return { field: "inoculum_ml", name: `inoculum (${unit})`, value: amount };
  const [, name, value] = named.exec(tab) ?? [];
  if (name === undefined) return undefined;
  const meaning = meaningsOfHeader(name, true).find(({ rank, field }) => rank > 1 && told.has(field));
  return meaning === undefined ? undefined : { field: meaning.field, name, value: value! };
}

/**
 * Gives the tables of a workbook what the names of their tabs say, where no column says it: the trays of a tab "Batch A"
 * are of cook A, those of "5 ml" had that dose.
 */
export function withTabNames(tables: ReadonlyArray<RawTable>): { tables: RawTable[]; issues: Issue[] } {
  const issues: Issue[] = [];
  const wrapped = tables.map((table): RawTable => {
    const tab = table.file.split(" > ")[1]?.trim() ?? "";
    const said = toldBy(tab);
    const speaks = ({ field }: Told): boolean =>
      table.header.some((name) => meaningsOfHeader(name).some((one) => one.field === field));
    if (said === undefined || speaks(said)) return table;
    issues.push(
      cleaningIssue({
        file: table.file,
        row: 0,
        raw: tab,
        result: said.value,
        rule: "tab-name",
        severity: "note",
        reason: `the tab's name says ${said.field} ${said.value} of all its trays, and no column does`,
        action: "State section_titles = ignore in settings.csv if that is wrong",
      }),
    );
    return {
      ...table,
      header: [...table.header, said.name],
      forEachRow: (visit) => table.forEachRow((cells, row) => visit([...cells, said.value], row)),
    };
  });
  return { tables: wrapped, issues };
}
