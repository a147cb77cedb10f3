import type { ColumnReading } from "../records/book.ts";
import type { Issue, LeftOutRow } from "../records/issue.ts";
import type { ListRole, RawTable } from "../records/sheet.ts";
import type { UnreadMoney } from "../records/unread-money.ts";
import { fold } from "../records/words/fold.ts";

// Words for money spent in the eight languages, from memory.
const spent =
  /(?:^| )(?:costs?|spent|paid|rent|bought|expenses?|kosten|bezahlt|gekauft|miete|ausgaben|couts?|paye|achete|loyer|depenses|costes?|gastos?|pagado|alquiler|cost[oi]|spes[ea]|pagato|affitto|betaald|gekocht|huur|uitgaven|koszty?|zaplacono|czynsz|wydatki|custos?|pago|aluguel|despesas)(?: |$)/;

const mostOfName = 40;

/** Lines that say how trays or weights were, and not what was paid. */
const remarkRules: ReadonlySet<string> = new Set(["footnote", "title-line", "section-title", "shifted-row"]);

/** Whether a name speaks of money that is spent. */
export const speaksOfSpending = (name: string): boolean => spent.test(fold(name));

/**
 * Costs that are not counted: a column of them among the trays, a line above or under the trays, a sheet of them that is
 * not known as one. A column that columns.csv leaves unread is none.
 * @param tables the sheets of costs and products, whose own titles are none
 */
export function moneyBesideTrays(
  columns: ReadonlyArray<ColumnReading>,
  leftOut: ReadonlyArray<LeftOutRow>,
  issues: ReadonlyArray<Issue>,
  { costs, products }: Record<ListRole, ReadonlyArray<RawTable>>,
): UnreadMoney[] {
  const moneySheets = new Set([...costs, ...products].map(({ file }) => file));
  for (const { file } of columns) moneySheets.delete(file);
  const reason = (what: string): string => `${what} is not counted: costs belong in a sheet costs.csv`;
  const ofColumns = columns.flatMap(({ file, header, field, example = "" }): UnreadMoney[] =>
    field === "factor" && spent.test(fold(header)) && /\d/.test(example)
      ? [
          {
            sheet: "costs",
            name: `column ${header}`,
            reason: reason("a column of costs beside the trays"),
            source: { file, row: 0 },
            inUse: false,
          },
        ]
      : [],
  );
  // the last line that spoke of money, which those right below it go on with
  let last = { file: "", row: 0 };
  const ofLines = leftOut.flatMap(({ file, row, cells, rule }): UnreadMoney[] => {
    const text = cells.filter((cell) => cell.trim() !== "").join(" ");
    const isBelow = rule === "shifted-row" && last.file === file && row === last.row + 1;
    const speaks = isBelow || spent.test(fold(text.replace(/[^\p{L}\p{M}\d]+/gu, " ")));
    if (!remarkRules.has(rule) || moneySheets.has(file) || !speaks) return [];
    last = { file, row };
    if (!/\d/.test(text)) return [];
    const name = text.length > mostOfName ? `${text.slice(0, mostOfName - 1)}…` : text;
    return [
      {
        sheet: "costs",
        name,
        reason: reason("a line about costs beside the trays"),
        source: { file, row },
        inUse: false,
      },
    ];
  });
  const ofSheets = issues.flatMap(({ rule, file, raw }): UnreadMoney[] =>
    rule === "unknown-sheet" && raw.split(", ").some(speaksOfSpending)
      ? [
          {
            sheet: "costs",
            name: file,
            reason: "a sheet that speaks of costs and is not read",
            source: { file, row: 0 },
            inUse: false,
          },
        ]
      : [],
  );
  return [...ofColumns, ...ofLines, ...ofSheets];
}
