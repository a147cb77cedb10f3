const weekdays = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"] as const;
const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

const read = (date: string) => new Date(`${date}T00:00:00Z`);

/**
 * A date as it is written in a list of days, the same on every machine.
 * @param date ISO 8601
 * @example dayWords("2026-03-10") // "Tue 10 Mar"
 */
export function dayWords(date: string): string {
  const day = read(date);
  return `${weekdays[day.getUTCDay()]} ${day.getUTCDate()} ${months[day.getUTCMonth()]}`;
}

/**
 * Two dates as a range; one date where they are the same.
 * @example daysWords("2026-03-10", "2026-03-14") // "10 to 14 Mar"
 * @example daysWords("2026-03-30", "2026-04-02") // "30 Mar to 2 Apr"
 */
export function daysWords(from: string, to: string): string {
  const [first, last] = [read(from), read(to)];
  const end = `${last.getUTCDate()} ${months[last.getUTCMonth()]}`;
  if (from === to) return end;
  const together = from.slice(0, 7) === to.slice(0, 7);
  return `${first.getUTCDate()}${together ? "" : ` ${months[first.getUTCMonth()]}`} to ${end}`;
}
