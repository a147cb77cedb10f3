import { describe, expect, test } from "vitest";
import { dayNumber, isoOfDay, serialDate } from "../../../src/cleaning/dates/calendar.ts";
import { completeYear } from "../../../src/cleaning/dates/complete-year.ts";
import { type DateConventions, type DateReading, parseDate } from "../../../src/cleaning/dates/parse-date.ts";

function text(reading: DateReading): string {
  switch (reading.kind) {
    case "date":
      return reading.approximate ? `about ${reading.iso}` : reading.iso;
    case "ambiguous":
      return `${reading.dayFirst} or ${reading.monthFirst}`;
    case "yearless":
      return reading.days.map(({ month, day }) => `${month}-${day}`).join(" or ");
    case "serial":
      return `${reading.in1900} or ${reading.in1904}`;
    case "outcome-word":
      return reading.says;
    case "missing":
      return `missing: ${reading.how}`;
    case "unreadable":
      return `unreadable: ${reading.changes.at(-1)!.rule}`;
  }
}

const cases: [cell: string, says: string, conventions?: DateConventions][] = [
  ["2026-03-14", "2026-03-14"],
  ["2026/3/4", "2026-03-04"],
  ["2026.03.04", "2026-03-04"],
  ["20260314", "2026-03-14"],
  ["14/3/2026", "2026-03-14"],
  ["3/14/2026", "2026-03-14"],
  ["14.3.26", "2026-03-14"],
  ["3/4/26", "2026-04-03 or 2026-03-04"],
  ["3/4/26", "2026-04-03", { order: "day first", epoch: "" }],
  ["3/4/26", "2026-03-04", { order: "month first", epoch: "" }],
  ["26/3/4", "2026-03-04", { order: "year first", epoch: "" }],
  ["4/13/26", "2026-04-13", { order: "day first", epoch: "" }],
  ["3/3/26", "2026-03-03"],
  ["3 Mar 2026", "2026-03-03"],
  ["March 3rd, 2026", "2026-03-03"],
  ["3-Mar-26", "2026-03-03"],
  ["03MAR2026", "2026-03-03"],
  ["3. März 2026", "2026-03-03"],
  ["12 août 2026", "2026-08-12"],
  ["3 de marzo de 2026", "2026-03-03"],
  ["3 gennaio 2026", "2026-01-03"],
  ["3 mrt 2026", "2026-03-03"],
  ["Tue 3 Mar 2026", "2026-03-03"],
  ["2026-03-14 13:30", "2026-03-14"],
  ["2026-03-14T00:00:00Z", "2026-03-14"],
  ["~3 Mar 2026", "about 2026-03-03"],
  ["2026-03-14?", "about 2026-03-14"],
  ["March 3rd", "3-3"],
  ["3/4", "4-3 or 3-4"],
  ["3/4", "4-3", { order: "day first", epoch: "" }],
  ["45000", "2023-03-15 or 2027-03-16"],
  ["45000", "2023-03-15", { order: "", epoch: "1900" }],
  ["45000.5", "2027-03-16", { order: "", epoch: "1904" }],
  ["2026-02-30", "unreadable: impossible-date"],
  ["31/4/2026", "unreadable: impossible-date"],
  ["13/13/2026", "unreadable: impossible-date"],
  ["2026-13-01", "unreadable: impossible-date"],
  ["29/2/2024", "2024-02-29"],
  ["29/2/2026", "unreadable: impossible-date"],
  ["Mar 2026", "unreadable: not-a-date"],
  ["yesterday", "unreadable: not-a-date"],
  ["#REF!", "unreadable: spreadsheet-error"],
  ["-", "missing: dash"],
  ["n/a", "missing: not applicable"],
  ["contam", "contaminated"],
  ["not yet", "pending"],
];

describe("dates as growers type them", () => {
  test.each(cases)("%j: %s", (cell, says, conventions) => {
    expect(text(conventions === undefined ? parseDate(cell) : parseDate(cell, conventions))).toBe(says);
  });
});

test("serial 45000 is 15 March 2023; 1904 dates are 1462 days later", () => {
  // ECMA-376 part 1, 18.17.4 (from memory): 1900-01-01 is 1, with the leap day that never was; 1904-01-01 is 0
  expect(serialDate(61, "1900")).toBe("1900-03-01");
  expect(serialDate(0, "1904")).toBe("1904-01-01");
  expect(dayNumber(serialDate(45000, "1904")) - dayNumber(serialDate(45000, "1900"))).toBe(1462);
  expect(isoOfDay(dayNumber("2024-02-29"))).toBe("2024-02-29");
});

describe("a date without its year", () => {
  const march3 = [{ month: 3, day: 3 }];
  const winter = { first: "2025-12-20", last: "2026-02-16" };
  test("takes the only year within a crop of the column's full dates", () => {
    expect(completeYear(march3, 1, [], winter)).toBe("2026-03-03");
    expect(completeYear([{ month: 1, day: 5 }], 1, [], winter)).toBe("2026-01-05");
    expect(completeYear([{ month: 12, day: 24 }], 1, [], winter)).toBe("2025-12-24");
  });
  test("the tray's own dates must allow it", () => {
    expect(completeYear(march3, 1, [{ stage: 0, iso: "2026-02-16" }], winter)).toBe("2026-03-03");
    expect(completeYear(march3, 1, [{ stage: 0, iso: "2026-03-16" }], winter)).toBeUndefined();
    expect(completeYear([{ month: 1, day: 5 }], 1, [{ stage: 0, iso: "2025-02-20" }], winter)).toBeUndefined();
  });
  test("stays open where two years fit, or none", () => {
    expect(completeYear([{ month: 8, day: 1 }], 1, [], winter)).toBeUndefined();
    expect(completeYear(march3, 1, [], { first: "2024-02-01", last: "2026-02-16" })).toBeUndefined();
  });
  test("stays open when day and month are too", () => {
    const either = [
      { month: 4, day: 3 },
      { month: 3, day: 4 },
    ];
    expect(completeYear(either, 1, [{ stage: 0, iso: "2026-02-16" }], winter)).toBeUndefined();
  });
});

test.each([
  ["3 marca 2026", "2026-03-03"],
  ["3 marca 2026 r.", "2026-03-03"],
  ["12 paź 2026", "2026-10-12"],
  ["3 de março de 2026", "2026-03-03"],
  ["1º de maio de 2026", "2026-05-01"],
  ["sex., 6 de mar. de 2026", "2026-03-06"],
  ["3 de marzo de 2026", "2026-03-03"],
  ["1er août 2026", "2026-08-01"],
  ["mar. 3 mars 2026", "2026-03-03"],
  ["lunedì 2 marzo 2026", "2026-03-02"],
  ["2. Jänner 2026", "2026-01-02"],
  ["do 5 mrt 2026", "2026-03-05"],
  ["czwartek, 5 marca 2026", "2026-03-05"],
])("months and days of eight languages: %j is %s", (cell, iso) => {
  expect(parseDate(cell)).toMatchObject({ kind: "date", iso });
});
