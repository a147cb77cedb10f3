import { fileStem } from "../records/file-stem.ts";
import type { HarvestFieldKey } from "../records/harvest-field.ts";
import type { Issue } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import type { RawTable } from "../records/sheet.ts";
import { withRows } from "../records/with-rows.ts";
import { meaningsOfHeader } from "./columns/match-columns.ts";
import type { MeaningsOf } from "./columns/remembered-meanings.ts";

/** Fields that the name of a tab, a file or a folder may say of all its trays. */
const told: ReadonlySet<HarvestFieldKey> = new Set<HarvestFieldKey>([
  "batch",
  "load",
  "jar",
  "shelf",
  "chamber",
  "flush",
]);

const named = /^(\p{L}[\p{L} ]{1,20}?)[ #_-]*((?!(?:19|20)\d\d$)\d{1,4}|[A-Z]\d{0,2})$/u;
const dose = /^(\d[\d.,]*)\s*(ml|mL|cc)\b(?:\s+\p{L}{2,12})?$/u;

/** "batch 2026-03-02", "2026-03-09 cook": one that is named after its day */
const dated = /^(?:(\p{L}[\p{L} ]{1,20}?)[ _-]+)?((?:19|20)\d\d-\d\d-\d\d)(?:[ _-]+(\p{L}[\p{L} ]{1,20}))?$/u;

interface Told {
  field: HarvestFieldKey;
  name: string;
  value: string;
}

/** The names a table stands under: its tab, its file, its folders. */
function placesOf(file: string): string[] {
  const [path = "", tab] = file.split(" > ");
  const folders = path.split("/");
  const own = fileStem(folders.pop()!);
  return [...(tab === undefined ? [] : [tab.trim()]), own, ...folders.reverse()];
}

function toldBy(tab: string, meaningsOf: MeaningsOf): Told | undefined {
  const [, amount, unit] = dose.exec(tab) ?? [];
  if (amount !== undefined) return { field: "inoculum_ml", name: `inoculum (${unit})`, value: amount };
  const [, before, day, behind] = dated.exec(tab) ?? [];
  const [, name = before ?? behind, value = day] = named.exec(tab) ?? [];
  if (name === undefined) return undefined;
  const meaning = meaningsOf(name, true).find(({ rank, field }) => rank > 1 && told.has(field));
  return meaning === undefined ? undefined : { field: meaning.field, name, value: value! };
}

/**
 * Gives tables what the names of their tabs, files and folders say, where no column says it: the trays of a tab "Batch A"
 * are of cook A, those of "5 ml" had that dose, those of "flush 2.csv" are second pickings.
 */
export function withPlaceNames(
  tables: ReadonlyArray<RawTable>,
  meaningsOf: MeaningsOf = meaningsOfHeader,
): { tables: RawTable[]; issues: Issue[] } {
  const issues: Issue[] = [];
  const wrapped = tables.map((table): RawTable => {
    const spoken = new Set<HarvestFieldKey>(
      table.header.flatMap((name) =>
        meaningsOf(name).flatMap(({ field, flush }) => (flush === undefined ? [field] : [field, "flush"])),
      ),
    );
    const said: Told[] = [];
    for (const place of placesOf(table.file)) {
      const told = toldBy(place, meaningsOf);
      if (told === undefined || spoken.has(told.field)) continue;
      spoken.add(told.field);
      said.push(told);
      issues.push(
        logEntry({
          file: table.file,
          row: 0,
          raw: place,
          result: told.value,
          rule: "place-name",
          severity: "note",
          reason: `the name of its tab, file or folder says ${told.field} ${told.value} of all its trays, and no column does`,
          action: "State section_titles = ignore in settings.csv if that is wrong",
        }),
      );
    }
    if (said.length === 0) return table;
    const values = said.map(({ value }) => value);
    return withRows(table, [...table.header, ...said.map(({ name }) => name)], (cells) => [...cells, ...values]);
  });
  return { tables: wrapped, issues };
}
