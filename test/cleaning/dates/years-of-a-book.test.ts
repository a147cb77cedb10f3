import { expect, test } from "vitest";
import { bookOf, rulesOf, trayOf } from "../book-of.ts";

const header = "Tray,Dose mL,Inoculated,Harvested,Fresh g,Outcome";
const sheet = (name: string, inoculated: string, harvested: string): string =>
  `${header}\n${name}1,5,${inoculated},${harvested},200,good\n${name}2,10,${inoculated},${harvested},210,good\n`;

test("a sheet of dates without years takes them from the book's other sheets, column by column, and says so", async () => {
  const book = await bookOf({
    "december.csv": sheet("A", "Dec 20", "Feb 18"),
    "january.csv": sheet("B", "2026-01-14", "2026-03-10"),
  });
  expect(trayOf(book, "A1")).toMatchObject({ inoculatedOn: "2025-12-20", harvestedOn: "2026-02-18" });
  expect(book.issues.filter(({ rule }) => rule === "no-year").map(({ severity }) => severity)).toEqual(
    Array.from({ length: 4 }, () => "change"),
  );
});

test.each([
  [
    "the book's sheets are years apart",
    { "b.csv": sheet("B", "2024-01-14", "2024-03-10"), "c.csv": sheet("C", "2026-01-14", "2026-03-10") },
  ],
  ["no other sheet has full dates", { "b.csv": sheet("B", "Jan 14", "Mar 10") }],
])("no year is made up where %s", async (_, others) => {
  const book = await bookOf({ "a.csv": sheet("A", "Dec 20", "Feb 18"), ...others });
  expect(trayOf(book, "A1").harvestedOn).toBeUndefined();
  expect(book.issues.some(({ rule, severity }) => rule === "no-year" && severity === "warning")).toBe(true);
  expect(rulesOf(book)).toContain("no-year");
});

test.each([
  ["behind a full date", "20 Dec 2025", "18 Feb", { inoculatedOn: "2025-12-20", harvestedOn: "2026-02-18" }],
  ["before a full date", "20 Dec", "18 Feb 2026", { inoculatedOn: "2025-12-20", harvestedOn: "2026-02-18" }],
  ["later than a crop lasts", "20 Jan 2026", "18 Nov", { harvestedOn: undefined }],
  ["before the tray was started, by a day", "20 Feb 2026", "19 Feb", { harvestedOn: undefined }],
])("a date without a year goes with the other dates of its row: %s", async (_, inoculated, harvested, expected) => {
  const book = await bookOf({ "a.csv": sheet("A", inoculated, harvested) });
  expect(trayOf(book, "A1")).toMatchObject(expected);
  const said = book.issues.filter(({ rule }) => rule === "no-year").map(({ severity }) => severity);
  expect(said[0]).toBe(expected.harvestedOn === undefined ? "warning" : "change");
});

test("a sheet with full dates of its own keeps to them", async () => {
  const own = `${header}\nA1,5,2024-12-18,2025-02-20,200,good\nA2,5,Dec 20,Feb 18,210,good\n`;
  const book = await bookOf({ "a.csv": own, "b.csv": sheet("B", "2026-01-14", "2026-03-10") });
  expect(trayOf(book, "A2")).toMatchObject({ inoculatedOn: "2024-12-20", harvestedOn: "2025-02-18" });
});

test.each([
  [
    "over new year, row by row",
    "2025",
    ["Nov 20,Jan 18", "Dec 27,Feb 25", "Jan 4,Mar 1"],
    ["2025-11-20", "2025-12-27", "2026-01-04"],
  ],
  [
    "sorted by dose rather than by day",
    "2025",
    ["Dec 27,Feb 25", "Jan 4,Mar 1", "Dec 27,Feb 20"],
    ["2025-12-27", "2026-01-04", "2025-12-27"],
  ],
  ["long after a row with its year", "2024", ["2025-03-01,2025-05-01", "Aug 4,Oct 1"], ["2025-03-01", "2025-08-04"]],
  ["after a row with its year", "2024", ["2025-12-20,2026-02-18", "Jan 4,Mar 1"], ["2025-12-20", "2026-01-04"]],
])("a stated year completes the dates of a sheet: %s", async (_, year, dates, expected) => {
  const rows = dates.map((pair, at) => `A${at + 1},${at % 2 === 0 ? 5 : 10},${pair},200,good`);
  const book = await bookOf({
    "a.csv": [header, ...rows, ""].join("\n"),
    "settings.csv": `key,value\nfirst_year,${year}\n`,
  });
  expect(book.trays.map(({ inoculatedOn }) => inoculatedOn)).toEqual(expected);
  for (const tray of book.trays) expect(tray.harvestedOn! > tray.inoculatedOn!).toBe(true);
  expect(book.issues.some(({ rule, severity }) => rule === "no-year" && severity === "warning")).toBe(false);
});

test("a year may be stated for one sheet alone", async () => {
  const settings = "key,value,sheet\nfirst_year,2024,a.csv\nfirst_year,2026,b.csv\n";
  const book = await bookOf({
    "a.csv": sheet("A", "Jan 14", "Mar 10"),
    "b.csv": sheet("B", "Jan 14", "Mar 10"),
    "settings.csv": settings,
  });
  expect([trayOf(book, "A1").inoculatedOn, trayOf(book, "B1").harvestedOn]).toEqual(["2024-01-14", "2026-03-10"]);
});

test("a number above 12 in one date shows the order of the others, with their years or without", async () => {
  const files = { "a.csv": sheet("A", "4/3", "28/4"), "settings.csv": "key,value\nfirst_year,2026\n" };
  expect(trayOf(await bookOf(files), "A1")).toMatchObject({ inoculatedOn: "2026-03-04", harvestedOn: "2026-04-28" });
});

test("without a year and with an order that is open, the order is asked first, then the year", async () => {
  const files = { "a.csv": sheet("A", "4/3", "8/4"), "settings.csv": "key,value\nfirst_year,2026\n" };
  const asked = async (settings: string): Promise<unknown[]> => {
    const { issues } = await bookOf({ ...files, "settings.csv": `key,value\n${settings}` });
    return [...new Set(issues.flatMap(({ setting, severity }) => (severity === "warning" ? (setting ?? []) : [])))];
  };
  expect(await asked("")).toEqual(["date_order"]);
  expect(await asked("date_order,day first\n")).toEqual(["first_year"]);
  expect(await asked("date_order,day first\nfirst_year,2026\n")).toEqual([]);
});
