import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { dueText, listDue, printDue } from "../../src/cli/command-due.ts";
import { openBook } from "../../src/cli/open-book.ts";
import { ownOutput } from "../../src/engine/own-output.ts";

const demo = fileURLToPath(new URL("../../data-samples/demo-book", import.meta.url));
const book = await openBook(demo, { say: () => {}, done: () => {} });

test("the demo book's list tells what is growing, day by day, and from what", () => {
  const lines = dueText(listDue(book, "2026-08-28"));
  expect(lines[0]).toMatch(/Fri 28 Aug 2026: \d+ trays are growing\.$/);
  expect(lines[1]).toMatch(/^From days of \d+ trays of /);
  expect(lines.some((line) => /^ {2}harvest +cook C8, .*, 8 of 10$/.test(line))).toBe(true);
});

test("the same book and day give the same bytes, and a newer file may take the place of ours alone", () => {
  const [one, two] = [listDue(book, "2026-08-28"), listDue(book, "2026-08-28")];
  expect(one).toEqual(two);
  expect(ownOutput(one.calendar)).toBe("calendar");
  expect(ownOutput(one.week)).toBe("week");
  expect(ownOutput(one.calendar.replace("Gramwright", "Other"))).toBeUndefined();
});

test("the page for paper has each of the seven days", () => {
  const { week } = listDue(book, "2026-08-28");
  for (const day of ["Fri 28 Aug", "Sat 29 Aug", "Thu 3 Sep"]) expect(week).toContain(`>${day}</th>`);
  expect(week).not.toContain("<script");
});

test("after the sheets' last date the list says that it does not know what was done since", () => {
  expect(dueText(listDue(book, "2026-10-20")).join("\n")).toMatch(
    /The sheets end on .*: what was done since then is not known/,
  );
});

test("a book in which nothing grows says so", () => {
  const ended = { ...book, trays: book.trays.filter(({ outcome }) => outcome !== "growing") };
  expect(dueText(listDue(ended, "2027-01-05"))).toEqual([expect.stringMatching(/no tray is growing\.$/)]);
});

test("a date that is none is refused with an example", async () => {
  await expect(printDue(demo, { on: "10/3/2026" })).rejects.toThrow("--on: give a date as year-month-day");
});
