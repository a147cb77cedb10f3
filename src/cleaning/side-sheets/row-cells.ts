import type { Issue, LeftOutRow, Severity } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import { mayChangePrice, saysWithoutTax, summedPrices } from "../../records/words/money-words.ts";
import { costMeasure } from "../costs/cost-amount.ts";
import { type DateConventions, parseDate } from "../dates/parse-date.ts";
import { parseQuantity } from "../values/parse-quantity.ts";
import type { Conventions, QuantityKind } from "../values/quantity-reading.ts";
import { currencyMark } from "./currency-mark.ts";
import type { MatchedColumn } from "./match-side-columns.ts";

/** What is said of a cell that cannot be used. */
export interface Complaint {
  rule: string;
  reason: string;
  expected: string;
  action?: string;
  setting?: string;
  severity?: Severity;
  raw?: string;
}

/** Bounds of a number; an end that is left out is open. */
export interface NumberRange {
  least?: number;
  /** the number itself may not be `least` */
  above?: boolean;
  most?: number;
}

const saying: Partial<Record<string, string>> = {
  bounds: "the cell gives bounds, not a number",
  pool: "the cell speaks of several trays",
  "outcome-word": "the cell holds a word where a number should be",
};

// In the eight languages, from memory.
const cents =
  /(?<=\d)\s*(?:ct|cts|c|¢|cents?|p|pence|centimes?|c[eé]ntimos?|cêntimos?|centavos?|centesim[oi]|grosz\p{L}*|gr)\.?$/iu;

const withoutTax = /(?<=\d\s*)(?:nett?o?|ht|(?:ex|excl)\.?)(?!\p{L})/iu;

/** A bracket behind an amount of money with a count or another amount in it, but no year: "(for 2)". */
const countsBehind = /\d\s*[([].*(?:\d|\b(?:pair|dozen|twice|double)\b)/iu;
/** what such a bracket may hold without changing the amount: a year, or what it was before */
const harmless = /\b(?:19|20)\d\d\b|[([](?:was|rrp|instead of|statt|vorher)\b[^)\]]*[)\]]/gi;

/** "1.240": money with a third decimal of 0 may be 1.24 or a thousand and more; one below 1 is a price of a small thing. */
const thirdDecimal = /^\s*[1-9]\d{0,2}[.,]\d\d0\s*$/;

/** Columns whose numbers are in the unit behind the name of the column, "Life (months)", where a cell has none. */
const inUnitOfHeader: ReadonlySet<string> = new Set([
  ...["life_years", "hours", "uses", "duty_pct", "breakage_pct", "minutes", "processing_loss_pct", "sell_through_pct"],
  ...["packaging_cost", "shipping_cost", "shipping_charged", "tax_pct", "target_margin_pct", "quantity_discount_pct"],
]);

const isUnit = (text: string): boolean => costMeasure(text, 1) !== undefined || currencyMark(text).mark !== "";

/** One row of a side sheet: its cells by column, read one by one; whatever is wrong goes to the log. */
export class RowCells<K extends string> {
  /** true once a cell could not be read that the row cannot do without */
  failed = false;
  /** what another cell or a header says for a cell */
  private readonly taken = new Map<K, string>();

  constructor(
    readonly file: string,
    readonly row: number,
    readonly cells: string[],
    private readonly columns: ReadonlyMap<K, MatchedColumn>,
    private readonly conventions: Readonly<Conventions>,
    private readonly issues: Issue[],
  ) {}

  /** Whether the sheet has the column and the row has something in it. */
  has(key: K): boolean {
    return this.text(key) !== "";
  }

  /** Has cells read as these texts from now on: what another cell or a header says for them. */
  take(cells: Partial<Record<K, string>>): void {
    for (const key of Object.keys(cells) as K[]) this.taken.set(key, cells[key]!);
  }

  /** A cell as typed, trimmed, or what was taken for it; "" when there is none or it says that there is nothing. */
  text(key: K): string {
    return this.taken.get(key) ?? this.withUnit(key, this.typed(key));
  }

  private withUnit(key: K, text: string): string {
    const unit = this.headerUnit(key);
    const isBare = inUnitOfHeader.has(key) && /^\d[\d.,\s]*$/.test(text);
    return isBare && isUnit(unit) ? `${text} ${unit}` : text;
  }

  private typed(key: K): string {
    const column = this.columns.get(key);
    const raw = column === undefined ? "" : this.cells[column.index]!.trim();
    return /^(?:-+|–|—|n\/?a)$/i.test(raw) ? "" : raw;
  }

  /** The column's header as typed; "" when the sheet has no such column. */
  headerText(key: K): string {
    return this.columns.get(key)?.header ?? "";
  }

  /** The unit in the column's header; "" when there is none. */
  headerUnit(key: K): string {
    return this.columns.get(key)?.unit ?? "";
  }

  /** Puts an entry in the log about a cell; errors make the row fail. */
  say(key: K, { severity = "error", action = "", ...complaint }: Complaint, result = ""): undefined {
    if (severity === "error") this.failed = true;
    const isPlaced = action === "" || this.columns.has(key) || action.includes(key);
    this.issues.push(
      logEntry({
        file: this.file,
        row: this.row,
        column: this.columns.get(key)?.header ?? key,
        raw: this.typed(key),
        result,
        action: isPlaced ? action : `${action}, in a column ${key}`,
        severity,
        ...complaint,
      }),
    );
    return undefined;
  }

  /**
   * Reads a text as a number of a kind, in its canonical unit.
   * @param text the cell or a part of it
   * @returns undefined where there is nothing; also where it cannot be read, and the row has then failed
   */
  quantity(key: K, text: string, kind: QuantityKind, own: Partial<Conventions> = {}): number | undefined {
    const reading = parseQuantity(text, kind, { ...this.conventions, ...own });
    const last = reading.changes.at(-1);
    const reason = reading.changes.map((change) => change.reason).join("; ");
    switch (reading.kind) {
      case "missing":
        return undefined;
      case "value":
      case "approximate":
        if (last !== undefined) {
          const severity = reading.kind === "approximate" ? "warning" : "change";
          this.say(key, { rule: last.rule, reason, expected: "", severity }, `${reading.value} ${reading.unit}`.trim());
        }
        return reading.value;
      case "ambiguous":
        return this.say(key, {
          rule: last?.rule ?? "ambiguous",
          reason,
          expected: reading.expected,
          action: `Type it as expected, or answer ${reading.setting} in settings.csv`,
          setting: reading.setting,
        });
      default:
        return this.say(key, {
          rule: last?.rule ?? "not-a-number",
          reason: saying[reading.kind] ?? reason,
          expected: reading.kind === "unreadable" ? reading.expected : "a plain number",
          action: this.headerUnit(key) === "" ? "Type a number" : "Type a number with its own unit",
        });
    }
  }

  /** Complains of a number outside its range. */
  within(
    key: K,
    value: number | undefined,
    { least, above = false, most }: NumberRange,
    what: string,
  ): number | undefined {
    if (value === undefined) return undefined;
    const low = least !== undefined && (above ? value <= least : value < least);
    if (!low && (most === undefined || value <= most)) return value;
    const lower = least === undefined ? "" : `${above ? "above" : "at least"} ${least}`;
    const upper = most === undefined ? "" : `at most ${most}`;
    return this.say(key, {
      rule: low && value < 0 ? "negative" : value === 0 ? "zero" : "out-of-range",
      reason: low && value < 0 ? `${what} is below 0` : value === 0 ? `${what} is 0` : `${what} is out of its range`,
      expected: `${what}, ${[lower, upper].filter((part) => part !== "").join(", ")}`,
      action: "Correct the number",
    });
  }

  /** A plain number. */
  number(key: K, range: NumberRange, what: string): number | undefined {
    return this.within(key, this.quantity(key, this.text(key), "number"), range, what);
  }

  /** A share, 0 to 1, typed as a percentage. */
  share(key: K, range: NumberRange, what: string): number | undefined {
    const column = this.columns.get(key)?.header ?? "";
    // "of one" in a header says that the cells are shares
    const own: Partial<Conventions> = /fraction|share of (?:one|1)/i.test(column) ? { percentStyle: "fraction" } : {};
    return this.within(key, this.quantity(key, this.text(key), "percent", own), range, what);
  }

  /** An amount of money; which currency it is in is looked at for the whole sheet. */
  money(key: K, what: string): number | undefined {
    const { amount, mark } = currencyMark(this.text(key));
    const parts = summedPrices(amount);
    if (parts.length > 0) {
      const reason = "amounts with a plus between them, added up";
      const total = parts.reduce((sum, part) => sum + (this.quantity(key, part, "number") ?? Number.NaN), 0);
      const value = Number(total.toPrecision(14));
      if (Number.isNaN(value)) return undefined;
      this.say(key, { rule: "sum-of-prices", reason, expected: "", severity: "change" }, String(value));
      return this.within(key, value, { least: 0 }, what);
    }
    if ((mayChangePrice(amount) && !saysWithoutTax(amount)) || countsBehind.test(amount.replace(harmless, ""))) {
      return this.say(key, {
        rule: "remark-changes-price",
        reason: "a remark beside the price says that it is not, or not all, what was paid for this",
        expected: "what was paid for this alone, as a plain number",
        action: "Type the price that counts without the remark, which a note may hold",
      });
    }
    if (withoutTax.test(amount) || saysWithoutTax(amount)) {
      return this.say(key, {
        rule: "price-without-tax",
        reason: "a price without its tax, which is not said",
        expected: "what is paid, as a plain number",
        action: "Type the price with the tax that is paid on it, or without the word where none is",
      });
    }
    if (thirdDecimal.test(amount)) {
      return this.say(key, {
        rule: "three-decimals",
        reason: "three decimals, the last of them 0: it may be thousands",
        expected: "money with two decimals, or thousands without a mark",
        action: "Type the price with two decimals, or without the mark where it is thousands",
      });
    }
    const inCents = mark === "" && (cents.test(`1 ${this.headerUnit(key)}`) || cents.test(amount));
    const value = this.quantity(key, inCents ? amount.replace(cents, "") : amount, "number");
    if (!inCents || value === undefined) return this.within(key, value, { least: 0 }, what);
    const reason = "the cell or its header says hundredths of the currency";
    this.say(key, { rule: "cents", reason, expected: "", severity: "change" }, String(value / 100));
    return this.within(key, value / 100, { least: 0 }, what);
  }

  /** A date in ISO 8601. */
  date(key: K, conventions: Readonly<DateConventions>): string | undefined {
    const reading = parseDate(this.text(key), conventions);
    const last = reading.changes.at(-1);
    const reason = reading.changes.map((change) => change.reason).join("; ");
    switch (reading.kind) {
      case "missing":
        return undefined;
      case "date":
        if (last !== undefined) {
          const severity = reading.approximate ? "warning" : "change";
          this.say(key, { rule: last.rule, reason, expected: "", severity }, reading.iso);
        }
        return reading.iso;
      case "ambiguous":
      case "serial": {
        const setting = reading.kind === "serial" ? "serial_dates" : "date_order";
        return this.say(key, {
          rule: last?.rule ?? "ambiguous-date",
          reason,
          expected: "a date such as 2026-03-04",
          action: `Type it as year-month-day, or answer ${setting} in settings.csv`,
          setting,
        });
      }
      default:
        return this.say(key, {
          rule: last?.rule ?? "not-a-date",
          reason: reason || "no date can be read here",
          expected: "a date such as 2026-03-04",
          action: "Type it as year-month-day",
        });
    }
  }

  /** The row as one that takes no part, for the reason last said of it. */
  leftOut(): LeftOutRow {
    const why = this.issues.findLast(
      ({ row, severity, file }) => row === this.row && severity === "error" && file === this.file,
    );
    return {
      file: this.file,
      row: this.row,
      cells: this.cells,
      rule: why?.rule ?? "unusable-row",
      reason: why?.reason ?? "a cell it needs cannot be read",
    };
  }
}
