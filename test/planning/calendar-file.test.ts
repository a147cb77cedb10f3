import { expect, test } from "vitest";
import { dueList } from "../../analyses/due/due-list.ts";
import { dateOfDay } from "../../src/measures/day-number.ts";
import { calendarFile } from "../../src/planning/calendar-file.ts";
import { trialOfTrays } from "../analyses/demo-records.ts";
import { dueBook, firstDay } from "../analyses/due-book.ts";

const entry = {
  uid: "harvest-1@gramwright",
  from: "2026-03-10",
  to: "2026-03-14",
  title: "Harvest",
  description: "6 trays",
};
const lines = (text: string) => text.split("\r\n");

test("a calendar is whole-day entries between CRLF, with the end after the last day", () => {
  // RFC 5545, sections 3.1 and 3.6.1: lines end in CRLF; a whole-day DTEND is not part of the entry
  const text = calendarFile([entry], "Trays due", "2026-03-09");
  expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  expect(text.endsWith("END:VCALENDAR\r\n")).toBe(true);
  expect(lines(text)).toEqual([
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Gramwright//Trays due//EN",
    "CALSCALE:GREGORIAN",
    "X-WR-CALNAME:Trays due",
    "BEGIN:VEVENT",
    "UID:harvest-1@gramwright",
    "DTSTAMP:20260309T000000Z",
    "DTSTART;VALUE=DATE:20260310",
    "DTEND;VALUE=DATE:20260315",
    "SUMMARY:Harvest",
    "DESCRIPTION:6 trays",
    "TRANSP:TRANSPARENT",
    "END:VEVENT",
    "END:VCALENDAR",
    "",
  ]);
});

test("text is escaped: backslash, semicolon, comma, line break; control characters go", () => {
  // RFC 5545, section 3.3.11
  const text = calendarFile([{ ...entry, title: "a\\b;c,d\r\ne\u0007f" }], "x", "2026-03-09");
  expect(lines(text)).toContain("SUMMARY:a\\\\b\\;c\\,d\\nef");
});

test.each(["é".repeat(90), "🍄".repeat(60), "x".repeat(67), "x".repeat(68), "x".repeat(400)])(
  "no line is longer than 75 octets and unfolding gives it back: %s",
  (title) => {
    // RFC 5545, section 3.1: a long line is folded by CRLF and one space, never inside a character
    const text = calendarFile([{ ...entry, title }], "x", "2026-03-09");
    for (const line of lines(text)) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    expect(text).not.toContain("\uFFFD");
    expect(lines(text.replaceAll("\r\n ", ""))).toContain(`SUMMARY:${title}`);
  },
);

test("a month's and a year's end, and a leap day, are followed by the right day", () => {
  const end = (to: string) => /DTEND;VALUE=DATE:(\d+)/.exec(calendarFile([{ ...entry, to }], "x", "2026-03-09"))![1];
  expect([end("2026-12-31"), end("2028-02-28"), end("2026-02-28")]).toEqual(["20270101", "20280229", "20260301"]);
});

/** Grammar of a content line. RFC 5545, section 3.1: name *(";" param) ":" value */
const contentLine =
  /^(?<name>[A-Za-z0-9-]+)(?<params>(?:;[A-Za-z0-9-]+=(?:"[^"\p{Cc}]*"|[^";:,\p{Cc}]*)(?:,(?:"[^"\p{Cc}]*"|[^";:,\p{Cc}]*))*)*):(?<value>[^\p{Cc}]*)$/u;
/** Value of type TEXT. RFC 5545, section 3.3.11 */
const textValue = /^(?:[^\\;,\p{Cc}]|\\[\\;,Nn])*$/u;

test("a calendar of a whole book follows the grammar and has what RFC 5545 asks of it, once each", () => {
  const trays = dueBook({ seed: 2, cooks: 12, traysPerCook: 6, cookSd: 0.05, traySd: 0.08 });
  const trial = trialOfTrays(trays, { bookTitle: "Tent, shed; cellar\\" });
  const { calendar } = dueList(trial, "x", dateOfDay(firstDay + 70), String);
  const read = calendar
    .replaceAll("\r\n ", "")
    .split("\r\n")
    .slice(0, -1)
    .map((line) => contentLine.exec(line)?.groups ?? { name: `not a content line: ${line}` });
  const names = read.map(({ name }) => name);
  // section 3.6: PRODID and VERSION once, before any component; section 3.6.1: UID and DTSTAMP once in each entry
  expect(names.slice(0, 3)).toEqual(["BEGIN", "VERSION", "PRODID"]);
  expect(names.filter((name) => name === "PRODID" || name === "VERSION")).toHaveLength(2);
  const entries = calendar.split("BEGIN:VEVENT").slice(1);
  expect(entries.length).toBeGreaterThan(3);
  for (const name of ["UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY"]) {
    expect(
      names.filter((one) => one === name),
      name,
    ).toHaveLength(entries.length);
  }
  expect(new Set(read.filter(({ name }) => name === "UID").map(({ value }) => value)).size).toBe(entries.length);
  for (const { name, params, value } of read) {
    if (name === "SUMMARY" || name === "DESCRIPTION" || name === "X-WR-CALNAME") expect(value).toMatch(textValue);
    if (name === "DTSTART" || name === "DTEND")
      expect([params, value]).toEqual([";VALUE=DATE", expect.stringMatching(/^\d{8}$/)]);
    if (name === "DTSTAMP") expect(value).toMatch(/^\d{8}T\d{6}Z$/);
  }
  // section 3.6.1: the end is later than the start
  for (const entry of entries) {
    expect(/DTEND;VALUE=DATE:(\d+)/.exec(entry)![1]! > /DTSTART;VALUE=DATE:(\d+)/.exec(entry)![1]!).toBe(true);
  }
});
