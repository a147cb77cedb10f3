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
  [
    "the days lie outside of what grew",
    { "b.csv": `${header}\nB1,5,2026-01-14,,200,good\nB2,5,2026-01-15,,210,good\n` },
  ],
])("no year is made up where %s", async (_, others) => {
  const book = await bookOf({ "a.csv": sheet("A", "Dec 20", "Feb 18"), ...others });
  expect(trayOf(book, "A1").harvestedOn).toBeUndefined();
  expect(book.issues.some(({ rule, severity }) => rule === "no-year" && severity === "warning")).toBe(true);
  expect(rulesOf(book)).toContain("no-year");
});

test("a sheet with full dates of its own keeps to them", async () => {
  const own = `${header}\nA1,5,2024-12-18,2025-02-20,200,good\nA2,5,Dec 20,Feb 18,210,good\n`;
  const book = await bookOf({ "a.csv": own, "b.csv": sheet("B", "2026-01-14", "2026-03-10") });
  expect(trayOf(book, "A2")).toMatchObject({ inoculatedOn: "2024-12-20", harvestedOn: "2025-02-18" });
});
