import { isDigit } from "../../records/words/digits.ts";
import { missingWord, whyMissing } from "../rules/missing-word.ts";
import { isSpreadsheetError } from "../rules/spreadsheet-error.ts";
import { readOutcome, type TraySaid } from "../values/outcome-words.ts";
import type { Change, Missing } from "../values/quantity-reading.ts";
import { bareDate } from "./bare-date.ts";
import { isoDate, isRealDay, serialDate } from "./calendar.ts";
import { monthNamed } from "./month-names.ts";

/** What one cell of dates says. Dates are ISO 8601. */
export type DateReading =
  | { kind: "date"; iso: string; approximate: boolean; changes: Change[] }
  /** numbers that can be in more than one order; each reading where that day exists, "" where it does not */
  | { kind: "ambiguous"; dayFirst: string; monthFirst: string; yearFirst?: string; changes: Change[] }
  /** month and day without a year; two readings where the order is open too */
  | { kind: "yearless"; days: { month: number; day: number }[]; changes: Change[] }
  /** a spreadsheet's day count, and no system agreed on */
  | { kind: "serial"; in1900: string; in1904: string; changes: Change[] }
  | { kind: "missing"; how: Missing; changes: Change[] }
  | { kind: "outcome-word"; says: TraySaid; queried: boolean; changes: Change[] }
  | { kind: "unreadable"; expected: string; changes: Change[] };

/** What the dates of a column (or the settings) have agreed on; "" is not known. */
export interface DateConventions {
  order: "" | "day first" | "month first" | "year first";
  epoch: "" | "1900" | "1904";
}

const nothingAgreed: Readonly<DateConventions> = { order: "", epoch: "" };
const example = "a date such as 2026-03-14";

const unreadable = (rule: string, reason: string): DateReading => ({
  kind: "unreadable",
  expected: example,
  changes: [{ rule, reason }],
});

const impossible = (): DateReading => unreadable("impossible-date", "there is no such day in the calendar");

interface Typed {
  changes: Change[];
  approximate: boolean;
}

function dated(year: number, month: number, day: number, { changes, approximate }: Typed): DateReading {
  if (!isRealDay(year, month, day)) return impossible();
  if (year < 1980 || year > 2100) return unreadable("impossible-date", "the year is out of any likely range");
  return { kind: "date", iso: isoDate(year, month, day), approximate, changes };
}

/** 26 is 2026; nobody keeps tray sheets from before 1980. */
function fullYear(typed: string, changes: Change[]): number {
  if (typed.length !== 2) return Number(typed);
  changes.push({ rule: "two-digit-year", reason: "a year of two digits" });
  const year = Number(typed);
  return year < 80 ? 2000 + year : 1900 + year;
}

const isoIfReal = (year: number, month: number, day: number): string =>
  isRealDay(year, month, day) ? isoDate(year, month, day) : "";

/** "26-01-14": two digits at either end and hyphens between, so that the year can stand first or last. */
function openOrder(a: number, b: number, c: number): (DateReading & { kind: "ambiguous" }) | undefined {
  const yearFirst = isoIfReal(2000 + a, b, c);
  const [dayFirst, monthFirst] = [isoIfReal(2000 + c, b, a), isoIfReal(2000 + c, a, b)];
  // where the month can stand first, the day can as well: the second number is a month
  if (yearFirst === "" || dayFirst === "") return undefined;
  const reason = "the year can be the first or the last number, and nothing in the sheet decides";
  return { kind: "ambiguous", dayFirst, monthFirst, yearFirst, changes: [{ rule: "day-or-month", reason }] };
}

function threeNumbers(
  first: string,
  second: string,
  third: string,
  typed: Typed,
  order: DateConventions["order"],
  dashed: boolean,
): DateReading {
  const { changes } = typed;
  if (first.length === 4) {
    changes.push({ rule: "date-format", reason: "a date in another format" });
    return dated(Number(first), Number(second), Number(third), typed);
  }
  const [a, b] = [Number(first), Number(second)];
  if (order === "year first" && first.length === 2 && third.length <= 2) {
    const year = fullYear(first, changes);
    changes.push({ rule: "date-format", reason: "year first, as agreed for the column" });
    return dated(year, b, Number(third), typed);
  }
  if (order === "" && dashed && first.length === 2 && third.length === 2) {
    const inOrder = openOrder(a, b, Number(third));
    if (inOrder !== undefined) return { ...inOrder, changes: [...changes, ...inOrder.changes] };
  }
  if (third.length === 3 || third.length === 1) return unreadable("not-a-date", "the year is not clear");
  const year = fullYear(third, changes);
  const dayFirst = isRealDay(year, b, a);
  const monthFirst = isRealDay(year, a, b);
  if (!dayFirst && !monthFirst) return impossible();
  if (a === b || dayFirst !== monthFirst) {
    const agrees = a === b || order === "" || order === "year first" || (order === "day first") === dayFirst;
    changes.push(
      agrees
        ? {
            rule: "date-format",
            reason:
              a === b
                ? "a date in another format"
                : `${dayFirst ? "day" : "month"} first: the other order gives no real day`,
          }
        : {
            rule: "date-order",
            reason: `${dayFirst ? "day" : "month"} first, against the order stated, because that one gives no real day`,
          },
    );
    return dayFirst ? dated(year, b, a, typed) : dated(year, a, b, typed);
  }
  if (order === "day first" || order === "month first") {
    changes.push({ rule: "date-order", reason: `${order}, as agreed for the column` });
    return order === "day first" ? dated(year, b, a, typed) : dated(year, a, b, typed);
  }
  return {
    kind: "ambiguous",
    dayFirst: isoDate(year, b, a),
    monthFirst: isoDate(year, a, b),
    changes: [
      ...changes,
      { rule: "day-or-month", reason: "day and month can be swapped, and nothing in the sheet decides" },
    ],
  };
}

function twoNumbers(first: string, second: string, { changes }: Typed, order: DateConventions["order"]): DateReading {
  const [a, b] = [Number(first), Number(second)];
  const days: { month: number; day: number }[] = [];
  if (order !== "month first" && isRealDay(2024, b, a)) days.push({ month: b, day: a });
  if (order !== "day first" && a !== b && isRealDay(2024, a, b)) days.push({ month: a, day: b });
  if (order === "month first" && a === b && isRealDay(2024, a, b)) days.push({ month: a, day: b });
  if (days.length === 0) return impossible();
  return { kind: "yearless", days, changes: [...changes, { rule: "no-year", reason: "a date without its year" }] };
}

/** Small words between the parts of a date: "3 de marzo de 2026", "3rd of March", "3 marca 2026 r.". */
const betweenParts = new Set("the of de del den der le el il lo am il r roku dia op".split(" "));

function withMonthName(text: string, typed: Typed): DateReading | undefined {
  if (!/\d/.test(text)) return undefined;
  const tokens = text
    .toLowerCase()
    .replace(/(\d)(?:st|nd|rd|th|er|e|º|ª|°|\.)(?=[\s,.-]|$)/g, "$1")
    .split(/[\s,./-]/)
    .filter((token) => token !== "" && !betweenParts.has(token));
  const glued = tokens.flatMap(
    (token) =>
      token
        .match(/^(\d{1,2})(\p{L}{3,})(\d{2,4})?$/u)
        ?.slice(1)
        .filter((part) => part !== undefined) ?? [token],
  );
  const months = glued.map((token) => (/\p{L}/u.test(token) ? monthNamed(token) : undefined));
  const at = months.findIndex((month) => month !== undefined);
  if (at < 0) return undefined;
  const month = months[at]!;
  const numbers = glued.filter((_, index) => index !== at).map((token) => token.replace(/^'/, ""));
  if (numbers.length === 0 || numbers.length > 2 || !numbers.every((token) => /^\d{1,4}$/.test(token)))
    return undefined;
  const { changes } = typed;
  if (numbers.length === 1) {
    if (numbers[0]!.length > 2) return unreadable("not-a-date", "a month without its day");
    const day = Number(numbers[0]);
    if (!isRealDay(2024, month, day)) return impossible();
    return {
      kind: "yearless",
      days: [{ month, day }],
      changes: [...changes, { rule: "no-year", reason: "a date without its year" }],
    };
  }
  const [first, second] = numbers as [string, string];
  // "03 25 Sep": either number can be the year
  const isLast = at === glued.length - 1;
  if (isLast && first.length <= 2 && second.length <= 2) return unreadable("not-a-date", "the year is not clear");
  const yearFirst = first.length === 4;
  if (!yearFirst && second.length !== 4 && second.length !== 2)
    return unreadable("not-a-date", "the year is not clear");
  const year = fullYear(yearFirst ? first : second, changes);
  changes.push({ rule: "date-format", reason: "a date with its month's name" });
  return dated(year, month, Number(yearFirst ? second : first), typed);
}

/** A spreadsheet's day count: a date once it is known from which day it counts. */
function dayCount(days: number, { changes, approximate }: Typed, epoch: DateConventions["epoch"]): DateReading {
  const [in1900, in1904] = [serialDate(days, "1900"), serialDate(days, "1904")];
  const system = epoch === "" ? "" : `, in the ${epoch} system`;
  changes.push({ rule: "serial-date", reason: `a spreadsheet's day count${system}` });
  if (epoch === "") return { kind: "serial", in1900, in1904, changes };
  return { kind: "date", iso: epoch === "1900" ? in1900 : in1904, approximate, changes };
}

/** Whether a text has the shape YYYY-MM-DD. */
function isIsoShape(text: string): boolean {
  if (text.length !== 10 || text.charCodeAt(4) !== 45 || text.charCodeAt(7) !== 45) return false;
  for (let at = 0; at < 10; at++) if (at !== 4 && at !== 7 && !isDigit(text.charCodeAt(at))) return false;
  return true;
}

/**
 * Reads one cell of dates as a grower types it.
 * @param text the cell as typed
 * @param conventions what the column agrees on; an open order leaves "3/4/26" ambiguous
 * @example parseDate("March 3rd, 2026") // { kind: "date", iso: "2026-03-03", ... }
 */
export function parseDate(text: string, { order, epoch }: Readonly<DateConventions> = nothingAgreed): DateReading {
  if (isIsoShape(text)) {
    return dated(+text.slice(0, 4), +text.slice(5, 7), +text.slice(8, 10), { changes: [], approximate: false });
  }
  const how = missingWord(text);
  if (how !== undefined) return { kind: "missing", how, changes: [{ rule: "missing-word", reason: whyMissing(how) }] };
  if (text.length > 60) return unreadable("not-a-date", "a text, not a date");
  if (isSpreadsheetError(text.trim())) return unreadable("spreadsheet-error", "a spreadsheet's error, not a value");
  const { rest, changes, approximate } = bareDate(text);
  const typed: Typed = { changes, approximate };
  if (isIsoShape(rest)) return dated(+rest.slice(0, 4), +rest.slice(5, 7), +rest.slice(8, 10), typed);
  const three =
    /^(\d{1,4})\s*[./\s-]\s*(\d{1,2})\s*[./\s-]\s*'?(\d{1,4})\.?$/.exec(rest) ??
    /^((?:19|20)\d{2})(\d{2})(\d{2})$/.exec(rest);
  if (three !== null) return threeNumbers(three[1]!, three[2]!, three[3]!, typed, order, /\d-\d+-\d/.test(rest));
  const days = /^\d{5}(?:[.,]\d+)?$/.test(rest) ? Number(rest.replace(",", ".")) : 0;
  if (days >= 29_221 && days < 73_416) return dayCount(days, typed, epoch);
  const two = /^(\d{1,2})\s*[./-]\s*(\d{1,2})\.?$/.exec(rest);
  if (two !== null) return twoNumbers(two[1]!, two[2]!, typed, order);
  const named = withMonthName(rest, typed);
  if (named !== undefined) return named;
  const found = readOutcome(text);
  if (found?.whole && found.says !== "good" && found.says !== "not lost") {
    const reason = "a word for what became of the tray, not a date";
    const { says, queried } = found;
    return { kind: "outcome-word", says, queried, changes: [{ rule: "outcome-word", reason }] };
  }
  return unreadable("not-a-date", "no date can be read here");
}
