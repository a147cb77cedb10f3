import type { Issue } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import type { RawTable } from "../records/sheet.ts";
import { withRows } from "../records/with-rows.ts";
import { twoDigits } from "../records/words/digits.ts";
import { fold } from "../records/words/fold.ts";
import type { ColumnPin } from "./columns/column-plan.ts";
import { monthNamed } from "./dates/month-names.ts";

/** Names of the parts of a date, in the eight languages, from memory. */
const parts = {
  day: "day|tag|jour|dia|giorno|dag|dzien",
  month: "month|monat|mois|mes|mese|maand|miesiac",
  year: "year|jahr|annee|an|ano|anno|jaar|rok",
} as const;
const partNames = Object.keys(parts) as (keyof typeof parts)[];

/** A header that names a part of a date, and what else it says: "Harvest day". */
function partOf(header: string): { part: keyof typeof parts; of: string } | undefined {
  const words = fold(header).split(" ");
  for (const part of partNames) {
    const at = words.findIndex((word) => parts[part].split("|").includes(word));
    if (at >= 0) return { part, of: words.filter((_, index) => index !== at).join(" ") };
  }
  return undefined;
}

/** The day that three cells make, for a reader of dates; undefined where they make none. */
function dayOf(day: string, month: string, year: string): string | undefined {
  const number = /^\d{1,2}$/.test(month) ? Number(month) : (monthNamed(month) ?? 0);
  if (!/^\d{1,2}$/.test(day) || Number(day) < 1 || Number(day) > 31 || number < 1 || number > 12) return undefined;
  const [, century = "20", rest] = /^(20)?(\d\d)$/.exec(year) ?? [];
  if (rest === undefined) return undefined;
  return `${century}${rest}-${twoDigits(number)}-${day.padStart(2, "0")}`;
}

const rowsLookedAt = 200;

/** Three columns of a table that make one of days. */
interface Parted {
  of: string;
  columns: Record<keyof typeof parts, number>;
}

function partedIn(table: RawTable, pins: ReadonlyArray<ColumnPin>): Parted[] {
  const found = new Map<string, Partial<Parted["columns"]>>();
  table.header.forEach((name, index) => {
    const named = pins.some(({ header }) => header === name) ? undefined : partOf(name);
    if (named === undefined) return;
    const columns = found.get(named.of) ?? {};
    // two of a kind are no parts of one day
    columns[named.part] = columns[named.part] === undefined ? index : -1;
    found.set(named.of, columns);
  });
  const isTaken = (of: string): boolean => table.header.some((name) => fold(name) === `${of} date`.trim());
  const whole = [...found].flatMap(([of, columns]) =>
    partNames.every((part) => (columns[part] ?? -1) >= 0) && !isTaken(of)
      ? [{ of, columns: columns as Parted["columns"] }]
      : [],
  );
  const right = whole.map(() => 0);
  let rows = 0;
  table.forEachRow((cells) => {
    if (rows++ >= rowsLookedAt) return;
    whole.forEach(({ columns }, at) => {
      const [day = "", month = "", year = ""] = partNames.map((part) => cells[columns[part]]!.trim());
      if (`${day}${month}${year}` !== "") right[at]! += dayOf(day, month, year) === undefined ? Number.NaN : 1;
    });
  });
  return whole.filter((_, at) => right[at]! > 0);
}

/** Makes one column of dates of three, in which day, month and year of all rows are days: "Day,Month,Year", "Harvest day", and so on. */
export function withDatesInParts(
  tables: ReadonlyArray<RawTable>,
  pins: ReadonlyArray<ColumnPin>,
): { tables: RawTable[]; issues: Issue[] } {
  const issues: Issue[] = [];
  const read = tables.map((table): RawTable => {
    const parted = partedIn(table, pins);
    if (parted.length === 0) return table;
    const header = [...table.header];
    for (const { of, columns } of parted) {
      const names = partNames.map((part) => table.header[columns[part]]!);
      for (const part of partNames) header[columns[part]] = "";
      header[columns.day] = `${of} date`.trim();
      issues.push(
        logEntry({
          ...{ file: table.file, column: names.join(", "), rule: "date-in-parts", severity: "note" },
          result: header[columns.day]!,
          reason: "day, month and year stand in columns of their own: read as one date",
          action: "State joined_cells = ignore in settings.csv if that is wrong",
          setting: "joined_cells",
        }),
      );
    }
    return withRows(table, header, (typed) => {
      const cells = [...typed];
      for (const { columns } of parted) {
        const [day = "", month = "", year = ""] = partNames.map((part) => cells[columns[part]]!.trim());
        for (const part of partNames) cells[columns[part]] = "";
        cells[columns.day] = dayOf(day, month, year) ?? [day, month, year].filter((one) => one !== "").join(" ");
      }
      return cells;
    });
  });
  return { tables: read, issues };
}
