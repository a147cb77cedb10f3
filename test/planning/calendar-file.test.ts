import { expect, test } from "vitest";
import { calendarFile } from "../../src/planning/calendar-file.ts";

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
