import { describe, expect, test } from "vitest";
import { type DateConventions, parseDate } from "../../../src/cleaning/dates/parse-date.ts";

const dayFirst: DateConventions = { order: "day first", epoch: "" };
const monthFirst: DateConventions = { order: "month first", epoch: "" };
const yearFirst: DateConventions = { order: "year first", epoch: "" };

type Logged = [cell: string, reading: Record<string, unknown>, rules: string, conventions?: DateConventions];

/** Each change to what was typed is in the log: a cell, the date or why not, and the rules that speak. */
const logged: Logged[] = [
  ["2026-03-14", { iso: "2026-03-14" }, ""],
  [" 2026-03-14 ", { iso: "2026-03-14" }, "surrounding-space"],
  ["2026-03-14\u00a0", { iso: "2026-03-14" }, "surrounding-space"],
  ["2026\u201303\u201314", { iso: "2026-03-14" }, "surrounding-space"],
  ["3 Mar \u201926", { iso: "2026-03-03" }, "surrounding-space two-digit-year date-format"],
  ["2026/3/4", { iso: "2026-03-04" }, "date-format"],
  ["2026.3.4.", { iso: "2026-03-04" }, "date-format"],
  ["20260314", { iso: "2026-03-14" }, "date-format"],
  ["14/3/2026", { iso: "2026-03-14" }, "date-format"],
  ["14.3.26", { iso: "2026-03-14" }, "two-digit-year date-format"],
  ["3/3/2026", { iso: "2026-03-03" }, "date-format"],
  ["3/3/2026", { iso: "2026-03-03" }, "date-format", dayFirst],
  ["3/3/2026", { iso: "2026-03-03" }, "date-format", monthFirst],
  ["3/4/2026", { kind: "ambiguous", dayFirst: "2026-04-03", monthFirst: "2026-03-04" }, "day-or-month"],
  ["3/4/26", { kind: "ambiguous" }, "two-digit-year day-or-month"],
  ["3/4/2026", { iso: "2026-04-03" }, "date-order", dayFirst],
  ["3/4/2026", { iso: "2026-03-04" }, "date-order", monthFirst],
  ["26/3/4", { iso: "2026-03-04" }, "two-digit-year date-format", yearFirst],
  // one digit is no year
  ["6/3/26", { kind: "ambiguous" }, "two-digit-year day-or-month", yearFirst],
  // whose other order gives no real day: against the order that was agreed on, or not
  ["13/4/2026", { iso: "2026-04-13" }, "date-format", dayFirst],
  ["13/4/2026", { iso: "2026-04-13" }, "date-order", monthFirst],
  ["13/4/2026", { iso: "2026-04-13" }, "date-format", yearFirst],
  ["4/13/2026", { iso: "2026-04-13" }, "date-format", monthFirst],
  ["4/13/2026", { iso: "2026-04-13" }, "date-order", dayFirst],
  ["4/13/2026", { iso: "2026-04-13" }, "date-format", yearFirst],
  ["14 3 2026", { iso: "2026-03-14" }, "date-format"],
  ["14 / 3 / 2026", { iso: "2026-03-14" }, "date-format"],
  ["14/3 2026", { iso: "2026-03-14" }, "date-format"],
  ["2026/03-14", { iso: "2026-03-14" }, "date-format"],
  ["2026-03/14", { iso: "2026-03-14" }, "date-format"],
  // two digits at both ends: the year can stand first or last
  ["26-01-14", { kind: "ambiguous", yearFirst: "2026-01-14", dayFirst: "2014-01-26", monthFirst: "" }, "day-or-month"],
  [
    "12-11-10",
    { kind: "ambiguous", yearFirst: "2012-11-10", dayFirst: "2010-11-12", monthFirst: "2010-12-11" },
    "day-or-month",
  ],
  ["80-01-02", { kind: "unreadable" }, "impossible-date"],
  ["01-02-80", { kind: "ambiguous", dayFirst: "1980-02-01", monthFirst: "1980-01-02" }, "two-digit-year day-or-month"],
  ["12-11-10", { iso: "2010-11-12" }, "two-digit-year date-order", dayFirst],
  ["12-11-10", { iso: "2012-11-10" }, "two-digit-year date-format", yearFirst],
  ["26-1-5", { iso: "2026-01-05" }, "two-digit-year date-format", yearFirst],
  ["14-13-26", { kind: "unreadable" }, "impossible-date"],
  ["4-3-26", { kind: "ambiguous", dayFirst: "2026-03-04", monthFirst: "2026-04-03" }, "two-digit-year day-or-month"],
  ["14/03/26", { iso: "2026-03-14" }, "two-digit-year date-format"],
  // without a year
  ["3/4", { kind: "yearless", days: [on(4, 3), on(3, 4)] }, "no-year"],
  ["3/4", { kind: "yearless", days: [on(4, 3)] }, "no-year", dayFirst],
  ["3/4", { kind: "yearless", days: [on(3, 4)] }, "no-year", monthFirst],
  ["3/3", { kind: "yearless", days: [on(3, 3)] }, "no-year"],
  ["3/3", { kind: "yearless", days: [on(3, 3)] }, "no-year", dayFirst],
  ["3/3", { kind: "yearless", days: [on(3, 3)] }, "no-year", monthFirst],
  ["13/4", { kind: "yearless", days: [on(4, 13)] }, "no-year"],
  ["4/13", { kind: "yearless", days: [on(4, 13)] }, "no-year"],
  ["29/2", { kind: "yearless", days: [on(2, 29)] }, "no-year"],
  ["4.3.", { kind: "yearless", days: [on(3, 4), on(4, 3)] }, "no-year"],
  ["13/13", { kind: "unreadable" }, "impossible-date"],
  ["30/2", { kind: "unreadable" }, "impossible-date"],
  ["Feb 29", { kind: "yearless", days: [on(2, 29)] }, "no-year"],
  ["about 3 Mar", { kind: "yearless", days: [on(3, 3)] }, "approximate no-year"],
  ["Feb 30", { kind: "unreadable" }, "impossible-date"],
  // with the month's name
  ["3 Mar 2026", { iso: "2026-03-03" }, "date-format"],
  ["2026 Mar 3", { iso: "2026-03-03" }, "date-format"],
  ["2026 3 Mar", { iso: "2026-03-03" }, "date-format"],
  ["3 2026 Mar", { iso: "2026-03-03" }, "date-format"],
  ["2026-Mar-03", { iso: "2026-03-03" }, "date-format"],
  ["3 Mar 26", { iso: "2026-03-03" }, "two-digit-year date-format"],
  ["3Mar26", { iso: "2026-03-03" }, "two-digit-year date-format"],
  ["3Mar", { kind: "yearless", days: [on(3, 3)] }, "no-year"],
  ["the 3rd of March, 2026", { iso: "2026-03-03" }, "date-format"],
  ["30 Feb 2026", { kind: "unreadable" }, "impossible-date"],
  // around a date
  ["Tue 3 Mar 2026", { iso: "2026-03-03" }, "date-format date-format"],
  ["Tue, 2026-03-03", { iso: "2026-03-03" }, "date-format"],
  ["mar 3 2026", { iso: "2026-03-03" }, "date-format"],
  ["2026-03-14 13:30", { iso: "2026-03-14" }, "time-of-day"],
  ["2026-03-14T13:30:05.25+02:00", { iso: "2026-03-14" }, "time-of-day"],
  ["2026-03-14 1:30 p.m.", { iso: "2026-03-14" }, "time-of-day"],
  ["2026-03-14 1:30:00pm", { iso: "2026-03-14" }, "time-of-day"],
  ["2026-03-14 13:30 +0200", { iso: "2026-03-14" }, "time-of-day"],
  ["2026-03-14  13:30", { iso: "2026-03-14" }, "surrounding-space time-of-day"],
  ["2026-03-14T13:30Z", { iso: "2026-03-14" }, "time-of-day"],
  ...[
    "~2026-03-14",
    "≈ 2026-03-14",
    "c. 2026-03-14",
    "ca. 2026-03-14",
    "ca 2026-03-14",
    "circa 2026-03-14",
    "about 2026-03-14",
  ].map(about),
  ...["around 2026-03-14", "approx 2026-03-14", "approx. 2026-03-14", "2026-03-14?", "2026-03-14 ??"].map(about),
  ...["2026-03-14ish", "2026-03-14 approx.", "2026-03-14 approx"].map(about),
  // a spreadsheet's day count: 1 January 1980 to 31 December 2100
  ["45000", { kind: "serial", in1900: "2023-03-15", in1904: "2027-03-16" }, "serial-date"],
  ["45000.25", { kind: "serial", in1900: "2023-03-15" }, "serial-date"],
  ["45000,5", { kind: "serial", in1900: "2023-03-15" }, "serial-date"],
  ["45000?", { iso: "2023-03-15", approximate: true }, "approximate serial-date", { order: "", epoch: "1900" }],
  ["45000", { iso: "2027-03-16" }, "serial-date", { order: "", epoch: "1904" }],
  ["29221", { kind: "serial", in1900: "1980-01-01" }, "serial-date"],
  ["29220", { kind: "unreadable" }, "not-a-date"],
  ["73415", { kind: "serial", in1900: "2100-12-31" }, "serial-date"],
  ["73416", { kind: "unreadable" }, "not-a-date"],
  // years that nobody means
  ["1980-01-01", { iso: "1980-01-01" }, ""],
  ["2100-12-31", { iso: "2100-12-31" }, ""],
  ["1979-12-31", { kind: "unreadable" }, "impossible-date"],
  ["2101-01-01", { kind: "unreadable" }, "impossible-date"],
  ["14/3/79", { iso: "2079-03-14" }, "two-digit-year date-format"],
  ["14/3/80", { iso: "1980-03-14" }, "two-digit-year date-format"],
  // no dates
  ["20260230", { kind: "unreadable" }, "impossible-date"],
  ...["Mar 2026", "Mar 202", "03 25 Sep", "26 Mar 3", "3 Mar 202", "202 Mar 3", "3 Mar 20266", "3 4 5 Mar"].map(noDate),
  ...["Mar", "3 Mar x", "foo 3 Mar 2026", "1/2/202", "1/2/6", "12", "2026", "good", "no mold", "x".repeat(61)].map(
    noDate,
  ),
  // what stands before, behind or among the parts of a date is not passed over
  ...["foo 2026-03-14", "2026-03-14 foo", "2026-03-14 13:30 x", "x14/3/2026", "14/3/2026x", "14x/3/2026"].map(noDate),
  ...["14/3x/2026", "14/3x2026", "120260314", "202603145", "A45000", "45000g", "x3/4", "3/4x", "2026-03-1?4"].map(
    noDate,
  ),
  ...["2026-0a-14", "2026-03-1:", "2026-03-1/", "20a6-03-14", "x3Mar26", "3Mar26x", "3 Mar x2", "3 Mar x026"].map(
    noDate,
  ),
  ...["3 Mar 202x", "3 Mar 2'6", "Mar 3 2026 5", "2026 de 3", "the 3rd", "12-11-5", "26-1-5"].map(noDate),
  [" #REF! ", { kind: "unreadable" }, "spreadsheet-error"],
  ["n/a", { kind: "missing", how: "not applicable" }, "missing-word"],
  ["contam", { kind: "outcome-word", says: "contaminated", queried: false }, "outcome-word"],
  ["contam?", { kind: "outcome-word", says: "contaminated", queried: true }, "outcome-word"],
];

function noDate(cell: string): Logged {
  return [cell, { kind: "unreadable" }, "not-a-date"];
}

function about(cell: string): Logged {
  return [cell, { iso: "2026-03-14", approximate: true }, "approximate"];
}

function on(month: number, day: number): { month: number; day: number } {
  return { month, day };
}

describe("what the log says of a date", () => {
  test.each(logged)("%j: %j, by %j", (cell, reading, rules, conventions) => {
    const found = parseDate(cell, conventions);
    expect(found).toMatchObject("iso" in reading ? { kind: "date", approximate: false, ...reading } : reading);
    expect(found.changes.map(({ rule }) => rule).join(" ")).toBe(rules);
  });
});

test("dates whose order is against the one agreed on, and the system of a day count, are told apart in the log", () => {
  const reasons = (cell: string, conventions: DateConventions): string =>
    parseDate(cell, conventions)
      .changes.map(({ reason }) => reason)
      .join("; ");
  expect(reasons("13/4/2026", monthFirst)).toContain("day first, against the order stated");
  expect(reasons("4/13/2026", dayFirst)).toContain("month first, against the order stated");
  expect(reasons("13/4/2026", dayFirst)).toContain("day first: the other order gives no real day");
  expect(reasons("4/13/2026", monthFirst)).toContain("month first: the other order gives no real day");
  expect(reasons("3/3/2026", dayFirst)).not.toContain("order");
  expect(reasons("45000", { order: "", epoch: "1904" })).toContain("in the 1904 system");
  expect(reasons("45000", { order: "", epoch: "" })).not.toContain("system");
});
