/** One whole-day entry of a calendar. */
export interface CalendarEntry {
  /** the same for the same thing in every file, so that a newer file moves the entry and does not double it */
  uid: string;
  /** first and last day, ISO 8601 */
  from: string;
  to: string;
  title: string;
  /** lines of text */
  description: string;
}

const limit = 75;

/** Text as a value of type TEXT. @source RFC 5545, section 3.3.11 */
const escaped = (text: string): string =>
  text
    .replace(/\r\n?/g, "\n")
    // control characters other than a tab have no place in it
    .replace(/(?![\t\n])\p{Cc}/gu, "")
    .replaceAll("\\", "\\\\")
    .replaceAll(";", "\\;")
    .replaceAll(",", "\\,")
    .replaceAll("\n", "\\n");

/** A content line in pieces of at most 75 octets, never through a character. @source RFC 5545, section 3.1 */
function folded(line: string): string {
  let [out, octets] = ["", 0];
  for (const character of line) {
    const size = new TextEncoder().encode(character).length;
    if (octets + size > limit) {
      out += "\r\n ";
      octets = 1;
    }
    out += character;
    octets += size;
  }
  return out;
}

const compact = (date: string): string => date.replaceAll("-", "");

const dayAfter = (date: string): string =>
  new Date(Date.parse(`${date}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);

/**
 * An iCalendar file of whole-day entries, as a phone's or a computer's calendar reads it. Same entries, same bytes.
 * @param stamp ISO 8601 date the entries were made for
 * @source RFC 5545 (Internet Calendaring and Scheduling Core Object Specification), sections 3.1, 3.3.4, 3.4, 3.6.1, 3.8
 */
export function calendarFile(entries: ReadonlyArray<CalendarEntry>, name: string, stamp: string): string {
  const lines = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Gramwright//Trays due//EN",
    "CALSCALE:GREGORIAN",
    `X-WR-CALNAME:${escaped(name)}`,
    ...entries.flatMap(({ uid, from, to, title, description }) => [
      "BEGIN:VEVENT",
      `UID:${escaped(uid)}`,
      `DTSTAMP:${compact(stamp)}T000000Z`,
      `DTSTART;VALUE=DATE:${compact(from)}`,
      // the end of a whole-day entry is the day after its last one
      `DTEND;VALUE=DATE:${compact(dayAfter(to))}`,
      `SUMMARY:${escaped(title)}`,
      `DESCRIPTION:${escaped(description)}`,
      "TRANSP:TRANSPARENT",
      "END:VEVENT",
    ]),
    "END:VCALENDAR",
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join("");
}
