import type { ColumnReading } from "../records/book.ts";
import type { LeftOutRow } from "../records/issue.ts";
import type { UnreadMoney } from "../records/unread-money.ts";
import { fold } from "../records/words/fold.ts";

// Words for money spent in the eight languages, from memory.
const spent =
  /(?:^| )(?:costs?|spent|paid|rent|bought|expenses?|kosten|bezahlt|gekauft|miete|ausgaben|couts?|paye|achete|loyer|depenses|costes?|gastos?|pagado|alquiler|cost[oi]|spes[ea]|pagato|affitto|betaald|gekocht|huur|uitgaven|koszty?|zaplacono|czynsz|wydatki|custos?|pago|aluguel|despesas)(?: |$)/;

const mostOfName = 40;

/** Lines that say how trays or weights were, and not what was paid. */
const remarkRules: ReadonlySet<string> = new Set(["footnote", "title-line", "section-title", "shifted-row"]);

/**
 * Costs that are written among the trays and not counted: a column of them, or a line above or under the trays. A column
 * that columns.csv leaves unread is none.
 */
export function moneyBesideTrays(
  columns: ReadonlyArray<ColumnReading>,
  leftOut: ReadonlyArray<LeftOutRow>,
): UnreadMoney[] {
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
  const ofLines = leftOut.flatMap(({ file, row, cells, rule }): UnreadMoney[] => {
    const text = cells.filter((cell) => cell.trim() !== "").join(" ");
    if (!remarkRules.has(rule) || !/\d/.test(text) || !spent.test(fold(text.replace(/[^\p{L}\p{M}\d]+/gu, " "))))
      return [];
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
  return [...ofColumns, ...ofLines];
}
