import type { RowAccount } from "../records/book.ts";
import type { Issue, LeftOutRow } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import type { RawTable } from "../records/sheet.ts";
import { sourcesOf, type Tray } from "../records/tray.ts";

/** The rows of one sheet that something is known to have become of. */
class KnownRows {
  private seen = new Uint8Array(1024);

  /** @returns 1 for a row not met before, else 0 */
  add(row: number): 0 | 1 {
    if (row >= this.seen.length) {
      const longer = new Uint8Array(2 * row);
      longer.set(this.seen);
      this.seen = longer;
    }
    if (this.seen[row] === 1) return 0;
    this.seen[row] = 1;
    return 1;
  }
}

interface SheetAccount extends RowAccount {
  known: KnownRows;
  /** rows counted when the sheet was opened */
  counted: number | undefined;
}

function sheetsOf(tables: ReadonlyArray<RawTable>): Map<string, SheetAccount> {
  const sheets = new Map<string, SheetAccount>();
  for (const { file, plan, filledRows, joinedRows = 0 } of tables) {
    const sheet = sheets.get(file) ?? {
      ...{ filled: 0, headers: 0, trays: 0, aside: 0, lost: 0 },
      known: new KnownRows(),
      counted: filledRows,
    };
    sheets.set(file, sheet);
    const [first, last] = plan?.headerRows ?? [1, 0];
    for (let row = first; row <= last; row++) sheet.headers += sheet.known.add(row);
    sheet.trays += joinedRows;
  }
  return sheets;
}

const lostRows = (file: string, { filled, lost }: RowAccount): Issue =>
  logEntry({
    file,
    rule: "rows-lost",
    severity: "error",
    raw: String(lost),
    reason: `of ${filled} rows with something in them, ${lost} are neither the header, nor a tray's, nor set aside: a fault of this program`,
    expected: "every row in one of the three",
    action: "Do not rely on what is said of this sheet; keep the file and report the fault",
  });

/**
 * Holds the rows counted when the harvest sheets were opened against what became of them: header, row of a tray, or set
 * aside. A row that is in none of them is an error.
 * @param tables of harvest sheets
 */
export function accountForRows(
  tables: ReadonlyArray<RawTable>,
  trays: ReadonlyArray<Tray>,
  leftOut: ReadonlyArray<LeftOutRow>,
): { account: RowAccount; issues: Issue[] } {
  const sheets = sheetsOf(tables);
  for (const tray of trays) {
    for (const { file, row } of sourcesOf(tray)) {
      const sheet = sheets.get(file);
      if (sheet !== undefined) sheet.trays += sheet.known.add(row);
    }
  }
  for (const { file, row, rule } of leftOut) {
    const sheet = sheets.get(file);
    if (sheet !== undefined && rule !== "blank-row") sheet.aside += sheet.known.add(row);
  }
  const account: RowAccount = { filled: 0, headers: 0, trays: 0, aside: 0, lost: 0 };
  const issues: Issue[] = [];
  for (const [file, sheet] of sheets) {
    const known = sheet.headers + sheet.trays + sheet.aside;
    sheet.filled = Math.max(known, sheet.counted ?? 0);
    sheet.lost = sheet.filled - known;
    for (const part of ["filled", "headers", "trays", "aside", "lost"] as const) account[part] += sheet[part];
    if (sheet.lost > 0) issues.push(lostRows(file, sheet));
  }
  return { account, issues };
}
