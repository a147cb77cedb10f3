import type { Change } from "../values/quantity-reading.ts";
import { isWeekday, monthNamed } from "./month-names.ts";

/** A date without the day of the week before it; "mar." is a Tuesday only before another month. */
function withoutWeekday(text: string): string {
  const named = /^([\p{L}-]{2,})[.,]*\s/u.exec(text);
  if (named === null || !isWeekday(named[1]!)) return text;
  const rest = text.slice(named[0].length);
  const isMonth = monthNamed(named[1]!) !== undefined;
  return isMonth && !rest.split(/[^\p{L}]/u).some((word) => monthNamed(word) !== undefined) ? text : rest;
}

/** A date without what is typed around it: spaces, a mark for "about", the time of day, the day of the week. */
export function bareDate(text: string): { rest: string; changes: Change[]; approximate: boolean } {
  const changes: Change[] = [];
  const plain = text
    .replace(/[\u00a0\u2000-\u200a\u202f]/g, " ")
    .replace(/[\u2010-\u2013\u2212]/g, "-")
    .replace(/[\u2018\u2019]/g, "'");
  const trimmed = plain.trim().replace(/\s+/g, " ");
  if (trimmed !== text) changes.push({ rule: "surrounding-space", reason: "spaces that mean nothing were taken off" });
  const sure = trimmed
    .replace(/^(?:~|≈|c\.\s|ca\.?\s|circa|about|around|approx\.?)\s*/i, "")
    .replace(/\s*(?:\?+|ish|approx\.?)$/i, "");
  const approximate = sure !== trimmed && /\d/.test(sure);
  if (approximate) changes.push({ rule: "approximate", reason: "typed as about right, not as noted on the day" });
  const dated = approximate ? sure : trimmed;
  const timeless = dated.replace(
    /[ T]\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?\s*(?:[ap]\.?m\.?)?\s*(?:Z|[+-]\d{2}:?\d{2})?$/i,
    "",
  );
  if (timeless !== dated) changes.push({ rule: "time-of-day", reason: "the time of day was taken off" });
  const rest = withoutWeekday(timeless);
  if (rest !== timeless) changes.push({ rule: "date-format", reason: "the day of the week was taken off" });
  return { rest, changes, approximate };
}
